using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>What became of packs that were to come on the shelf.</summary>
public abstract record PacksAdded
{
    private PacksAdded()
    {
    }

    /// <summary>All of them are there.</summary>
    public sealed record All : PacksAdded;

    /// <summary>None of them is: there is, or was, a pack of this name.</summary>
    /// <param name="Pack">The name.</param>
    /// <param name="IsGone">Whether that pack has left the shop; its records stand on the name.</param>
    public sealed record NameTaken(string Pack, bool IsGone) : PacksAdded;
}

/// <summary>Puts new packs on the shelf.</summary>
public static class AddingPacks
{
    /// <summary>Stores new packs, all or none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="drafts">The packs.</param>
    /// <param name="by">Who brings them.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<PacksAdded> AddPacks(this ShopStore store, IReadOnlyList<PackDraft> drafts, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(drafts);
        var names = drafts.Select(draft => draft.Id).ToList();
        try
        {
            return await store.InOne(async db =>
            {
                if (await Taken(db, names, stop) is { } taken)
                    return taken;
                db.Packs.AddRange(drafts.Select(draft => new PackRow
                {
                    Id = draft.Id,
                    Document = draft.Json,
                    Version = 1,
                    Changed = store.Now,
                    ChangedBy = by,
                    Material = draft.Material,
                    Lot = draft.Lot,
                    Expires = draft.Expires,
                }));
                await db.SaveChangesAsync(stop);
                return new PacksAdded.All();
            }, stop);
        }
        catch (DbUpdateException e) when (e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            // Somebody was faster between our reading and our writing.
            return await store.Ask(db => Taken(db, names, stop)) ?? throw new InvalidOperationException("A name of a pack was there and is not any more: packs are never deleted.", e);
        }
    }

    private static async Task<PacksAdded?> Taken(ShopDb db, List<string> names, CancellationToken stop) =>
        await db.Packs.AsNoTracking().Where(row => names.Contains(row.Id)).OrderBy(row => row.Id).FirstOrDefaultAsync(stop) is { } there
            ? new PacksAdded.NameTaken(there.Id, there.Gone is not null)
            : null;
}
