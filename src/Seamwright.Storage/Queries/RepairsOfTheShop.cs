using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Queries;

/// <summary>A repair as lists show it.</summary>
/// <param name="Id">Name.</param>
/// <param name="Title">Name for people.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Arrives">When the car comes in; null = it is here.</param>
/// <param name="Promised">When it was promised.</param>
/// <param name="Slot">Paint slot it has taken; null = none yet.</param>
/// <param name="Version">Version of its document.</param>
public sealed record RepairLine(string Id, string Title, RepairState State, Instant? Arrives, Instant? Promised, Instant? Slot, long Version);

/// <summary>Which repairs a list shows.</summary>
/// <param name="State">Only these; null = all.</param>
/// <param name="Search">Only those with this text in name or title; null = all.</param>
public sealed record RepairFilter(RepairState? State = null, string? Search = null);

/// <summary>Asks for repairs.</summary>
public static class RepairsOfTheShop
{
    /// <summary>A part of the list of repairs, the earliest promise first, those without a promise last.</summary>
    /// <param name="store">The store.</param>
    /// <param name="filter">Which repairs.</param>
    /// <param name="number">Which part, from 1.</param>
    /// <param name="size">Entries of a part, at most <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Page<RepairLine>> RepairPage(
        this ShopStore store, RepairFilter filter, int number = 1, int size = 50, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(filter);
        number = Math.Max(1, number);
        size = Math.Clamp(size, 1, Page<RepairLine>.MostItems);
        return store.Ask(async db =>
        {
            var rows = Fitting(db, filter);
            int total = await rows.CountAsync(stop);
            var items = await rows.OrderBy(row => row.Promised == null).ThenBy(row => row.Promised).ThenBy(row => row.Id)
                .Skip((number - 1) * size).Take(size)
                .Select(row => new RepairLine(
                    row.Id, row.Title, row.State, row.Arrives, row.Promised,
                    db.Slots.Where(slot => slot.Repair == row.Id).Select(slot => (Instant?)slot.At).FirstOrDefault(), row.Version))
                .ToListAsync(stop);
            return new Page<RepairLine>([.. items], total, number, size);
        });
    }

    /// <summary>
    /// Repairs after a repair, in the order in which they were begun: whoever walks through the whole list meets each once, whatever is added or changed meanwhile.
    /// </summary>
    /// <returns>Null where there is no repair of the name to go on after.</returns>
    /// <param name="store">The store.</param>
    /// <param name="filter">Which repairs.</param>
    /// <param name="after">Name of the last one seen; null = from the beginning.</param>
    /// <param name="most">At most so many, up to <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<RepairLine>?> RepairsAfter(
        this ShopStore store, RepairFilter filter, string? after, int most, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(filter);
        return store.Ask<ImmutableArray<RepairLine>?>(async db =>
        {
            var rows = Fitting(db, filter);
            if (after is not null)
            {
                if (await db.Repairs.SingleOrDefaultAsync(row => row.Id == after, stop) is not { } last)
                    return null;
                var created = last.Created;
                // The database compares, in the order in which it sorts.
#pragma warning disable CA1309
                rows = rows.Where(row => row.Created > created || (row.Created == created && string.Compare(row.Id, after) > 0));
#pragma warning restore CA1309
            }

            var items = await rows.OrderBy(row => row.Created).ThenBy(row => row.Id).Take(Math.Clamp(most, 1, Page<RepairLine>.MostItems))
                .Select(row => new RepairLine(
                    row.Id, row.Title, row.State, row.Arrives, row.Promised,
                    db.Slots.Where(slot => slot.Repair == row.Id).Select(slot => (Instant?)slot.At).FirstOrDefault(), row.Version))
                .ToListAsync(stop);
            return [.. items];
        });
    }

    /// <summary>A repair's document; null where there is none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The repair.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<StoredDocument?> RepairDocument(this ShopStore store, string id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.Repairs.SingleOrDefaultAsync(row => row.Id == id, stop) is { } row ? DocumentSaving.Stored(row) : null);
    }

    /// <summary>What lists show of one repair; null where there is none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The repair.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<RepairLine?> RepairLineOf(this ShopStore store, string id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => db.Repairs.Where(row => row.Id == id).Select(row => new RepairLine(
            row.Id, row.Title, row.State, row.Arrives, row.Promised,
            db.Slots.Where(slot => slot.Repair == row.Id).Select(slot => (Instant?)slot.At).FirstOrDefault(), row.Version)).SingleOrDefaultAsync(stop));
    }

    /// <summary>Slots that repairs have taken, by moment.</summary>
    /// <param name="store">The store.</param>
    /// <param name="from">Only from this moment on.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableSortedDictionary<Instant, string>> SlotsTaken(this ShopStore store, Instant from, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db =>
            (await db.Slots.Where(row => row.At >= from).ToListAsync(stop)).ToImmutableSortedDictionary(row => row.At, row => row.Repair));
    }

    private static IQueryable<RepairRow> Fitting(ShopDb db, RepairFilter filter)
    {
        IQueryable<RepairRow> rows = db.Repairs;
        if (filter.State is { } state)
            rows = rows.Where(row => row.State == state);
        if (filter.Search?.Trim().ToLowerInvariant() is { Length: > 0 } text)
            rows = rows.Where(row => row.Search.Contains(text));
        return rows;
    }
}
