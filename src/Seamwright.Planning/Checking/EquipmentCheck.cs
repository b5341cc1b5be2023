using NodaTime;
using Seamwright.Curing;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Lamps and booth: never more at once than there are, only when they are free, and as the sheet and the shop's ramps allow.</summary>
internal static class EquipmentCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        var lamps = plan.All.Where(step => step.Kind == StepKind.Lamp).ToList();
        foreach (var step in lamps.Where(step => !plan.Facts.Contains(step)))
        {
            if (plan.Shop.Lamps is not { } park || step.Start < park.BusyUntil || step.End > park.FreeUntil)
                yield return Reason.Of("check-lamp-not-free", step.Id);
            else if (lamps.Count(other => other.Start <= step.Start && other.End > step.Start) > park.Count)
                yield return Reason.Of("check-lamp-count", step.Id, park.Count);
            if (!plan.Steps.Any(setUp => setUp.Kind == StepKind.SetUpLamp && setUp.Start == step.Start && setUp.Places.SequenceEqual(step.Places)))
                yield return Reason.Of("check-lamp-set-up", step.Id);
            foreach (var reason in Heat(plan, step))
                yield return reason;
        }

        var booth = plan.All.Where(step => step.Kind == StepKind.Paint || step is { Kind: StepKind.StoneChip, HeatTo: not null }).ToList();
        foreach (var step in booth.Where(step => !plan.Facts.Contains(step)))
        {
            if (booth.Exists(other => other != step && other.Start < step.End && step.Start < other.End))
                yield return Reason.Of("check-booth-twice", step.Id);
            if (step.Kind == StepKind.StoneChip)
            {
                foreach (var reason in Booth(plan, step))
                    yield return reason;
            }
        }
    }

    /// <summary>Not hotter than the sheet allows, and held as long as it asks. A lamp that only warms a panel before sealing owes the application limit.</summary>
    private static IEnumerable<Reason> Heat(CheckedPlan plan, Step step)
    {
        if (plan.Shop.Lamps is not { } park || step.HeatTo is not { } target || plan.SheetOf(step.Material) is not { } sheet)
            yield break;
        bool cures = plan.All.Any(other => other.Kind is StepKind.Seal or StepKind.Bond && other.End <= step.Start && other.Material == sheet.Id && other.Places.Intersect(step.Places).Any())
            || plan.Repair.Bonds.Any(bond => bond.Closed is not null && step.Places.Contains(bond.Id));
        var most = cures ? sheet.Heat?.PanelUpTo : sheet.Limits.PanelTo;
        if (target.Kelvin > most?.Kelvin + 1e-6 || (cures && sheet.Heat is null))
            yield return Reason.Of("check-lamp-too-hot", step.Id, sheet.Id, target);
        var heat = LampHeat.Of(step, park);
        if (cures && heat.Off - heat.Start - heat.Ramp < sheet.Heat?.LeastHold)
            yield return Reason.Of("check-lamp-hold", step.Id, sheet.Id, sheet.Heat!.LeastHold);
    }

    private static IEnumerable<Reason> Booth(CheckedPlan plan, Step step)
    {
        if (plan.Shop.Booth is not { } booth)
        {
            yield return Reason.Of("check-no-booth", step.Id);
            yield break;
        }
        var (from, to) = (step.Start.InZone(plan.Shop.Zone), step.End.InZone(plan.Shop.Zone));
        if (from.TimeOfDay < booth.From || to.TimeOfDay > booth.To || from.Date != to.Date)
            yield return Reason.Of("check-booth-hours", step.Id);
        if (plan.SheetOf(step.Material) is not { } sheet || (sheet.Milestone(MilestoneKind.Paint) ?? sheet.Milestone(MilestoneKind.Full)) is not { } ready)
            yield break;
        int minute = (int)plan.Air.MinuteOf(step.Start);
        double rate = MinuteCure.Rate(ready.Law, booth.PanelTemperature.Kelvin, plan.Air.Vapour(minute), plan.Air.Humidity(minute));
        if (!(rate > 0) || step.End - step.Start + CheckedPlan.Tolerance < booth.Ramp + step.Labour + Duration.FromMinutes(ready.Needed.Minutes / rate))
            yield return Reason.Of("check-booth-too-short", step.Id, sheet.Id);
    }
}
