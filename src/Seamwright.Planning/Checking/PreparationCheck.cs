using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>What lies beneath each seam: dry, inside its window, abraded or primed anew where it is not.</summary>
internal static class PreparationCheck
{
    /// <summary>An abraded coat or bare metal takes the next layer within this. (common practice)</summary>
    private static readonly Duration StaysFresh = Duration.FromHours(24);

    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var joint in plan.SeamJoints.Where(joint => !plan.IsSealed(joint.Id)))
        {
            if (plan.Plan.Joints.FirstOrDefault(decided => decided.Joint == joint.Id) is not { Applied: { } applied } decision)
                continue;
            var now = plan.AfterHeat(joint);
            var reasons = decision.Preparation switch
            {
                Preparation.AsIs => AsItLies(plan, now, applied.Start),
                Preparation.Abrade => Abraded(plan, now, applied.Start),
                Preparation.Prime => Primed(plan, now, StepKind.Abrade, applied.Start),
                _ => Primed(plan, now, StepKind.Strip, applied.Start),
            };
            foreach (var reason in reasons)
                yield return reason;
        }
    }

    /// <summary>Sheet of the primer that the plan sprays under a joint, with the joint or with its bond; null = none.</summary>
    public static DataSheet? PrimerUnder(CheckedPlan plan, Joint joint) => plan.SheetOf(PrimeStep(plan, joint)?.Material);

    private static Step? PrimeStep(CheckedPlan plan, Joint joint)
    {
        var own = plan.On(joint.Id, StepKind.Prime).LastOrDefault();
        return own ?? (plan.PrimedWith(joint) is { } bond ? plan.On(bond.Id, StepKind.Prime).LastOrDefault() : null);
    }

    private static IEnumerable<Reason> AsItLies(CheckedPlan plan, Joint joint, Instant start)
    {
        if (joint.Surface.IsBareMetal)
        {
            bool named = plan.Repair.Procedure.Any(said =>
                said.Kind == ProcedureKind.Allows && (said.Place is null || said.Place == joint.Id) && plan.SheetOf(plan.Plan.Joints.First(decided => decided.Joint == joint.Id).Material) is { } sheet && said.Names(sheet));
            if (!named)
                yield return Reason.Of("check-unprimed", joint.Id);
        }
        if (joint.Surface.Applied is not { } applied || plan.SheetOf(joint.Surface.Material) is not { } coat)
            yield break;
        foreach (var reason in Between(plan, joint.Id, coat, applied, start))
            yield return reason;
    }

    private static IEnumerable<Reason> Abraded(CheckedPlan plan, Joint joint, Instant start)
    {
        if (plan.On(joint.Id, StepKind.Abrade).LastOrDefault(step => step.End <= start) is not { } abrade || start - abrade.End > StaysFresh)
            yield return Reason.Of("check-not-abraded", joint.Id);
        else if (joint.Surface.Applied is { } applied && plan.SheetOf(joint.Surface.Material) is { } coat && IsTooSoon(plan, joint.Id, coat, applied, abrade.Start) is { } soon)
            yield return soon;
    }

    private static IEnumerable<Reason> Primed(CheckedPlan plan, Joint joint, StepKind before, Instant start)
    {
        if (PrimeStep(plan, joint) is not { } prime || plan.SheetOf(prime.Material) is not { } primer || prime.End > start)
        {
            yield return Reason.Of("check-not-primed", joint.Id);
            yield break;
        }
        bool withBond = !prime.Places.Contains(joint.Id);
        var clean = plan.On(joint.Id, before).LastOrDefault(step => step.End <= prime.Start);
        if (!withBond && (clean is null || prime.Start - clean.End > StaysFresh))
            yield return Reason.Of("check-not-cleaned", joint.Id, prime.Id);
        foreach (var reason in Between(plan, joint.Id, primer, prime.End, start))
            yield return reason;
    }

    /// <summary>A next layer lies between the drying and the end of the window of the coat beneath.</summary>
    public static IEnumerable<Reason> Between(CheckedPlan plan, PlaceId place, DataSheet coat, Instant applied, Instant next)
    {
        if (IsTooSoon(plan, place, coat, applied, next) is { } soon)
            yield return soon;
        if (coat.NextLayerWithin is { } window && plan.Cures.WindowEnd(window, applied, []) is var end && next > end + CheckedPlan.Tolerance)
            yield return Reason.Of("check-window-missed", place, coat.Id, end, next);
    }

    private static Reason? IsTooSoon(CheckedPlan plan, PlaceId place, DataSheet coat, Instant applied, Instant next)
    {
        if (coat.Milestone(MilestoneKind.NextLayer) is not { } milestone)
            return null;
        var dry = plan.Cures.Reached(milestone, applied, plan.HeatOn(place));
        return dry is { } at && at <= next + CheckedPlan.Tolerance ? null : Reason.Of("check-coat-not-dry", place, coat.Id, next);
    }
}
