namespace Seamwright.Scheduling.Benchmarks.Contenders;

/// <summary>
/// Serial schedule generation by the rule of least latest start (Kolisch 1996): one activity after the other at the first start that
/// lags and resources allow. Modes are chosen beforehand: the shortest, exchanged where a stock runs short. It does not look back,
/// so with maximum lags or scarce stocks it may end without a schedule.
/// </summary>
internal static class ListHeuristic
{
    private const int Unlinked = int.MinValue / 2;

    public static Answer Solve(MakespanProblem problem, Limits limits)
    {
        _ = limits;
        int count = problem.Activities.Length;
        if (Modes(problem) is not { } modes || Longest(problem, modes) is not { } distance)
            return Answer.Nothing;

        int horizon = problem.Activities.Sum(a => a.Modes.Max(m => m.Duration)) + problem.Lags.Sum(l => Math.Max(0, l.Length));
        int[] tail = [.. Enumerable.Range(0, count).Select(i => Enumerable.Range(0, count).Max(j => distance[i, j] + Mode(j).Duration))];
        int[,] used = new int[problem.Capacities.Length, horizon + 1];
        int?[] starts = new int?[count];
        MakespanMode Mode(int i) => problem.Activities[i].Modes[modes[i]];

        for (int n = 0; n < count; n++)
        {
            // Only what has no unscheduled predecessor is eligible; a cycle of lags counts by its minimum lags alone.
            int next = Enumerable.Range(0, count)
                .Where(i => starts[i] is null && !Enumerable.Range(0, count).Any(j => starts[j] is null && j != i && distance[j, i] >= 0 && !(distance[i, j] >= 0 && i < j)))
                .MaxBy(i => tail[i]);
            int earliest = Enumerable.Range(0, count).Where(j => starts[j] is not null).Select(j => starts[j]!.Value + distance[j, next]).Append(0).Max();
            int latest = Enumerable.Range(0, count).Where(j => starts[j] is not null).Select(j => starts[j]!.Value - distance[next, j]).Append(horizon - Mode(next).Duration).Min();
            int start = earliest;
            while (start <= latest && !Fits(problem, used, Mode(next), start))
                start++;
            if (start > latest)
                return Answer.Nothing;
            starts[next] = start;
            for (int r = 0; r < problem.Capacities.Length; r++)
            {
                for (int t = start; t < start + Mode(next).Duration; t++)
                    used[r, t] += Mode(next).Demands[r];
            }
        }

        int makespan = Enumerable.Range(0, count).Max(i => starts[i]!.Value + Mode(i).Duration);
        return new Answer(new MakespanSchedule([.. starts.Select(s => s!.Value)], [.. modes], makespan), null, Infeasible: false);
    }

    private static bool Fits(MakespanProblem problem, int[,] used, MakespanMode mode, int start)
    {
        for (int r = 0; r < problem.Capacities.Length; r++)
        {
            for (int t = start; t < start + mode.Duration; t++)
            {
                if (used[r, t] + mode.Demands[r] > problem.Capacities[r])
                    return false;
            }
        }

        return true;
    }

    private static int[]? Modes(MakespanProblem problem)
    {
        MakespanMode[][] possible = [.. problem.Activities.Select(a => a.Modes.Where(m => !m.Demands.Where((d, r) => d > problem.Capacities[r]).Any()).OrderBy(m => m.Duration).ToArray())];
        if (possible.Any(p => p.Length == 0))
            return null;
        int[] at = new int[possible.Length];
        double Excess() => problem.Stocks.Select((stock, s) => Math.Max(0, possible.Select((p, i) => p[at[i]].Consumes[s]).Sum() - stock) / Math.Max(1.0, stock)).Sum();

        // The exchange that helps the stocks most, again and again.
        for (double excess = Excess(); excess > 0;)
        {
            (double Excess, int Activity, int Mode) best = (excess, -1, -1);
            for (int i = 0; i < at.Length; i++)
            {
                int old = at[i];
                for (at[i] = 0; at[i] < possible[i].Length; at[i]++)
                {
                    if (Excess() is var after && after < best.Excess)
                        best = (after, i, at[i]);
                }

                at[i] = old;
            }

            if (best.Activity < 0)
                return null;
            at[best.Activity] = best.Mode;
            excess = best.Excess;
        }

        return [.. at.Select((k, i) => problem.Activities[i].Modes.IndexOf(possible[i][k]))];
    }

    /// <summary>Longest paths between starts (Floyd and Warshall); null when the lags contradict each other.</summary>
    private static int[,]? Longest(MakespanProblem problem, int[] modes)
    {
        int count = modes.Length;
        int[,] d = new int[count, count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
                d[i, j] = i == j ? 0 : Unlinked;
        }

        foreach (MakespanLag lag in problem.Lags)
        {
            int length = lag.Length + (lag.Edge == Edge.End ? problem.Activities[lag.From].Modes[modes[lag.From]].Duration : 0);
            d[lag.From, lag.To] = Math.Max(d[lag.From, lag.To], length);
        }

        for (int k = 0; k < count; k++)
        {
            for (int i = 0; i < count; i++)
            {
                for (int j = 0; d[i, k] > Unlinked && j < count; j++)
                {
                    if (d[k, j] > Unlinked)
                        d[i, j] = Math.Max(d[i, j], d[i, k] + d[k, j]);
                }
            }
        }

        return Enumerable.Range(0, count).Any(i => d[i, i] > 0) ? null : d;
    }
}
