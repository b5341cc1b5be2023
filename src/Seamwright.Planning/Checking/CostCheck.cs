using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every kind of cost, worked out again from steps, packs and the slot, agrees to the cent.</summary>
internal static class CostCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        var told = plan.Plan.Cost;
        (string Kind, Money Told, decimal Own)[] kinds =
        [
            ("labour", told.Labour, Labour(plan)),
            ("material", told.Material, Material(plan)),
            ("wasted", told.Wasted, 0),
            ("saved", told.SavedFromExpiry, -Saved(plan)),
            ("nozzles", told.Nozzles, plan.Plan.PackUses.Sum(use => use.Nozzles) * plan.Shop.Amounts.NozzlePrice.Amount),
            ("delivery", told.Delivery, plan.Plan.Orders.IsEmpty ? 0 : plan.Shop.Supplier?.PerOrder.Amount ?? 0),
            ("lamp", told.Lamp, plan.Steps.Where(step => step.Kind == StepKind.Lamp).Sum(step => Started(step.End - step.Start + plan.Shop.Lamps!.Cooling) * plan.Shop.Lamps.PerStartedHour.Amount)),
            ("booth", told.Booth, plan.Steps.Where(step => step is { Kind: StepKind.StoneChip, HeatTo: not null }).Sum(step => Started(step.End - step.Start) * plan.Shop.Booth!.PerStartedHour.Amount)),
            ("bay", told.BayTime, BayDays(plan) * plan.Shop.TimeValue.BayDay.Amount),
            ("late", told.Lateness, Late(plan)),
        ];
        foreach (var (kind, money, own) in kinds)
        {
            if (Math.Abs(money.Amount - own) >= 0.005m)
                yield return Reason.Of("check-cost", kind, money, new Money(own, plan.Shop.Currency));
        }
    }

    private static decimal Labour(CheckedPlan plan) => plan.Steps.Sum(step =>
        plan.Shop.People.FirstOrDefault(person => person.Id == step.Person) is { } person ? person.PerHour.Amount * (decimal)step.Labour.TotalMinutes / 60 : 0);

    /// <summary>Used share of each pack; a pack whose rest cannot be kept is paid as far as it was full.</summary>
    private static decimal Material(CheckedPlan plan) => plan.Plan.PackUses.Sum(use =>
    {
        var pack = plan.Sheets[use.Material].Pack;
        if (!pack.SingleUse)
            return Share(pack, use.Amount, use.StripLength);
        var held = plan.Input.Stock.Packs.FirstOrDefault(stocked => stocked.Id == use.Pack);
        return Share(pack, held?.Left ?? pack.Content, held?.StripLeft ?? pack.StripLength);
    });

    private static decimal Share(Packaging pack, Volume volume, Length strip) => pack.Price.Amount
        * (decimal)((pack.Content > Volume.Zero ? volume / pack.Content : 0) + (pack.StripLength > Length.Zero ? strip / pack.StripLength : 0));

    /// <summary>
    /// What comes from a pack that would expire unused is free, where such a pack holds enough for every seam that could be made of it,
    /// a nozzle's waste for each.
    /// </summary>
    private static decimal Saved(CheckedPlan plan)
    {
        var soon = plan.Input.Stock.Packs.Where(pack => IsExpiring(plan, pack)).ToList();
        var enough = soon.Where(pack => pack.Left.Millilitres >= MostOf(plan, plan.Sheets[pack.Material])).Select(pack => pack.Material).ToHashSet();
        return plan.Plan.PackUses.Where(use => enough.Contains(use.Material) && soon.Exists(pack => pack.Id == use.Pack))
            .Sum(use => Share(plan.Sheets[use.Material].Pack, use.Amount, use.StripLength));
    }

    private static bool IsExpiring(CheckedPlan plan, Pack pack)
    {
        if (plan.SheetOf(pack.Material) is not { Pack: { SingleUse: false, StripLength: var roll } packaging } sheet || roll > Length.Zero || pack is not { OnHold: null, PartnerMissing: false })
            return false;
        var zone = plan.Shop.Zone;
        Instant[] ends =
        [
            .. pack.Expires is { } day ? [EndOf(day)] : Array.Empty<Instant>(),
            .. pack.Opened is { } opened && packaging.OpenedLifeDays is { } days ? [EndOf(opened.PlusDays(days))] : Array.Empty<Instant>(),
            .. pack.Activated is { } activated && packaging.ActivatedLife is { } life ? [activated + life] : Array.Empty<Instant>(),
        ];
        _ = sheet;
        return ends.Length > 0 && ends.Min() > plan.Repair.Now && ends.Min() - plan.Repair.Now <= Duration.FromDays(plan.Shop.Amounts.UseUpDays);

        Instant EndOf(LocalDate date) => zone.AtStartOfDay(date.PlusDays(1)).ToInstant();
    }

    private static double MostOf(CheckedPlan plan, DataSheet sheet)
    {
        var amounts = plan.Shop.Amounts;
        double waste = sheet.Method == ApplicationMethod.CartridgeWithMixer ? (amounts.NozzleHeld + amounts.NozzlePurge).Millilitres : 0;
        return plan.SeamJoints.Where(joint => sheet.Looks.Contains(joint.Look.Profile)).Sum(joint => Beads.Needed(joint, amounts).Millilitres + waste);
    }

    private static decimal Started(Duration span) => (decimal)Math.Ceiling(span.TotalHours - 1e-9);

    private static int BayDays(CheckedPlan plan)
    {
        var (first, last) = (plan.Repair.PaintSlots[0].InZone(plan.Shop.Zone).Date, plan.Plan.Slot.InZone(plan.Shop.Zone).Date);
        int days = 0;
        for (var day = first.PlusDays(1); day <= last; day = day.PlusDays(1))
            days += plan.Shop.TimeValue.BayDays.Contains(day.DayOfWeek) && !plan.Shop.Holidays.Contains(day) ? 1 : 0;
        return days;
    }

    /// <summary>What was late before this plan is not its doing: hours count from now on.</summary>
    private static decimal Late(CheckedPlan plan)
    {
        double open = OwnHours.OpenMinutes(plan, Instant.Max(plan.Repair.Promise, plan.Repair.Now), plan.Plan.ReadyForDelivery);
        return Math.Min(plan.Shop.TimeValue.LateAtMost.Amount, (decimal)Math.Ceiling(open / 60 - 1e-9) * plan.Shop.TimeValue.LatePerStartedHour.Amount);
    }
}
