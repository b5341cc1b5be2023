using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Queries;

/// <summary>An entry of the work log.</summary>
/// <param name="Sequence">Its place, from 1.</param>
/// <param name="Fact">What was written.</param>
/// <param name="Recorded">When it arrived, by our clock.</param>
/// <param name="Hash">Its hash, which also covers everything before it.</param>
public sealed record WorkEntry(long Sequence, WorkFact Fact, Instant Recorded, string Hash);

/// <summary>What the check of the whole work log found.</summary>
/// <param name="Entries">Entries that are as they were written.</param>
/// <param name="FirstBroken">Place of the first that is not; null = the log is whole.</param>
public sealed record LogCheck(long Entries, long? FirstBroken);

/// <summary>Asks for the work log.</summary>
public static class LogOfTheShop
{
    /// <summary>Entries of a repair, the oldest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="after">Only entries after this place.</param>
    /// <param name="most">At most so many, up to <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<WorkEntry>> WorkOf(
        this ShopStore store, string repair, long after = 0, int most = Page<WorkEntry>.MostItems, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => Entries(db.WorkLog.Where(row => row.Repair == repair && row.Sequence > after), most, stop));
    }

    /// <summary>Entries after a place, of all repairs, the oldest first.</summary>
    /// <param name="store">The store.</param>
    /// <param name="after">The place; 0 = from the beginning.</param>
    /// <param name="most">At most so many, up to <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<WorkEntry>> WorkAfter(
        this ShopStore store, long after, int most = Page<WorkEntry>.MostItems, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => Entries(db.WorkLog.Where(row => row.Sequence > after), most, stop));
    }

    /// <summary>Reads the whole log and checks every link.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<LogCheck> CheckLog(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => Check(db, stop));
    }

    internal static async Task<LogCheck> Check(ShopDb db, CancellationToken stop)
    {
        (long sequence, string hash) = (0, WorkChain.Beginning);
        await foreach (var row in db.WorkLog.AsNoTracking().OrderBy(row => row.Sequence).AsAsyncEnumerable().WithCancellation(stop))
        {
            if (!WorkChain.Follows(row, sequence, hash))
                return new(sequence, row.Sequence);
            (sequence, hash) = (row.Sequence, row.Hash);
        }

        return new(sequence, null);
    }

    private static async Task<ImmutableArray<WorkEntry>> Entries(IQueryable<WorkRow> rows, int most, CancellationToken stop) =>
        [.. (await rows.OrderBy(row => row.Sequence).Take(Math.Clamp(most, 1, Page<WorkEntry>.MostItems)).ToListAsync(stop)).Select(row => new WorkEntry(
            row.Sequence,
            new WorkFact(row.Id, row.At, Offset.FromSeconds(row.OffsetSeconds), row.Who, row.Kind, row.Repair, row.Facts),
            row.Recorded,
            row.Hash))];
}
