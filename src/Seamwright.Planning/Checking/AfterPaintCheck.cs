using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Foam, wax, refit and checks: done, once, after paint where they belong there, and the car handed over after the last of them.</summary>
internal static class AfterPaintCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var cavity in plan.Repair.Cavities.Where(cavity => cavity.Treatment is CavityTreatment.FlexibleFoam or CavityTreatment.RigidFoam))
        {
            var use = cavity.Treatment == CavityTreatment.FlexibleFoam ? MaterialUse.FlexibleFoam : MaterialUse.RigidFoam;
            var foams = plan.On(cavity.Id, StepKind.Foam).ToList();
            if (foams.Count != 1 || plan.SheetOf(foams[0].Material)?.Use != use)
                yield return Reason.Of("check-foam-once", cavity.Id, foams.Count);
            if (plan.On(cavity.Id, StepKind.Seal).Any())
                yield return Reason.Of("check-no-seam-there", cavity.Id);
        }
        var waxed = plan.Repair.Cavities.Where(cavity => cavity.Treatment == CavityTreatment.Wax).Select(cavity => cavity.Id).ToList();
        var wax = plan.All.Where(step => step.Kind == StepKind.Wax).ToList();
        foreach (var cavity in waxed.Where(cavity => !wax.Exists(step => step.Places.Contains(cavity))))
            yield return Reason.Of("check-not-waxed", cavity);
        foreach (var kind in (StepKind[])[StepKind.Refit, StepKind.FinalCheck])
        {
            if (plan.All.Count(step => step.Kind == kind) != 1 && (kind == StepKind.Refit ? plan.Shop.Times.Refit : plan.Shop.Times.FinalCheck) > Duration.Zero)
                yield return Reason.Of("check-work-missing", kind);
        }
        var after = plan.Steps.Where(step => IsAfterPaint(plan, step)).ToList();
        foreach (var step in after.Where(step => step.Start < plan.PaintEnd))
            yield return Reason.Of("check-before-paint-ended", step.Id, plan.PaintEnd);
        foreach (var step in after.Where(step => step.Kind is StepKind.Refit or StepKind.FinalCheck && wax.Exists(earlier => step.Start < earlier.End)))
            yield return Reason.Of("check-before-wax", step.Id);

        var last = after.Concat(plan.Facts.Where(step => IsAfterPaint(plan, step))).Select(step => step.End).Append(plan.PaintEnd).Max();
        if (plan.Plan.ReadyForDelivery < last || plan.Plan.ReadyForDelivery > last + CheckedPlan.Tolerance)
            yield return Reason.Of("check-delivery", plan.Plan.ReadyForDelivery, last);
    }

    public static bool IsAfterPaint(CheckedPlan plan, Step step) => step.Kind switch
    {
        StepKind.Wax or StepKind.Refit or StepKind.FinalCheck => true,
        StepKind.Foam => plan.Repair.Cavities.Any(cavity => step.Places.Contains(cavity.Id) && cavity.Stage == Stage.AfterPaintHeat),
        StepKind.Operation => plan.Repair.Operations.Any(operation => step.Places.Contains(operation.Id) && operation.Stage == Stage.AfterPaintHeat),
        StepKind.Seal => plan.Repair.Joints.Any(joint => step.Places.Contains(joint.Id) && joint.Stage == Stage.AfterPaintHeat),
        _ => false,
    };
}
