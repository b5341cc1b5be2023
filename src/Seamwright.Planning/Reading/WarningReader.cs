using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>What has to be known to rely on a plan, and the safety lines of what it uses.</summary>
internal static class WarningReader
{
    public static ImmutableArray<Reason> Warnings(PlanningCase planning, Found found, ImmutableArray<Work.Step> steps, Supplies supplies, ImmutableArray<JointPlan> joints)
    {
        var warnings = ImmutableArray.CreateBuilder<Reason>();
        AddShortages(supplies, warnings);
        AddAdvice(planning, found, warnings);
        AddTightWork(planning, steps, warnings);
        AddWarmedPanels(planning, found, warnings);
        AddExtrapolated(planning, joints, warnings);
        AddRests(planning, steps, supplies, warnings);
        AddDrains(planning, warnings);
        AddClimate(planning, steps, warnings);
        if (planning.Repair.ProcedureReference.Length == 0)
            warnings.Add(Reason.Of("warn-no-procedure"));
        if (!planning.Repair.LooksRecorded)
            warnings.Add(Reason.Of("warn-looks-not-recorded"));
        return [.. warnings.DistinctBy(reason => reason.Key + "|" + string.Join('|', reason.Facts))];
    }

    public static ImmutableArray<Reason> Cautions(PlanningCase planning, ImmutableArray<Work.Step> steps) =>
    [
        .. steps.Select(step => planning.SheetOf(step.Material)).OfType<DataSheet>().Distinct()
            .SelectMany(sheet => Suitability.Cautions.For(sheet))
            .Distinct()
            .OrderBy(caution => caution.Hazard is null ? 0 : 1)
            .Select(caution => Reason.Of(caution.Key)),
        .. planning.Repair.Operations.Any(operation => operation.HotWork) ? [Reason.Of("caution-hot-work")] : ImmutableArray<Reason>.Empty,
    ];

    /// <summary>What neither shelf nor orders give: the plan cannot be carried out as it stands.</summary>
    private static void AddShortages(Supplies supplies, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var shortage in supplies.StillMissing)
            warnings.Add(Reason.Of("warn-short", shortage.Demand, shortage.Material));
        foreach (var shortage in supplies.NozzlesMissing)
            warnings.Add(Reason.Of("warn-nozzles-short", shortage.Demand, shortage.Count));
    }

    /// <summary>Advice of the rules on the way that was chosen.</summary>
    private static void AddAdvice(PlanningCase planning, Found found, ImmutableArray<Reason>.Builder warnings)
    {
        _ = planning;
        foreach (var planned in found.Schedule.Activities)
        {
            if (planned is not { Present: true, Mode: { } mode } || found.Project.Modes.GetValueOrDefault((planned.Id, mode))?.Option is not { } option)
                continue;
            foreach (var verdict in option.Verdicts.Where(verdict => verdict.Kind == VerdictKind.Advice))
                warnings.Add(Reason.Of("warn-advice", option.Joint.Id, verdict.Reason));
        }
    }

    /// <summary>A session that takes most of the mixer's life leaves no time for dams, masks and looks.</summary>
    private static void AddTightWork(PlanningCase planning, ImmutableArray<Work.Step> steps, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var step in steps.Where(step => step is { Kind: StepKind.Seal, Nozzles: > 0, Material: not null }))
        {
            var sheet = planning.Sheets[step.Material!.Value];
            if (sheet.Milestone(MilestoneKind.WorkEnd) is not { } work || planning.Cures.Finish(work.Law, work.Needed, step.Start) is not { } end)
                continue;
            var times = planning.Shop.Times;
            var life = end - step.Start;
            var each = (step.Labour - times.TwoPartSetUp - (times.NewNozzle * step.Nozzles)) / step.Nozzles;
            if (each.TotalMinutes > 0.75 * life.TotalMinutes)
                warnings.Add(Reason.Of("warn-tight-work", step.Id, sheet.Id, each, Duration.FromMinutes(Math.Floor(life.TotalMinutes))));
        }
    }

    private static void AddWarmedPanels(PlanningCase planning, Found found, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var batch in found.Schedule.Batches.Where(batch => batch.Used && found.Project.Batches[batch.Id].Heat == HeatUse.Before))
        {
            var at = planning.Time.At(batch.Start);
            warnings.Add(Reason.Of("warn-panel-warmed", found.Project.Batches[batch.Id].Sheet!.Id, planning.Cures.Panel.TemperatureAt(at)));
        }
    }

    private static void AddExtrapolated(PlanningCase planning, ImmutableArray<JointPlan> joints, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var group in joints.Where(joint => joint is { Extrapolates: true, Material: not null }).GroupBy(joint => joint.Material!.Value))
        {
            var sheet = planning.Sheets[group.Key];
            bool assumed = sheet.Milestone(MilestoneKind.Paint)?.Evidence.EnergyIsDefault == true;
            warnings.Add(Reason.Of(assumed ? "warn-extrapolates-default" : "warn-extrapolates", sheet.Id, string.Join(", ", group.Select(joint => joint.Joint))));
        }
    }

    /// <summary>What an activated can or a mixed pot leaves dies soon.</summary>
    private static void AddRests(PlanningCase planning, ImmutableArray<Work.Step> steps, Supplies supplies, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var last in supplies.Uses.GroupBy(use => use.Pack).Select(uses => uses.Last()))
        {
            var sheet = planning.Sheets[last.Material];
            if (sheet.Pack.ActivatedLife is null || last.Left <= Units.Volume.Zero)
                continue;
            var step = steps.First(step => step.Id == last.StepId);
            warnings.Add(Reason.Of("warn-activated-rest", last.Pack, last.Left, last.LeftUsableUntil ?? step.Start + sheet.Pack.ActivatedLife.Value));
        }
    }

    private static void AddDrains(PlanningCase planning, ImmutableArray<Reason>.Builder warnings)
    {
        foreach (var joint in planning.Repair.Joints.Where(joint => joint.Drains > 0))
            warnings.Add(Reason.Of("warn-drains", joint.Id, joint.Drains));
        foreach (var cavity in planning.Repair.Cavities.Where(cavity => cavity.Drains > 0))
            warnings.Add(Reason.Of("warn-drains", cavity.Id, cavity.Drains));
    }

    private static void AddClimate(PlanningCase planning, ImmutableArray<Work.Step> steps, ImmutableArray<Reason>.Builder warnings)
    {
        var from = planning.Repair.Now;
        var to = steps.IsEmpty ? from + Duration.FromHours(1) : steps.Max(step => step.End);
        foreach (var notice in planning.Input.Climate.NoticesWithin(from, to))
        {
            warnings.Add(notice.Kind switch
            {
                ClimateNoticeKind.GapBridged => Reason.Of("warn-climate-gap", notice.From, notice.To),
                ClimateNoticeKind.HeldBeforeStart => Reason.Of("warn-climate-before", notice.To),
                ClimateNoticeKind.HeldAfterEnd => Reason.Of("warn-climate-after", notice.From),
                ClimateNoticeKind.DuplicatesDropped => Reason.Of("warn-climate-duplicates", notice.Count),
                ClimateNoticeKind.OutOfOrderSorted => Reason.Of("warn-climate-order", notice.Count),
                _ => Reason.Of("warn-climate-capped", notice.From, notice.To),
            });
        }
    }
}
