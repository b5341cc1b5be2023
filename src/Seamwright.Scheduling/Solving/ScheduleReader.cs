using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>Turns values of solver variables into a schedule; its cost is computed from the schedule, not read from the solver.</summary>
internal static class ScheduleReader
{
    public static Schedule Read(ProjectModel model, CpSolver solver)
    {
        var planned = new Dictionary<ActivityId, PlannedActivity>();
        foreach (ActivityVariables group in model.Groups)
        {
            foreach (PlannedActivity activity in Activities(group, solver))
                planned[activity.Id] = activity;
        }

        ImmutableArray<PlannedActivity> activities = [.. model.Project.Activities.Select(a => planned[a.Id])];
        ImmutableArray<PlannedBatch> batches = [.. model.Project.Batches.Select(b => Batch(model.Batches[b.Id], solver))];
        ImmutableArray<Cover> covers = Covers(model, solver, activities, batches);
        var drawn = covers.Select(c => c.Lot).ToHashSet();
        var needed = model.Project.Lots.Where(l => drawn.Contains(l.Id)).Select(l => l.Unlock).ToHashSet();
        ImmutableArray<UnlockId> unlocked = [.. model.Project.Unlocks.Select(u => u.Id).Where(u => needed.Contains(u))];
        var schedule = new Schedule(activities, batches, covers, unlocked, 0);
        return new Schedule(activities, batches, covers, unlocked, ScheduleCost.Of(model.Project, schedule));
    }

    private static IEnumerable<PlannedActivity> Activities(ActivityVariables group, CpSolver solver)
    {
        if (group.Present is { } present && !solver.BooleanValue(present))
            return group.Members.Select(m => new PlannedActivity(m.Id, false, null, -1, -1, null));
        var modes = Enumerable.Range(0, group.Counts.Length).SelectMany(k => Enumerable.Repeat(k, (int)solver.Value(group.Counts[k])));
        return group.Members.Zip(modes, (member, k) =>
        {
            Mode mode = member.Modes[k];
            if (group.Batches[k] is { } batch)
                return new PlannedActivity(member.Id, true, mode.Id, Minute(batch.Start, solver), Minute(batch.End, solver), mode.Batch);
            int start = (int)solver.Value(group.Start!) * group.StartStep;
            return new PlannedActivity(member.Id, true, mode.Id, start, start + mode.Duration, null);
        });
    }

    private static PlannedBatch Batch(BatchVariables batch, CpSolver solver)
    {
        if (!solver.BooleanValue(batch.Used))
            return new PlannedBatch(batch.Data.Id, false, null, -1, -1);
        CrewId? crew = batch.Crews.Count == 0 ? null : batch.Crews.First(c => solver.BooleanValue(c.Does)).Crew.Id;
        return new PlannedBatch(batch.Data.Id, true, crew, Minute(batch.Start, solver), Minute(batch.End, solver));
    }

    private static int Minute(TimeExpression time, CpSolver solver) => (int)solver.Value(time.Variable) * time.Scale + time.Offset;

    private sealed record Draw(ActivityId? Activity, BatchId? Batch, int Start, Consumption What);

    private static ImmutableArray<Cover> Covers(
        ProjectModel model, CpSolver solver, ImmutableArray<PlannedActivity> activities, ImmutableArray<PlannedBatch> batches)
    {
        var draws = new List<Draw>();
        foreach ((Activity activity, PlannedActivity planned) in model.Project.Activities.Zip(activities).Where(p => p.Second.Present))
            draws.AddRange(activity.Modes.First(m => m.Id == planned.Mode).Consumes.Select(c => new Draw(activity.Id, null, planned.Start, c)));
        foreach ((Batch batch, PlannedBatch planned) in model.Project.Batches.Zip(batches).Where(p => p.Second.Used))
            draws.AddRange(batch.Consumes.Select(c => new Draw(null, batch.Id, planned.Start, c)));
        draws.RemoveAll(d => d.What.Amount == 0);

        Lot[] lots = [.. model.Project.Lots.Where(l => model.Lots.MayUse(l, solver))];
        int[,] flow = Transport.Fill(
            [.. draws.Select(d => d.What.Amount)],
            [.. lots.Select(l => l.Amount)],
            (d, l) => lots[l].Serves.Contains(draws[d].What.Consumable) && lots[l].Usable.Contains(draws[d].Start))
            ?? throw new InvalidOperationException("The model let through consumption that the lots do not cover.");
        return
        [
            .. from d in Enumerable.Range(0, draws.Count)
               from l in Enumerable.Range(0, lots.Length)
               where flow[d, l] > 0
               select new Cover(lots[l].Id, draws[d].What.Consumable, draws[d].Activity, draws[d].Batch, flow[d, l]),
        ];
    }
}
