namespace Seamwright.Scheduling.Tests;

/// <summary>The optimum of a tiny project by trying every mode, crew and start; constraints are those of the checker alone.</summary>
internal static class BruteForce
{
    /// <summary>Lowest cost, or null if nothing is allowed. Lots are not tried: give every consumable one plentiful free lot, or none.</summary>
    public static long? LowestCost(Project project)
    {
        long? best = null;
        foreach (Mode[] modes in Choices(project.Activities.Select(a => a.Modes.ToArray()).ToArray()))
        {
            foreach (Schedule schedule in Schedules(project, modes))
            {
                // The entry says 0; the checker answers with one sentence about the cost when all else is kept.
                long cost = Solving.ScheduleCost.Of(project, schedule);
                if ((best is null || cost < best) && ScheduleChecker.Check(project, With(schedule, cost)).IsEmpty)
                    best = cost;
            }
        }

        return best;
    }

    private static Schedule With(Schedule s, long cost) => new(s.Activities, s.Batches, s.Covers, s.Unlocked, cost);

    private static IEnumerable<Schedule> Schedules(Project project, Mode[] modes)
    {
        // Which activities are there follows from the modes; every subset is tried and the checker keeps the right one.
        bool[][] presences = project.Activities.Select(a => a.PresentWhen.IsEmpty ? new[] { true } : [true, false]).ToArray();
        foreach (bool[] present in Choices(presences))
        {
            if (Enumerable.Range(0, modes.Length).Any(i => !present[i] && modes[i] != project.Activities[i].Modes[0]))
                continue;   // an absent activity has no mode: look at it once
            Batch[] used = [.. project.Batches.Where(b => Enumerable.Range(0, modes.Length).Any(i => present[i] && modes[i].Batch == b.Id))];
            int[] own = [.. Enumerable.Range(0, modes.Length).Where(i => present[i] && modes[i].Batch is null)];
            foreach (Crew?[] crews in Choices(used.Select(b => b.Crews.IsEmpty ? new Crew?[] { null } : [.. b.Crews]).ToArray()))
            {
                int[][] starts =
                [
                    .. own.Select(i => Starts(project, modes[i].Duration)),
                    .. used.Select(b => Starts(project, Length(b, modes, present))),
                ];
                foreach (int[] start in Choices(starts))
                    yield return Build(project, modes, present, own, used, crews, start);
            }
        }
    }

    private static int Length(Batch batch, Mode[] modes, bool[] present) =>
        batch.Setup + Enumerable.Range(0, modes.Length).Where(i => present[i] && modes[i].Batch == batch.Id).Sum(i => modes[i].Work);

    private static int[] Starts(Project project, int length) =>
        [.. Enumerable.Range(0, (project.Horizon / project.StartStep) + 1).Select(i => i * project.StartStep).Where(s => s + length <= project.Horizon)];

    private static Schedule Build(Project project, Mode[] modes, bool[] present, int[] own, Batch[] used, Crew?[] crews, int[] start)
    {
        var batches = project.Batches.Select(b =>
        {
            int at = Array.IndexOf(used, b);
            return at < 0
                ? new PlannedBatch(b.Id, false, null, -1, -1)
                : new PlannedBatch(b.Id, true, crews[at]?.Id, start[own.Length + at], start[own.Length + at] + Length(b, modes, present));
        }).ToList();
        var activities = project.Activities.Select((a, i) =>
        {
            if (!present[i])
                return new PlannedActivity(a.Id, false, null, -1, -1, null);
            if (modes[i].Batch is { } batch)
                return new PlannedActivity(a.Id, true, modes[i].Id, batches.Single(b => b.Id == batch).Start, batches.Single(b => b.Id == batch).End, batch);
            int at = start[Array.IndexOf(own, i)];
            return new PlannedActivity(a.Id, true, modes[i].Id, at, at + modes[i].Duration, null);
        });
        return new Schedule([.. activities], [.. batches], [], [], 0);
    }

    private static IEnumerable<T[]> Choices<T>(T[][] options)
    {
        if (options.Any(o => o.Length == 0))
            yield break;
        var at = new int[options.Length];
        while (true)
        {
            yield return [.. options.Select((o, i) => o[at[i]])];
            int last = options.Length - 1;
            while (last >= 0 && ++at[last] == options[last].Length)
                at[last--] = 0;
            if (last < 0)
                yield break;
        }
    }
}
