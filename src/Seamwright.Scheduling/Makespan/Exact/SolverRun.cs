using System.Globalization;
using Google.OrTools.Sat;
using Seamwright.Scheduling.Solving;

namespace Seamwright.Scheduling.Makespan.Exact;

/// <summary>One run of CP-SAT on one thread that hands on what it finds while it runs.</summary>
internal static class SolverRun
{
    /// <param name="model">What to solve.</param>
    /// <param name="search">Gets every schedule, and every bound if <paramref name="wholeProblem"/>.</param>
    /// <param name="parameters">Further parameters of the solver.</param>
    /// <param name="wholeProblem">The model leaves out no schedule that is shorter than the best one.</param>
    /// <param name="stop">Ends the run.</param>
    public static CpSolverStatus Solve(MakespanModel model, SharedSearch search, string parameters, bool wholeProblem, CancellationToken stop)
    {
        if (model.IsContradiction)
            return CpSolverStatus.Infeasible;
        using var solver = new CpSolver { StringParameters = "num_workers:1," + parameters };
        if (wholeProblem)
            solver.SetBestBoundCallback(bound => search.Raise((int)Math.Ceiling(Math.Max(0, bound) - 1e-6)));
        CpSolverStatus status;
        using (var found = new Found(model, search))
        using (Stopper.For(solver, stop))
            status = solver.Solve(model.Model, found);
        if (status == CpSolverStatus.ModelInvalid)
            throw new InvalidOperationException("The solver refused the model; this is a fault of the scheduling core.");
        if (status is CpSolverStatus.Optimal or CpSolverStatus.Feasible)
        {
            (int[] starts, int[] modes) = model.Read(v => solver.Value(v));
            search.Offer(starts, modes);
        }

        return status;
    }

    public static string Limits(int seed, TimeSpan? wall, double? deterministic) =>
        string.Create(CultureInfo.InvariantCulture, $"random_seed:{seed}")
        + (wall is { } time ? string.Create(CultureInfo.InvariantCulture, $",max_time_in_seconds:{Math.Max(0.001, time.TotalSeconds):F3}") : "")
        + (deterministic is { } effort ? string.Create(CultureInfo.InvariantCulture, $",max_deterministic_time:{effort:F4}") : "");

    private sealed class Found(MakespanModel model, SharedSearch search) : CpSolverSolutionCallback
    {
        public override void OnSolutionCallback()
        {
            (int[] starts, int[] modes) = model.Read(v => Value(v));
            search.Offer(starts, modes);
        }
    }
}
