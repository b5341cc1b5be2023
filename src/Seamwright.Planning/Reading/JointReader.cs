using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>The decision for every joint and foamed cavity.</summary>
internal static class JointReader
{
    public static ImmutableArray<JointPlan> Read(PlanningCase planning, Found found, Instant slot) =>
    [
        .. planning.Joints.Select(facts => Joint(planning, found, facts, slot)),
        .. planning.Cavities.Select(facts => Cavity(planning, found, facts)),
    ];

    private static JointPlan Joint(PlanningCase planning, Found found, JointFacts facts, Instant slot)
    {
        var joint = facts.Joint;
        if (facts.Sealed is { } seam)
            return Sealed(planning, joint, seam);
        if (found.Schedule.Find(new ActivityId($"seal:{joint.Id}")) is not { Present: true, Mode: { } mode } planned)
            return new JointPlan { Joint = joint.Id, Why = [WhyNothing(joint)] };

        var option = found.Project.Modes[(planned.Id, mode)].Option!;
        var time = planning.Time;
        var batch = planned.Batch is { } id ? found.Project.Batches[id] : null;
        int ready = ReadyOf(found, planned, option, batch);
        var applied = new Interval(time.At(planned.Start), time.At(planned.End));
        int latest = option.Ready?.LatestFor(time.Floor(slot), time.Horizon) ?? -1;
        return new JointPlan
        {
            Joint = joint.Id,
            Material = option.Sheet.Id,
            Preparation = option.Preparation,
            Amount = option.Amount,
            StripLength = option.StripLength,
            Applied = applied,
            Ready = option.Ready is null ? null : time.At(ready),
            PaintBy = option.PaintBy is { } by ? time.At(by.At(planned.End)) : null,
            ApplyBy = latest >= 0 && batch?.Heat != HeatUse.After ? time.At(latest) : null,
            Heated = batch?.Heat is HeatUse.Before or HeatUse.After,
            Extrapolates = Extrapolates(planning, option, applied, time.At(Math.Min(ready, time.Horizon))),
            Why = WhyReader.Why(planning, facts, option),
        };
    }

    /// <summary>A seam that is made: its material and times are facts.</summary>
    private static JointPlan Sealed(PlanningCase planning, Joint joint, Seamwright.Work.Step seam)
    {
        var sheet = planning.SheetOf(seam.Material);
        bool waits = joint.Stage != Stage.AfterPaintHeat && (sheet?.Milestone(MilestoneKind.Paint) is not null || sheet?.PaintNeedsCuredThrough == true);
        return new JointPlan
        {
            Joint = joint.Id,
            Material = seam.Material,
            Amount = seam.Amount,
            StripLength = seam.StripLength,
            Applied = new Interval(seam.Start, seam.End),
            Ready = waits ? planning.ReadyOf(joint, seam) : null,
            PaintBy = joint.Above is LayerAbove.Paint or LayerAbove.StoneChip && sheet?.NextLayerWithin is { } window ? planning.Cures.LatestNextLayer(window, seam.End) : null,
            Heated = planning.Repair.DoneOn(joint.Id, StepKind.Lamp) is not null,
            Why = [Reason.Of("why-done")],
        };
    }

    private static JointPlan Cavity(PlanningCase planning, Found found, JointFacts facts)
    {
        if (planning.Repair.DoneOn(facts.Joint.Id, StepKind.Foam) is { } foamed)
            return new JointPlan { Joint = facts.Joint.Id, Material = foamed.Material, Why = [Reason.Of("why-done")] };
        var planned = found.Schedule.Find(new ActivityId($"foam:{facts.Joint.Id}"));
        var sheet = planned is { Present: true, Mode: { } mode } ? found.Project.Modes[(planned.Id, mode)].Sheet : null;
        return new JointPlan
        {
            Joint = facts.Joint.Id,
            Material = sheet?.Id,
            Why = [sheet is not null ? Reason.Of("why-foam-place", sheet.Id) : facts.Joint.Function == JointFunction.Structural ? Reason.Of("why-structural-foam") : Reason.Of("why-wax-only")],
        };
    }

    private static Reason WhyNothing(Joint joint) =>
        joint.Function switch
        {
            JointFunction.Structural or JointFunction.CrashRelevant => Reason.Of("why-maker-decides"),
            JointFunction.AcousticFoam => Reason.Of("why-foam-not-sealer"),
            _ => Reason.Of("why-no-seam"),
        };

    /// <summary>The minute from which the next layer may go on: by the cure, or when the lamp has cooled.</summary>
    private static int ReadyOf(Found found, PlannedActivity planned, JointOption option, BatchMeaning? batch)
    {
        if (batch?.Heat == HeatUse.After && found.Schedule.Find(new ActivityId($"lamp:{planned.Batch}")) is { Present: true } lamp)
        {
            return ActiveLags.Into(found, TimePoint.StartOf(ProjectBuilder.Paint))
                .Where(lag => lag.Lag.From == TimePoint.EndOf(lamp.Id))
                .Select(lag => lag.Earliest)
                .DefaultIfEmpty(lamp.End)
                .Max();
        }
        return option.Ready?.At(planned.End) ?? planned.End;
    }

    private static bool Extrapolates(PlanningCase planning, JointOption option, Interval applied, Instant ready)
    {
        if (option.Sheet.Milestone(MilestoneKind.Paint) is not { } paint || ready <= applied.Start)
            return false;
        return Extrapolation.Between(paint.Evidence, planning.Cures.Panel, applied.End, ready).Any;
    }
}
