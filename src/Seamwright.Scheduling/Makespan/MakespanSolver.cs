using System.Diagnostics;
using Seamwright.Scheduling.Makespan;
using Seamwright.Scheduling.Makespan.Bounds;
using Seamwright.Scheduling.Makespan.Exact;
using Seamwright.Scheduling.Makespan.Reducing;
using Seamwright.Scheduling.Makespan.Repairing;
using Seamwright.Scheduling.Makespan.Starting;

namespace Seamwright.Scheduling;

/// <summary>Finds the shortest schedule of a <see cref="MakespanProblem"/>, or how far from it one is at most.</summary>
/// <remarks>
/// Superfluous modes go first, then come bounds without search, schedules by lists, and at last two searches side by side: one
/// raises the bound, the other shortens the schedule; whoever meets the other's value ends both.
/// </remarks>
public static class MakespanSolver
{
    /// <summary>Solves.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="options">Time, threads, seed; null for the defaults.</param>
    /// <exception cref="InvalidProjectException">The problem or the options have mistakes.</exception>
    /// <exception cref="OperationCanceledException">The caller cancelled.</exception>
    public static MakespanAnswer Solve(MakespanProblem problem, MakespanOptions? options = null)
    {
        options ??= new MakespanOptions();
        options.ThrowIfInvalid(problem);
        var clock = Stopwatch.StartNew();
        if (ReducedProblem.Of(problem) is not { } reduced)
            return new MakespanAnswer(null, 0, Infeasible: true, clock.Elapsed);
        using var search = new SharedSearch(reduced, options, LowerBounds.Of(reduced));
        var shortening = new Shortening(search, options);
        shortening.Start();
        if (!search.IsDone && (options.Deterministic || options.Workers == 1))
            ExactSearch.Run(search, options);
        else if (!search.IsDone)
            Parallel.Invoke([() => ExactSearch.Run(search, options), .. Enumerable.Range(1, options.Workers - 1).Select<int, Action>(n => () => shortening.Run(n))]);
        options.Cancellation.ThrowIfCancellationRequested();
        MakespanSchedule? schedule = search.Best is { } best ? reduced.Schedule(best.Starts, best.Modes) : null;
        return new MakespanAnswer(schedule, search.Lower, search.Infeasible, clock.Elapsed);
    }
}
