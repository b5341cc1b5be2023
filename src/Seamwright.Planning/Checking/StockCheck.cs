using NodaTime;
using Seamwright.Materials;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every step gets the material it takes, from packs that may be used then, and no pack gives more than it holds.</summary>
internal static class StockCheck
{
    /// <summary>Tenths of a microlitre are rounding.</summary>
    private const double Speck = 1e-4;

    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var step in plan.Steps.Where(step => Material(plan, step) is not null))
        {
            var uses = plan.Plan.PackUses.Where(use => use.StepId == step.Id).ToList();
            double waste = (plan.Shop.Amounts.NozzleHeld + plan.Shop.Amounts.NozzlePurge).Millilitres * uses.Sum(use => use.Nozzles);
            double taken = uses.Sum(use => use.Amount.Millilitres), strip = uses.Sum(use => use.StripLength.Millimetres);
            if (Math.Abs(taken - step.Amount.Millilitres - waste) > Speck || Math.Abs(strip - step.StripLength.Millimetres) > 0.01)
                yield return Reason.Of("check-not-supplied", step.Id, step.Amount);
            foreach (var use in uses.Where(use => use.Material != Material(plan, step)!.Id))
                yield return Reason.Of("check-other-material", step.Id, use.Pack, use.Material);
        }
        foreach (var use in plan.Plan.PackUses.Where(use => !plan.Steps.Any(step => step.Id == use.StepId)))
            yield return Reason.Of("check-use-without-step", use.Pack, use.StepId);
        foreach (var uses in plan.Plan.PackUses.Where(use => plan.Steps.Any(step => step.Id == use.StepId)).GroupBy(use => use.Pack))
        {
            foreach (var reason in OfPack(plan, uses.Key, [.. uses]))
                yield return reason;
        }
    }

    /// <summary>What a step takes from the shelf; null = nothing.</summary>
    public static DataSheet? Material(CheckedPlan plan, Step step)
    {
        bool takes = step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond or StepKind.Foam or StepKind.StoneChip or StepKind.Wax
            && (step.Amount > Units.Volume.Zero || step.StripLength > Units.Length.Zero);
        if (!takes)
            return null;
        return plan.SheetOf(step.Material) ?? (step.Kind == StepKind.Wax
            ? plan.Input.Sheets.FirstOrDefault(sheet => plan.Plan.PackUses.Any(use => use.StepId == step.Id && use.Material == sheet.Id))
            : null);
    }

    private static IEnumerable<Reason> OfPack(CheckedPlan plan, PackId id, List<PackUse> uses)
    {
        var sheet = plan.SheetOf(uses[0].Material);
        var pack = plan.Input.Stock.Packs.FirstOrDefault(pack => pack.Id == id);
        if (sheet is null || (pack is null && !uses[0].Ordered))
        {
            yield return Reason.Of("check-no-such-pack", id);
            yield break;
        }
        var (volume, strip) = pack is null ? (sheet.Pack.Content, sheet.Pack.StripLength) : (pack.Left, pack.StripLeft);
        if (uses.Sum(use => use.Amount.Millilitres) > volume.Millilitres + Speck || uses.Sum(use => use.StripLength.Millimetres) > strip.Millimetres + 0.01)
            yield return Reason.Of("check-overdrawn", id, volume);

        var starts = uses.Select(use => plan.Steps.First(step => step.Id == use.StepId).Start).ToList();
        if (pack is not null)
        {
            foreach (var use in starts.Where(start => !IsUsable(plan, pack, sheet, start, starts.Min())))
                yield return Reason.Of("check-unusable", id, use);
        }
        if (sheet.Pack.SingleUse && uses.Select(use => use.StepId).Distinct().Count() > 1)
            yield return Reason.Of("check-single-use", id);
    }

    private static bool IsUsable(CheckedPlan plan, Pack pack, DataSheet sheet, Instant at, Instant first)
    {
        var zone = plan.Shop.Zone;
        var day = at.InZone(zone).Date;
        var opened = pack.Opened ?? first.InZone(zone).Date;
        var activated = pack.Activated ?? first;
        bool begun = pack.Opened is not null || pack.Activated is not null;
        return pack is { OnHold: null, PartnerMissing: false }
            && pack.Material == sheet.Id
            && !(begun && sheet.Pack.SingleUse)
            && !(at < pack.Arrives)
            && !(day > pack.Expires)
            && !(sheet.Pack.OpenedLifeDays is { } days && day > opened.PlusDays(days))
            && !(sheet.Pack.ActivatedLife is { } life && at >= activated + life);
    }
}
