using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Starting;

/// <summary>
/// Serial schedule generation: activities in the order of a list, each as early (or as late) as lags and resources allow. For problems
/// with precedences alone and for given modes. Holds its working memory, so one thread uses it at a time.
/// </summary>
internal sealed class SerialScheduler
{
    private readonly ReducedProblem problem;
    private readonly (int Activity, int Lag)[][] before;
    private readonly (int Activity, int Lag)[][] after;
    private readonly (int Resource, int Units)[][] demands;
    private readonly int[] durations;
    private readonly int[][] free;
    private readonly int horizon;

    public SerialScheduler(ReducedProblem problem, int[] modes)
    {
        this.problem = problem;
        durations = [.. modes.Select((k, i) => problem.Modes[i][k].Duration)];
        demands = [.. modes.Select((k, i) => durations[i] == 0 ? [] : problem.Modes[i][k].Demands.Select((units, r) => (r, units)).Where(d => d.units > 0).ToArray())];
        var links = problem.Source.Lags
            .Select(l => (l.From, l.To, Lag: l.Length + (l.Edge == Edge.End ? durations[l.From] : 0)))
            .GroupBy(l => (l.From, l.To)).Select(g => (g.Key.From, g.Key.To, Lag: g.Max(l => l.Lag))).ToArray();
        before = [.. Enumerable.Range(0, problem.Count).Select(i => links.Where(l => l.To == i && l.From != i).Select(l => (l.From, l.Lag)).ToArray())];
        after = [.. Enumerable.Range(0, problem.Count).Select(i => links.Where(l => l.From == i && l.To != i).Select(l => (l.To, l.Lag)).ToArray())];
        horizon = problem.Horizon + 1;
        free = [.. problem.Source.Capacities.Select(_ => new int[horizon])];
    }

    public int Duration(int activity) => durations[activity];

    /// <summary>Activities that each activity waits for.</summary>
    public (int Activity, int Lag)[] Before(int activity) => before[activity];

    /// <summary>Activities that wait for each activity.</summary>
    public (int Activity, int Lag)[] After(int activity) => after[activity];

    /// <summary>Schedules in the order of the list, which must name predecessors first.</summary>
    /// <returns>The makespan.</returns>
    public int Forward(int[] list, int[] starts)
    {
        Clear(horizon);
        int makespan = 0;
        foreach (int i in list)
        {
            int earliest = 0;
            foreach ((int activity, int lag) in before[i])
                earliest = Math.Max(earliest, starts[activity] + lag);
            int duration = durations[i];
            int start = duration == 0 ? earliest : FirstFit(i, earliest, duration);
            starts[i] = start;
            Occupy(i, start, duration);
            makespan = Math.Max(makespan, start + duration);
        }

        return makespan;
    }

    /// <summary>Schedules in the order of the list, which must name successors first, each as late as it goes.</summary>
    public void Backward(int[] list, int[] starts, int deadline)
    {
        Clear(deadline);
        foreach (int i in list)
        {
            int duration = durations[i];
            int latest = deadline - duration;
            foreach ((int activity, int lag) in after[i])
                latest = Math.Min(latest, starts[activity] - lag);
            int start = duration == 0 ? latest : LastFit(i, latest, duration);
            starts[i] = start;
            Occupy(i, start, duration);
        }
    }

    private void Clear(int until)
    {
        for (int r = 0; r < free.Length; r++)
            Array.Fill(free[r], problem.Source.Capacities[r], 0, Math.Min(until, horizon));
    }

    private int FirstFit(int i, int start, int duration)
    {
        var needed = demands[i];
        for (int n = 0, calm = 0; calm < needed.Length; n = n + 1 == needed.Length ? 0 : n + 1)
        {
            int[] room = free[needed[n].Resource];
            int units = needed[n].Units;
            int t = start + duration - 1;
            while (t >= start && room[t] >= units)
                t--;
            if (t < start)
            {
                calm++;
                continue;
            }

            // The last period without room decides how far to move on.
            start = t + 1;
            calm = 0;
        }

        return start;
    }

    /// <summary>A schedule within the deadline is turned round, hence there always is a fit at or after period 0.</summary>
    private int LastFit(int i, int start, int duration)
    {
        var needed = demands[i];
        for (int n = 0, calm = 0; calm < needed.Length; n = n + 1 == needed.Length ? 0 : n + 1)
        {
            int[] room = free[needed[n].Resource];
            int units = needed[n].Units;
            int t = start;
            int end = start + duration;
            while (t < end && room[t] >= units)
                t++;
            if (t == end)
            {
                calm++;
                continue;
            }

            start = t - duration;
            calm = 0;
        }

        return start;
    }

    private void Occupy(int i, int start, int duration)
    {
        foreach ((int resource, int units) in demands[i])
        {
            int[] room = free[resource];
            for (int t = start; t < start + duration; t++)
                room[t] -= units;
        }
    }
}
