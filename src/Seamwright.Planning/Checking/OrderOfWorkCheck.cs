using NodaTime;
using Seamwright.Curing;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>What comes before what: the places each one names, hot work, closing the access, levelling, paint.</summary>
internal static class OrderOfWorkCheck
{
    private static readonly StepKind[] Applied =
        [StepKind.Strip, StepKind.Abrade, StepKind.Prime, StepKind.Seal, StepKind.StoneChip, StepKind.Foam, StepKind.Bond, StepKind.Operation];

    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var operation in plan.Repair.Operations.Where(operation => operation.Time > Duration.Zero && plan.On(operation.Id, StepKind.Operation).Count() != 1))
            yield return Reason.Of("check-operation-once", operation.Id);
        foreach (var (place, after) in Places(plan))
        {
            foreach (var step in plan.On(place, Applied).Where(step => !plan.Facts.Contains(step) && IsTooEarly(plan, place, after, step)))
                yield return Reason.Of("check-too-early", step.Id, place);
        }
        foreach (var reason in Closing(plan))
            yield return reason;
        foreach (var reason in Levelling(plan))
            yield return reason;
        foreach (var step in plan.Steps.Where(step => step.Person is not null && step.Kind != StepKind.Paint && IsBeforePaint(plan, step) && step.End > plan.PaintStart))
            yield return Reason.Of("check-after-paint-began", step.Id, plan.PaintStart);
        if (plan.IsPainted)
            yield break;
        if (!plan.Repair.PaintSlots.Contains(plan.Plan.Slot) || plan.PaintStart < plan.Plan.Slot || plan.PaintStart >= plan.Plan.Slot + Duration.FromMinutes(5)
            || plan.Steps.Count(step => step.Kind == StepKind.Paint) != 1)
            yield return Reason.Of("check-slot", plan.Plan.Slot);
    }

    private static IEnumerable<(PlaceId Place, IEnumerable<PlaceId> After)> Places(CheckedPlan plan)
    {
        var repair = plan.Repair;
        return repair.Joints.Select(joint => (joint.Id, joint.After))
            .Concat(repair.BareAreas.Select(area => (area.Id, area.After)))
            .Concat(repair.Cavities.Select(cavity => (cavity.Id, cavity.After)))
            .Concat(repair.Bonds.Select(bond => (bond.Id, bond.After)))
            .Concat(repair.Operations.Select(operation => (operation.Id, operation.After)))
            .Select(pair => (pair.Id, pair.After.Concat(repair.Operations.Where(operation => operation.HotWork && operation.Near.Contains(pair.Id)).Select(operation => operation.Id))));
    }

    private static bool IsTooEarly(CheckedPlan plan, PlaceId place, IEnumerable<PlaceId> after, Step step) =>
        after.Where(named => named != place).Any(named => Done(plan, named) is { } end && step.Start < end);

    /// <summary>When a bond is cleaned or an operation done; its new primer is looked at with the seams that lie on it.</summary>
    private static Instant? Done(CheckedPlan plan, PlaceId named) =>
        plan.On(named, StepKind.Operation, StepKind.CleanBond, StepKind.Prime).Select(step => (Instant?)step.End).Max();

    private static IEnumerable<Reason> Closing(CheckedPlan plan)
    {
        var closing = plan.Repair.Operations.Where(operation => operation.ClosesAccess).Select(operation => operation.Id)
            .Concat(plan.Repair.Bonds.Where(bond => bond.ClosesAccess && bond.Closed is null).Select(bond => bond.Id))
            .SelectMany(id => plan.On(id, StepKind.Operation, StepKind.Bond))
            .ToList();
        if (closing.Count == 0 || closing.Exists(plan.Facts.Contains))
            yield break;
        var closes = closing.Min(step => step.Start);
        foreach (var joint in plan.SeamJoints.Where(joint => joint.Stage == Stage.BeforeAccessCloses))
        {
            foreach (var seal in plan.On(joint.Id, StepKind.Seal))
            {
                var sheet = plan.SheetOf(seal.Material);
                var touch = sheet?.Milestone(MilestoneKind.TackFree) ?? sheet?.Milestone(MilestoneKind.Skin);
                var free = touch is null ? seal.End : plan.Cures.Reached(touch, seal.End, plan.HeatOn(joint.Id));
                if (!(free <= closes + CheckedPlan.Tolerance))
                    yield return Reason.Of("check-access", joint.Id, closes);
            }
        }
        foreach (var cavity in plan.Repair.Cavities.Where(cavity => cavity.Stage == Stage.BeforeAccessCloses))
        {
            if (plan.On(cavity.Id, StepKind.Foam).Any(foam => foam.End > closes))
                yield return Reason.Of("check-access", cavity.Id, closes);
        }
    }

    private static IEnumerable<Reason> Levelling(CheckedPlan plan)
    {
        if (plan.Repair.VehicleTilt is not { } tilt)
            yield break;
        var level = plan.Steps.FirstOrDefault(step => step.Kind == StepKind.Level);
        if (level is not null && !plan.Repair.CanBeLevelled)
            yield return Reason.Of("check-cannot-level", level.Id);
        foreach (var seal in plan.Steps.Where(step => step.Kind == StepKind.Seal && plan.SheetOf(step.Material) is { LevelOnly: true } sheet && tilt > (sheet.MaximumTilt ?? Angle.Zero)))
        {
            if (level is null || level.End > seal.Start)
                yield return Reason.Of("check-not-level", seal.Id, tilt);
        }
    }

    private static bool IsBeforePaint(CheckedPlan plan, Step step) => step.Kind switch
    {
        StepKind.Wax or StepKind.Refit or StepKind.FinalCheck => false,
        StepKind.Foam => plan.Repair.Cavities.Any(cavity => step.Places.Contains(cavity.Id) && cavity.Stage != Stage.AfterPaintHeat),
        StepKind.Operation => plan.Repair.Operations.Any(operation => step.Places.Contains(operation.Id) && operation.Stage != Stage.AfterPaintHeat),
        StepKind.SetUpLamp => true,
        _ => plan.Repair.Joints.Any(joint => step.Places.Contains(joint.Id) && joint.Stage != Stage.AfterPaintHeat)
            || plan.Repair.BareAreas.Any(area => step.Places.Contains(area.Id) && area.Stage != Stage.AfterPaintHeat)
            || plan.Repair.Bonds.Any(bond => step.Places.Contains(bond.Id)),
    };
}
