using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Documents of which a shop has one each.</summary>
public enum ShopDocument
{
    /// <summary>People, places, calendar, rates.</summary>
    Shop,

    /// <summary>The shop's air: a heating pattern, or where its log or forecast comes from.</summary>
    Climate,

    /// <summary>What lies on the shelf beside packs: nozzles.</summary>
    Shelf,
}

/// <summary>A data sheet to be stored.</summary>
/// <param name="Id">Short name.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Use">What it is for, as the document writes it.</param>
/// <param name="Json">The sheet.</param>
public sealed record SheetDraft(string Id, string Name, string Use, string Json);

/// <summary>A pack to be stored.</summary>
/// <param name="Id">Name on the label.</param>
/// <param name="Material">Its sheet.</param>
/// <param name="Lot">Lot of the maker; empty = unknown.</param>
/// <param name="Expires">Last usable day; null = no date.</param>
/// <param name="Json">The pack; of several alike each is a document of its own.</param>
public sealed record PackDraft(string Id, string Material, string Lot, LocalDate? Expires, string Json);

/// <summary>Keeps what the shop is and has.</summary>
public static class SavingTheShop
{
    /// <summary>Stores one of the shop's own documents.</summary>
    /// <param name="store">The store.</param>
    /// <param name="which">Which document.</param>
    /// <param name="json">The document.</param>
    /// <param name="basedOn">Version that was seen; null = there was none.</param>
    /// <param name="by">Who saves.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> SaveShopDocument(
        this ShopStore store, ShopDocument which, string json, long? basedOn, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        string id = NameOf(which);
        return DocumentSaving.Save(store, id, json, basedOn, by, () => new ShopDocumentRow { Id = id }, _ => { }, stop);
    }

    /// <summary>Stores a data sheet.</summary>
    /// <param name="store">The store.</param>
    /// <param name="draft">The sheet.</param>
    /// <param name="basedOn">Version that was seen; null = a new sheet.</param>
    /// <param name="by">Who saves.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> SaveSheet(this ShopStore store, SheetDraft draft, long? basedOn, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        return DocumentSaving.Save(store, draft.Id, draft.Json, basedOn, by, () => new SheetRow { Id = draft.Id }, row =>
        {
            row.Name = draft.Name;
            row.Use = draft.Use;
        }, stop);
    }

    /// <summary>Stores a pack.</summary>
    /// <param name="store">The store.</param>
    /// <param name="draft">The pack.</param>
    /// <param name="basedOn">Version that was seen; null = a new pack.</param>
    /// <param name="by">Who saves.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> SavePack(this ShopStore store, PackDraft draft, long? basedOn, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        return DocumentSaving.Save(store, draft.Id, draft.Json, basedOn, by, () => new PackRow { Id = draft.Id }, row =>
        {
            row.Material = draft.Material;
            row.Lot = draft.Lot;
            row.Expires = draft.Expires;
        }, stop);
    }

    /// <summary>Takes a sheet out; packs of it may still be on the shelf.</summary>
    /// <param name="store">The store.</param>
    /// <param name="id">The sheet.</param>
    /// <param name="basedOn">Version that was seen.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<SaveOutcome> RemoveSheet(this ShopStore store, string id, long basedOn, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne<SaveOutcome>(async db =>
        {
            if (await db.Sheets.Where(row => row.Id == id && row.Version == basedOn).ExecuteDeleteAsync(stop) > 0)
                return new SaveOutcome.Saved(basedOn);
            return await db.Sheets.SingleOrDefaultAsync(row => row.Id == id, stop) is { } there
                ? new SaveOutcome.Overtaken(DocumentSaving.Stored(there), "")
                : new SaveOutcome.NotThere(id);
        }, stop);
    }

    internal static string NameOf(ShopDocument which) => which switch
    {
        ShopDocument.Shop => "shop",
        ShopDocument.Climate => "climate",
        ShopDocument.Shelf => "shelf",
        _ => throw new ArgumentOutOfRangeException(nameof(which)),
    };
}
