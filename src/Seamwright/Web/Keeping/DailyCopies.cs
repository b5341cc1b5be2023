using System.Collections.Immutable;
using NodaTime;
using Seamwright.Program.Web.Live;
using Seamwright.Storage;
using Seamwright.Storage.Copies;

namespace Seamwright.Program.Web.Keeping;

/// <summary>Makes the daily copy while the app is served. Looks at the clock each minute, so that a night switched off is caught up with.</summary>
internal sealed partial class DailyCopies(ShopStore store, IClock clock, CopyPlace place, Changes changes, ILogger<DailyCopies> log) : BackgroundService
{
    /// <summary>Who made a copy that nobody asked for.</summary>
    public const string Itself = "daily copy";

    /// <summary>Pause after a copy that failed: a disk that is full stays so for a while.</summary>
    public static Duration Pause { get; } = Duration.FromHours(1);

    private static readonly TimeSpan Look = TimeSpan.FromMinutes(1);

    private readonly SemaphoreSlim _one = new(1);
    private Instant _notBefore = Instant.MinValue;

    /// <summary>Makes a copy where one is due.</summary>
    /// <returns>What went wrong; empty = nothing, or none was due.</returns>
    public async Task<ImmutableArray<BackupFault>> MakeIfDue(CancellationToken stop)
    {
        if (clock.GetCurrentInstant() < _notBefore)
            return [];
        var rule = await place.Rule(store, stop);
        if (!rule.IsDue(CopyShelf.In(store.Folder.Copies), clock.GetCurrentInstant()))
            return [];
        var faults = await Make(Itself, stop);
        if (!faults.IsEmpty)
            _notBefore = clock.GetCurrentInstant() + Pause;
        return faults;
    }

    /// <summary>Makes a copy now.</summary>
    public async Task<ImmutableArray<BackupFault>> Make(string by, CancellationToken stop)
    {
        await _one.WaitAsync(stop);
        try
        {
            var faults = await store.MakeDailyCopy(await place.Rule(store, stop), by, stop);
            foreach (var fault in faults)
                Failed(log, fault.Key, string.Join("; ", fault.Args));
            changes.Tell();
            return faults;
        }
        finally
        {
            _one.Release();
        }
    }

    public override void Dispose()
    {
        _one.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Not at once: whoever starts the program wants its pages first.
        using var minutes = new PeriodicTimer(Look);
        while (await minutes.WaitForNextTickAsync(stoppingToken))
        {
            try
            {
                await MakeIfDue(stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                _notBefore = clock.GetCurrentInstant() + Pause;
                Broken(log, e);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The daily copy is not good: {Key} {Facts}")]
    private static partial void Failed(ILogger log, string key, string facts);

    [LoggerMessage(Level = LogLevel.Error, Message = "The daily copy could not be made")]
    private static partial void Broken(ILogger log, Exception cause);
}
