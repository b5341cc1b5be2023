using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Bare areas: primed, coated where asked for, and taken on by the next layer in time.</summary>
internal static class AreaCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan) => plan.Repair.BareAreas.SelectMany(area => Of(plan, area));

    private static IEnumerable<Reason> Of(CheckedPlan plan, BareArea area)
    {
        var coating = plan.On(area.Id, StepKind.StoneChip).ToList();
        if (coating.Count != (area.StoneChip ? 1 : 0))
            yield return Reason.Of("check-stone-chip-once", area.Id, coating.Count);
        var next = coating.Count > 0 ? coating[0].Start : plan.PaintStart;
        if (coating.Count > 0 && coating[0].HeatTo is not null && plan.Shop.Booth is { } booth)
            next += Duration.Min(booth.Ramp, coating[0].End - coating[0].Start);

        bool bare = area.Surface.IsBareMetal || plan.IsHeatToCome(area.Id);
        if (plan.Facts.Any(step => step.Kind == StepKind.StoneChip && step.Places.Contains(area.Id)))
            yield break;
        if (bare)
        {
            if (plan.On(area.Id, StepKind.Prime).LastOrDefault() is not { } prime || plan.SheetOf(prime.Material) is not { } primer || prime.End > next)
            {
                yield return Reason.Of("check-not-primed", area.Id);
                yield break;
            }
            if (!plan.On(area.Id, StepKind.Abrade).Any(clean => clean.End <= prime.Start))
                yield return Reason.Of("check-not-cleaned", area.Id, prime.Id);
            var rules = PrimerRules.Judge(new PrimerCase { Primer = primer, On = BareKind(area.Metal), Metals = [area.Metal] });
            if (!Verdicts.MayBeUsed(rules))
                yield return Reason.Of("check-primer-refused", area.Id, primer.Id, Verdicts.Deciding(rules).First().Reason);
            // The booth's warmth only helps the primer before the coating, so the panel's own air is counted.
            foreach (var reason in PreparationCheck.Between(plan, area.Id, primer, prime.End, next))
                yield return reason;
        }
        else if (area.Surface.Applied is { } wet && plan.SheetOf(area.Surface.Material)?.Milestone(MilestoneKind.NextLayer) is { } dries && !plan.IsPainted
            && !(plan.Cures.Reached(dries, wet, []) <= next + CheckedPlan.Tolerance))
        {
            yield return Reason.Of("check-coat-not-dry", area.Id, area.Surface.Material!.Value, next);
        }
        else if (area.Surface.Applied is { } applied && plan.SheetOf(area.Surface.Material) is { NextLayerWithin: { } window } coat && !plan.IsPainted
            && plan.Cures.WindowEnd(window, applied, []) is var end && next > end + CheckedPlan.Tolerance
            && !plan.On(area.Id, StepKind.Abrade).Any(abrade => abrade.End <= next))
        {
            yield return Reason.Of("check-window-missed", area.Id, coat.Id, end, next);
        }
    }

    private static SurfaceKind BareKind(Metal metal) => metal switch
    {
        Metal.Aluminium => SurfaceKind.BareAluminium,
        Metal.ZincCoatedSteel => SurfaceKind.ZincCoatedSteel,
        _ => SurfaceKind.BareSteel,
    };
}
