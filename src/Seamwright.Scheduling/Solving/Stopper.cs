using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>Passes a cancellation on to a running solver.</summary>
internal sealed class Stopper : IDisposable
{
    private readonly Timer? timer;

    private Stopper(CpSolver solver, CancellationToken cancellation)
    {
        // Asked again and again because a request that comes before the native search has begun is lost.
        if (cancellation.CanBeCanceled)
            timer = new Timer(_ => Ask(solver, cancellation), null, 10, 10);
    }

    public static Stopper For(CpSolver solver, CancellationToken cancellation) => new(solver, cancellation);

    public void Dispose()
    {
        if (timer is null)
            return;
        using var stopped = new ManualResetEvent(false);
        if (timer.Dispose(stopped))
            stopped.WaitOne();
    }

    private static void Ask(CpSolver solver, CancellationToken cancellation)
    {
        if (cancellation.IsCancellationRequested)
            solver.StopSearch();
    }
}
