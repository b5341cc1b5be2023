using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Queries;

/// <summary>A pack with what stands beside its document.</summary>
/// <param name="Document">The document.</param>
/// <param name="Material">Its sheet.</param>
/// <param name="Lot">Lot of the maker; empty = unknown.</param>
/// <param name="Expires">Last usable day; null = no date.</param>
/// <param name="TakenFor">Repair for which it was taken; null = on the shelf.</param>
/// <param name="TakenBy">Who took it.</param>
/// <param name="Gone">When it left the shop for good; null = it is here.</param>
public sealed record PackLine(StoredDocument Document, string Material, string Lot, LocalDate? Expires, string? TakenFor, string? TakenBy, Instant? Gone);

/// <summary>A data sheet with what stands beside its document.</summary>
/// <param name="Document">The document.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Use">What it is for.</param>
public sealed record SheetLine(StoredDocument Document, string Name, string Use);

/// <summary>Asks for what the shop is and has.</summary>
public static class ShelvesOfTheShop
{
    /// <summary>One of the shop's own documents; null where it was never stored.</summary>
    /// <param name="store">The store.</param>
    /// <param name="which">Which document.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<StoredDocument?> ShopDocumentOf(this ShopStore store, ShopDocument which, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        string id = SavingTheShop.NameOf(which);
        return store.Ask(async db => await db.ShopDocuments.SingleOrDefaultAsync(row => row.Id == id, stop) is { } row ? DocumentSaving.Stored(row) : null);
    }

    /// <summary>All data sheets by name: a shop has dozens.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<SheetLine>> Sheets(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Sheets.OrderBy(row => row.Id).ToListAsync(stop))
            .Select(row => new SheetLine(DocumentSaving.Stored(row), row.Name, row.Use)).ToImmutableArray());
    }

    /// <summary>All packs that are still in the shop, by name; taken ones among them.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<PackLine>> PacksInTheShop(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Packs.Where(row => row.Gone == null).OrderBy(row => row.Id).ToListAsync(stop)).Select(Line).ToImmutableArray());
    }

    /// <summary>A part of the list of packs, the first expiring first, gone ones left out.</summary>
    /// <param name="store">The store.</param>
    /// <param name="material">Only packs of this sheet; null = all.</param>
    /// <param name="number">Which part, from 1.</param>
    /// <param name="size">Entries of a part, at most <see cref="Page{T}.MostItems"/>.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<Page<PackLine>> PackPage(
        this ShopStore store, string? material = null, int number = 1, int size = 50, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        number = Math.Max(1, number);
        size = Math.Clamp(size, 1, Page<PackLine>.MostItems);
        return store.Ask(async db =>
        {
            var rows = db.Packs.Where(row => row.Gone == null && (material == null || row.Material == material));
            int total = await rows.CountAsync(stop);
            var items = await rows.OrderBy(row => row.Expires == null).ThenBy(row => row.Expires).ThenBy(row => row.Id)
                .Skip((number - 1) * size).Take(size).ToListAsync(stop);
            return new Page<PackLine>([.. items.Select(Line)], total, number, size);
        });
    }

    /// <summary>A pack, also one that is gone; null where there never was one of this name.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The pack.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<PackLine?> Pack(this ShopStore store, string id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.Packs.SingleOrDefaultAsync(row => row.Id == id, stop) is { } row ? Line(row) : null);
    }

    private static PackLine Line(PackRow row) => new(DocumentSaving.Stored(row), row.Material, row.Lot, row.Expires, row.TakenFor, row.TakenBy, row.Gone);
}
