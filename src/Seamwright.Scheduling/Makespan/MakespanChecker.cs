using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Says what is wrong with a schedule. It counts period by period and shares nothing with the solver.</summary>
public static class MakespanChecker
{
    /// <summary>Every violation, as sentences; empty for a schedule that keeps the problem.</summary>
    /// <param name="problem">A problem without mistakes.</param>
    /// <param name="schedule">Any schedule.</param>
    public static ImmutableArray<string> Check(MakespanProblem problem, MakespanSchedule schedule)
    {
        int count = problem.Activities.Length;
        if (schedule.Starts.Length != count || schedule.Modes.Length != count)
            return [$"The schedule has {schedule.Starts.Length} starts and {schedule.Modes.Length} modes for {count} activities."];
        if (Enumerable.Range(0, count).Any(i => schedule.Modes[i] < 0 || schedule.Modes[i] >= problem.Activities[i].Modes.Length))
            return ["A mode is chosen that its activity does not have."];

        var wrong = ImmutableArray.CreateBuilder<string>();
        MakespanMode Mode(int i) => problem.Activities[i].Modes[schedule.Modes[i]];
        int End(int i) => schedule.Starts[i] + Mode(i).Duration;

        foreach (int i in Enumerable.Range(0, count).Where(i => schedule.Starts[i] < 0))
            wrong.Add($"Activity {i} starts at {schedule.Starts[i]}, before the project.");
        foreach (MakespanLag lag in problem.Lags)
        {
            int from = lag.Edge == Edge.Start ? schedule.Starts[lag.From] : End(lag.From);
            if (schedule.Starts[lag.To] < from + lag.Length)
                wrong.Add($"Activity {lag.To} starts at {schedule.Starts[lag.To]}, but {lag.From} allows {from + lag.Length} at the earliest.");
        }

        int latest = Enumerable.Range(0, count).Select(End).DefaultIfEmpty(0).Max();
        if (latest != schedule.Makespan)
            wrong.Add($"The makespan is said to be {schedule.Makespan}, but the last activity ends at {latest}.");

        for (int r = 0; r < problem.Capacities.Length; r++)
        {
            for (int t = 0; t < latest; t++)
            {
                int used = Enumerable.Range(0, count).Where(i => schedule.Starts[i] <= t && t < End(i)).Sum(i => Mode(i).Demands[r]);
                if (used > problem.Capacities[r])
                    wrong.Add($"Resource {r} has {problem.Capacities[r]} units, but {used} are used in period {t}.");
            }
        }

        for (int s = 0; s < problem.Stocks.Length; s++)
        {
            int used = Enumerable.Range(0, count).Sum(i => Mode(i).Consumes[s]);
            if (used > problem.Stocks[s])
                wrong.Add($"Stock {s} holds {problem.Stocks[s]} units, but {used} are used up.");
        }

        return wrong.ToImmutable();
    }
}
