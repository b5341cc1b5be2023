using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every seam is ready when the plan says so, before the slot and inside its paint window; and the car's ready moment is that of the last.</summary>
internal static class ReadyCheck
{
    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        if (plan.IsPainted)
            yield break;
        var moments = new List<(Instant Early, Instant Late)>();
        var stoneChip = plan.Steps.Where(step => step.Kind == StepKind.StoneChip).Select(step => (Instant?)step.Start).Min();
        foreach (var joint in plan.SeamJoints.Where(joint => joint.Stage != Stage.AfterPaintHeat))
        {
            if (plan.Plan.Joints.FirstOrDefault(decided => decided.Joint == joint.Id) is not { Applied: { } applied } decision || plan.SheetOf(decision.Material) is not { } sheet)
                continue;
            var heats = plan.HeatOn(joint.Id);
            var after = heats.Where(heat => heat.Start >= applied.End && decision.Heated).ToList();
            var warm = plan.Cures.Paintable(sheet, Beads.Depth(joint), applied.End, heats);
            var cold = plan.Cures.Paintable(sheet, Beads.Depth(joint), applied.End, []);
            if (warm is not { } early || early > plan.PaintStart + CheckedPlan.Tolerance)
            {
                yield return Reason.Of("check-not-ready", joint.Id, sheet.Id, plan.PaintStart);
                continue;
            }
            if (joint.Above == LayerAbove.StoneChip && early > stoneChip + CheckedPlan.Tolerance)
                yield return Reason.Of("check-not-ready", joint.Id, sheet.Id, stoneChip!.Value);

            // A lamp that cures is waited for until the panel is cool; one that only warms the panel first is not counted by the plan, so it is late rather than early.
            var cool = after.Count > 0 ? after.Max(heat => heat.Off + heat.Cooling) : Instant.MinValue;
            var late = after.Count > 0 ? Instant.Max(early, cool) : Instant.Max(early, cold ?? Instant.MaxValue);
            bool waits = sheet.Milestone(MilestoneKind.Paint) is not null || sheet.PaintNeedsCuredThrough;
            if (waits && (decision.Ready is not { } ready || ready < early - CheckedPlan.Tolerance || ready > late + CheckedPlan.Tolerance))
                yield return Reason.Of("check-joint-ready", joint.Id, early, decision.Ready ?? Instant.MinValue);
            moments.Add((Instant.Max(early, after.Count > 0 ? cool : early), late));
            foreach (var reason in Window(plan, joint, sheet, applied.End))
                yield return reason;
        }

        moments.AddRange(OtherMoments(plan).Select(at => (at, at)));
        if (moments.Count == 0)
            yield break;
        var (first, last) = (moments.Max(moment => moment.Early), moments.Max(moment => moment.Late));
        if (plan.Plan.ReadyForPaint < first - CheckedPlan.Tolerance || plan.Plan.ReadyForPaint > last + CheckedPlan.Tolerance)
            yield return Reason.Of("check-ready-for-paint", plan.Plan.ReadyForPaint, first);
        if (plan.Plan.ReadyForPaint > plan.PaintStart)
            yield return Reason.Of("check-ready-after-slot", plan.Plan.ReadyForPaint, plan.PaintStart);
    }

    private static IEnumerable<Reason> Window(CheckedPlan plan, Joint joint, DataSheet sheet, Instant applied)
    {
        if (joint.Above is not (LayerAbove.Paint or LayerAbove.StoneChip) || sheet.NextLayerWithin is not { } window)
            yield break;
        var end = plan.Cures.WindowEnd(window, applied, plan.HeatOn(joint.Id));
        bool abraded = plan.On(joint.Id, StepKind.Abrade).Any(step => step.Start >= applied && step.End <= plan.PaintStart);
        if (plan.PaintStart > end + CheckedPlan.Tolerance && !abraded)
            yield return Reason.Of("check-paint-window", joint.Id, sheet.Id, end);
    }

    /// <summary>Everything else paint waits for: works done before it, new primer, and stone-chip coating in air.</summary>
    private static IEnumerable<Instant> OtherMoments(CheckedPlan plan)
    {
        foreach (var area in plan.Repair.BareAreas.Where(area => !area.StoneChip && !area.Surface.IsBareMetal && !plan.IsHeatToCome(area.Id)))
        {
            if (area.Surface.Applied is { } applied && plan.SheetOf(area.Surface.Material)?.Milestone(MilestoneKind.NextLayer) is { } dries
                && plan.Cures.Reached(dries, applied, []) is { } dry && dry > plan.Repair.Now)
                yield return dry;
        }
        var under = plan.Facts.Where(step => step.Kind == StepKind.StoneChip
            || (step.Kind is StepKind.Operation or StepKind.CleanBond or StepKind.Foam && step.End > plan.Repair.Now && !AfterPaintCheck.IsAfterPaint(plan, step)));
        foreach (var step in plan.Steps.Concat(under).Where(step => step.Person is not null && step.Kind is not (StepKind.Paint or StepKind.SetUpLamp) && step.End <= plan.PaintStart))
        {
            yield return step.End;
            var sheet = plan.SheetOf(step.Material);
            var next = step.Kind switch
            {
                StepKind.Prime => sheet?.Milestone(MilestoneKind.NextLayer),
                StepKind.StoneChip when step.HeatTo is null => sheet?.Milestone(MilestoneKind.Paint) ?? sheet?.Milestone(MilestoneKind.Full),
                _ => null,
            };
            // Primer under a seam has been dry since before the seam.
            if (next is not null)
                yield return plan.Cures.Reached(next, step.End, []) ?? Instant.MaxValue;
        }
    }
}
