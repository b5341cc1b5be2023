using System.Diagnostics;
using Seamwright.Work;

namespace Seamwright.Program.Web.Desk;

/// <summary>A search for the shop's plan while it runs: how long, how far, and whether somebody has ended it.</summary>
internal sealed class RunningSearch(CancellationToken stop) : IProgress<ShopProgress>, IDisposable
{
    private readonly CancellationTokenSource _stop = CancellationTokenSource.CreateLinkedTokenSource(stop);
    private readonly long _begun = Stopwatch.GetTimestamp();
    private volatile ShopProgress? _latest;

    /// <summary>Since it began.</summary>
    public TimeSpan Elapsed => Stopwatch.GetElapsedTime(_begun);

    /// <summary>What it told last; null = nothing yet.</summary>
    public ShopProgress? Latest => _latest;

    /// <summary>Somebody is content with the best plan so far.</summary>
    public bool IsStopped { get; private set; }

    /// <summary>Ends when the search is to end.</summary>
    public CancellationToken Token => _stop.Token;

    public void Report(ShopProgress value) => _latest = value;

    /// <summary>Ends it; the best plan so far is answered.</summary>
    public void Stop()
    {
        IsStopped = true;
        try
        {
            _stop.Cancel();
        }
        catch (ObjectDisposedException)
        {
            // It ended by itself while somebody reached for the button.
        }
    }

    public void Dispose() => _stop.Dispose();
}
