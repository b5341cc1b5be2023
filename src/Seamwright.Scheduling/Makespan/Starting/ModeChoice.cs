using Google.OrTools.Sat;
using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Starting;

/// <summary>Modes that the stocks suffice for, short and with little work on the resources.</summary>
internal static class ModeChoice
{
    /// <returns>One mode per activity; null if none were found.</returns>
    public static int[]? Of(ReducedProblem problem, MakespanOptions options)
    {
        if (!problem.HasModes)
            return new int[problem.Count];
        var model = new CpModel();
        BoolVar[][] chosen = [.. problem.Modes.Select(m => m.Select(_ => model.NewBoolVar("")).ToArray())];
        foreach (BoolVar[] one in chosen)
            model.AddExactlyOne(one);
        for (int s = 0; s < problem.Stocks.Length; s++)
            model.Add(LinearExpr.Sum(problem.Modes.Select((m, i) => LinearExpr.WeightedSum(chosen[i], m.Select(k => k.Consumes[s])))) <= problem.Stocks[s]);

        // Work on a resource counts as the time that it would fill alone; hundredths, because the solver counts in whole numbers.
        long Weight(ReducedMode mode) => (100L * mode.Duration) + mode.Demands.Select((d, r) => 100L * mode.Duration * d / Math.Max(1, problem.Source.Capacities[r])).Sum();
        model.Minimize(LinearExpr.Sum(problem.Modes.Select((m, i) => LinearExpr.WeightedSum(chosen[i], m.Select(Weight)))));
        using var solver = new CpSolver { StringParameters = $"num_workers:1,{Exact.SolverRun.Limits(options.Seed, null, 0.1)}" };
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? [.. chosen.Select(c => Array.FindIndex(c, solver.BooleanValue))] : null;
    }
}
