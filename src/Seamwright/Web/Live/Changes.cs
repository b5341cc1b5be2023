using System.Collections.Concurrent;
using System.Threading.Channels;

namespace Seamwright.Program.Web.Live;

/// <summary>Tells open pages that something changed. A page asks for itself anew; nothing of the shop goes through here.</summary>
internal sealed class Changes
{
    private readonly ConcurrentDictionary<Channel<long>, byte> _listeners = new();
    private long _number;

    /// <summary>Number of the last change; 0 = none since the start.</summary>
    public long Number => Volatile.Read(ref _number);

    /// <summary>Something changed.</summary>
    public void Tell()
    {
        long number = Interlocked.Increment(ref _number);
        foreach (var listener in _listeners.Keys)
            listener.Writer.TryWrite(number);
    }

    /// <summary>Numbers of changes from now on; ends when the listener goes. Only the last counts, so a slow listener misses nothing that matters.</summary>
    public async IAsyncEnumerable<long> Listen([System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken stop)
    {
        var mine = Channel.CreateBounded<long>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });
        _listeners[mine] = 0;
        try
        {
            yield return Number;
            await foreach (long number in mine.Reader.ReadAllAsync(stop))
                yield return number;
        }
        finally
        {
            _listeners.TryRemove(mine, out _);
        }
    }
}
