using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;

namespace Seamwright.Storage.Queries;

/// <summary>What is known of a kept photo.</summary>
/// <param name="Id">The photo.</param>
/// <param name="Repair">The repair.</param>
/// <param name="Place">Joint, cavity or bare area it shows; null = the car.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Taken">When it was taken.</param>
/// <param name="TakenBy">Who took it.</param>
/// <param name="Hash">SHA-256 of its bytes; names its file.</param>
/// <param name="Type">Media type.</param>
public sealed record PhotoLine(Guid Id, string Repair, string? Place, string Kind, Instant Taken, string TakenBy, string Hash, string Type);

/// <summary>Asks for photos.</summary>
public static class PhotosOfTheShop
{
    /// <summary>Photos of a repair in the order in which they were taken, at most <see cref="Page{T}.MostItems"/>.</summary>
    /// <param name="store">The store.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<PhotoLine>> PhotosOf(this ShopStore store, string repair, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await Lines(db.Photos.Where(row => row.Repair == repair).OrderBy(row => row.Taken).ThenBy(row => row.Id)
            .Take(Page<PhotoLine>.MostItems)).ToListAsync(stop)).ToImmutableArray());
    }

    /// <summary>One photo; null where there is none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The photo.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<PhotoLine?> Photo(this ShopStore store, Guid id, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(db => Lines(db.Photos.Where(row => row.Id == id)).SingleOrDefaultAsync(stop));
    }

    private static IQueryable<PhotoLine> Lines(IQueryable<Rows.PhotoRow> rows) =>
        rows.Select(row => new PhotoLine(row.Id, row.Repair, row.Place, row.Kind, row.Taken, row.TakenBy, row.Hash, row.Type));
}
