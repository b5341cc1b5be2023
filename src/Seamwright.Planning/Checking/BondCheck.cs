using NodaTime;
using Seamwright.Curing;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Bonds: fitted once, clamped until handling strength, cleaned, primed again where asked for.</summary>
internal static class BondCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var bond in plan.Repair.Bonds)
        {
            var fit = plan.On(bond.Id, StepKind.Bond).ToList();
            if (fit.Count != (bond.Closed is null ? 1 : 0) || fit.Exists(step => step.Material != bond.Adhesive))
            {
                yield return Reason.Of("check-bond-once", bond.Id, fit.Count);
                continue;
            }
            var closed = bond.Closed ?? fit[0].End;
            var clean = plan.On(bond.Id, StepKind.CleanBond).FirstOrDefault();
            var free = clean?.Start ?? plan.PaintStart;
            if (clean is null && bond.CleanTime > Duration.Zero)
                yield return Reason.Of("check-bond-not-cleaned", bond.Id);
            if (plan.SheetOf(bond.Adhesive)?.Milestone(MilestoneKind.Handling) is { } handling
                && !(plan.Cures.Reached(handling, closed, plan.HeatOn(bond.Id)) <= free + CheckedPlan.Tolerance))
                yield return Reason.Of("check-bond-too-soon", bond.Id, bond.Adhesive, free);
            if (bond.RePrime && (plan.On(bond.Id, StepKind.Prime).LastOrDefault() is not { } prime || prime.Start < (clean?.End ?? free)))
                yield return Reason.Of("check-not-primed", bond.Id);
        }
    }
}
