using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Saves a document only on top of the version that its writer has seen.</summary>
internal static class DocumentSaving
{
    /// <summary>Saves one document in a transaction of its own.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">Name of the document.</param>
    /// <param name="json">Its text.</param>
    /// <param name="basedOn">Version that the writer has seen; null = the document is new.</param>
    /// <param name="by">Who saves.</param>
    /// <param name="make">Makes the row of a new document.</param>
    /// <param name="fill">Sets the columns that stand beside the text.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<SaveOutcome> Save<TRow>(
        ShopStore store, string id, string json, long? basedOn, string by, Func<TRow> make, Action<TRow> fill, CancellationToken stop)
        where TRow : DocumentRow
    {
        try
        {
            return await store.InOne<SaveOutcome>(async db =>
            {
                var row = await db.Set<TRow>().FindAsync([id], stop);
                if (row is null && basedOn is not null)
                    return new SaveOutcome.NotThere(id);
                if (row is not null && row.Version != basedOn)
                    return new SaveOutcome.Overtaken(Stored(row), json);
                if (row is null)
                    db.Add(row = make());
                row.Document = json;
                row.Version++;
                row.Changed = store.Now;
                row.ChangedBy = by;
                fill(row);
                await db.SaveChangesAsync(stop);
                return new SaveOutcome.Saved(row.Version);
            }, stop);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.InnerException is DbException inner && store.Database.IsTwice(inner))
        {
            // Somebody was faster between our reading and our writing.
            var there = await store.Ask(db => db.Set<TRow>().SingleOrDefaultAsync(row => row.Id == id, stop));
            return there is null ? new SaveOutcome.NotThere(id) : new SaveOutcome.Overtaken(Stored(there), json);
        }
    }

    public static StoredDocument Stored(DocumentRow row) => new(row.Id, row.Document, row.Version, row.Changed, row.ChangedBy);
}
