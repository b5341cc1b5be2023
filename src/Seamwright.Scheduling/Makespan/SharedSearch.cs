using System.Diagnostics;
using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan;

/// <summary>What the searches of one run have found so far: the shortest schedule, the bound, and whether to stop.</summary>
internal sealed class SharedSearch : IDisposable
{
    private readonly Lock access = new();
    private readonly Stopwatch clock = Stopwatch.StartNew();
    private readonly CancellationTokenSource done;
    private readonly CancellationTokenSource tightened;
    private readonly TimeSpan limit;

    public SharedSearch(ReducedProblem problem, MakespanOptions options, int lower)
    {
        Problem = problem;
        Lower = lower;
        limit = options.TimeLimit;
        done = CancellationTokenSource.CreateLinkedTokenSource(options.Cancellation);
        tightened = CancellationTokenSource.CreateLinkedTokenSource(done.Token);
        if (!options.Deterministic)
            done.CancelAfter(options.TimeLimit);
    }

    public ReducedProblem Problem { get; }

    public int Lower { get; private set; }

    public bool Infeasible { get; private set; }

    /// <summary>The shortest schedule, in the numbers of the reduced problem.</summary>
    public (int[] Starts, int[] Modes)? Best { get; private set; }

    public int? Makespan { get; private set; }

    /// <summary>Cancelled when everything is proven, time is over, or the caller wants no more.</summary>
    public CancellationToken Done => done.Token;

    /// <summary>Cancelled also when the first schedules have come, so that a search may begin anew with what they leave to be looked at.</summary>
    public CancellationToken Tightened => tightened.Token;

    public bool IsDone => done.IsCancellationRequested;

    public TimeSpan Left => limit - clock.Elapsed;

    /// <summary>Nothing longer is worth looking at.</summary>
    public int Upper => Makespan - 1 ?? Problem.Horizon;

    /// <returns>True if the schedule is shorter than all before.</returns>
    public bool Offer(int[] starts, int[] modes)
    {
        int makespan = Enumerable.Range(0, starts.Length).Max(i => starts[i] + Problem.Modes[i][modes[i]].Duration);
        lock (access)
        {
            if (makespan >= (Makespan ?? int.MaxValue))
                return false;
            (Best, Makespan) = ((starts, modes), makespan);
            StopIfProven();
            return true;
        }
    }

    /// <summary>No schedule is shorter than this.</summary>
    public void Raise(int lower)
    {
        lock (access)
        {
            Lower = Math.Max(Lower, Makespan is { } best ? Math.Min(lower, best) : lower);
            StopIfProven();
        }
    }

    /// <summary>There is no schedule of at most this makespan.</summary>
    public void Exhausted(int upper)
    {
        lock (access)
        {
            if (upper >= Problem.Horizon)
                Infeasible = true;
            else
                Lower = Math.Max(Lower, upper + 1);
            StopIfProven();
        }
    }

    /// <summary>The first schedules have come.</summary>
    public void Tighten() => tightened.Cancel();

    public void Dispose()
    {
        tightened.Dispose();
        done.Dispose();
    }

    private void StopIfProven()
    {
        if (Infeasible || Makespan <= Lower)
            done.Cancel();
    }
}
