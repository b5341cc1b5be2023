using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>A repair to be stored. What stands beside the document has been read from it by whoever checked it.</summary>
/// <param name="Id">Name, as the document writes it.</param>
/// <param name="Title">Name for people.</param>
/// <param name="Json">The document, without shop, materials and stock.</param>
/// <param name="Arrives">When the car comes in; null = it is here.</param>
/// <param name="Promised">When it was promised.</param>
public sealed record RepairDraft(string Id, string Title, string Json, Instant? Arrives, Instant? Promised);

/// <summary>Keeps repairs.</summary>
public static class SavingRepairs
{
    /// <summary>Stores a repair.</summary>
    /// <param name="store">The store.</param>
    /// <param name="draft">The repair.</param>
    /// <param name="basedOn">Version that was seen; null = a new repair.</param>
    /// <param name="by">Who saves.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> SaveRepair(this ShopStore store, RepairDraft draft, long? basedOn, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        return DocumentSaving.Save(store, draft.Id, draft.Json, basedOn, by, () => new RepairRow { Id = draft.Id, Created = store.Now }, row => Fill(row, draft), stop);
    }

    /// <summary>Moves a repair to another state. Delivered and closed repairs give back the packs that are still taken for them.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The repair.</param>
    /// <param name="state">The state it has from now on.</param>
    /// <param name="basedOn">Version that was seen.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<SaveOutcome> MoveRepair(
        this ShopStore store, string id, RepairState state, long basedOn, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        try
        {
            return await store.InOne<SaveOutcome>(async db =>
            {
                var row = await db.Repairs.FindAsync([id], stop);
                if (row is null)
                    return new SaveOutcome.NotThere(id);
                if (row.Version != basedOn)
                    return new SaveOutcome.Overtaken(DocumentSaving.Stored(row), row.Document);
                row.State = state;
                row.Version++;
                row.Changed = store.Now;
                row.ChangedBy = by;
                await db.SaveChangesAsync(stop);
                if (state != RepairState.Open)
                {
                    await db.Packs.Where(pack => pack.TakenFor == id).ExecuteUpdateAsync(
                        set => set.SetProperty(pack => pack.TakenFor, (string?)null).SetProperty(pack => pack.TakenBy, (string?)null)
                            .SetProperty(pack => pack.TakenAt, (Instant?)null).SetProperty(pack => pack.Version, pack => pack.Version + 1), stop);
                }

                return new SaveOutcome.Saved(row.Version);
            }, stop);
        }
        catch (DbUpdateConcurrencyException)
        {
            var there = await store.Ask(db => db.Repairs.SingleAsync(row => row.Id == id, stop));
            return new SaveOutcome.Overtaken(DocumentSaving.Stored(there), there.Document);
        }
    }

    internal static void Fill(RepairRow row, RepairDraft draft)
    {
        row.Title = draft.Title;
        row.Search = $"{draft.Id} {draft.Title}".ToLowerInvariant();
        row.Arrives = draft.Arrives;
        row.Promised = draft.Promised;
    }
}
