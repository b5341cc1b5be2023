using System.Globalization;
using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Benchmarks.Contenders;

/// <summary>
/// The model that a textbook would write for CP-SAT: one interval an activity and mode, one cumulative a resource, lags between
/// starts and ends, makespan as objective, the solver's default parameters.
/// </summary>
internal static class PlainModel
{
    public static Answer Solve(MakespanProblem problem, Limits limits)
    {
        var model = new CpModel();
        int horizon = problem.Activities.Sum(a => a.Modes.Max(m => m.Duration)) + problem.Lags.Sum(l => Math.Max(0, l.Length));
        int count = problem.Activities.Length;
        IntVar[] starts = [.. Enumerable.Range(0, count).Select(i => model.NewIntVar(0, horizon, $"start {i}"))];
        IntVar[] ends = [.. Enumerable.Range(0, count).Select(i => model.NewIntVar(0, horizon, $"end {i}"))];
        var chosen = new BoolVar[count][];
        var uses = problem.Capacities.Select(c => model.AddCumulative(c)).ToArray();
        for (int i = 0; i < count; i++)
        {
            MakespanActivity activity = problem.Activities[i];
            chosen[i] = [.. activity.Modes.Select((_, k) => model.NewBoolVar($"{i} in mode {k}"))];
            model.AddExactlyOne(chosen[i]);
            for (int k = 0; k < activity.Modes.Length; k++)
            {
                MakespanMode mode = activity.Modes[k];
                IntervalVar interval = model.NewOptionalIntervalVar(starts[i], LinearExpr.Constant(mode.Duration), ends[i], chosen[i][k], $"{i} mode {k}");
                for (int r = 0; r < uses.Length; r++)
                {
                    if (mode.Demands[r] > 0)
                        uses[r].AddDemand(interval, mode.Demands[r]);
                }
            }
        }

        for (int s = 0; s < problem.Stocks.Length; s++)
        {
            var used = Enumerable.Range(0, count).SelectMany(i => problem.Activities[i].Modes.Select((m, k) => chosen[i][k] * m.Consumes[s]));
            model.Add(LinearExpr.Sum(used) <= problem.Stocks[s]);
        }

        foreach (MakespanLag lag in problem.Lags)
            model.Add(starts[lag.To] >= (lag.Edge == Edge.Start ? starts : ends)[lag.From] + lag.Length);
        IntVar makespan = model.NewIntVar(0, horizon, "makespan");
        model.AddMaxEquality(makespan, ends);
        model.Minimize(makespan);

        using var solver = new CpSolver
        {
            StringParameters = string.Create(CultureInfo.InvariantCulture, $"max_time_in_seconds:{limits.Time.TotalSeconds},num_workers:{limits.Workers},random_seed:{limits.Seed}"),
        };
        CpSolverStatus status = solver.Solve(model);
        if (status == CpSolverStatus.Infeasible)
            return new Answer(null, null, Infeasible: true);
        int bound = (int)Math.Ceiling(Math.Max(0, solver.BestObjectiveBound) - 1e-6);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
            return new Answer(null, bound, Infeasible: false);
        int[] modes = [.. chosen.Select(c => Array.FindIndex(c, solver.BooleanValue))];
        return new Answer(new MakespanSchedule([.. starts.Select(s => (int)solver.Value(s))], [.. modes], (int)solver.Value(makespan)), bound, Infeasible: false);
    }
}
