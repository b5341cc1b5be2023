using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Everything that a folder of files holds, checked.</summary>
/// <param name="Documents">The shop's own documents.</param>
/// <param name="Sheets">Data sheets.</param>
/// <param name="Packs">Packs.</param>
/// <param name="Repairs">Repairs.</param>
/// <param name="Readings">Readings of air by source.</param>
public sealed record ShopLoad(
    ImmutableDictionary<ShopDocument, string> Documents,
    ImmutableArray<SheetDraft> Sheets,
    ImmutableArray<PackDraft> Packs,
    ImmutableArray<RepairDraft> Repairs,
    ImmutableDictionary<string, ImmutableArray<ClimateReading>> Readings);

/// <summary>What became of taking in a folder.</summary>
/// <param name="Added">Documents that are new.</param>
/// <param name="Changed">Documents that were replaced.</param>
/// <param name="Same">Documents that lay in the store already, letter by letter.</param>
/// <param name="Clashes">Names of documents that are there with another content; where there is any, nothing was taken in.</param>
public sealed record FillOutcome(int Added, int Changed, int Same, ImmutableArray<string> Clashes);

/// <summary>Takes in many documents at once.</summary>
public static class FillingTheShop
{
    /// <summary>Takes in everything or nothing.</summary>
    /// <param name="store">The store.</param>
    /// <param name="load">What to take in.</param>
    /// <param name="replace">Whether documents that are there with another content are replaced.</param>
    /// <param name="by">Who does it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<FillOutcome> FillShop(this ShopStore store, ShopLoad load, bool replace, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(load);
        var outcome = await store.InOne(async db =>
        {
            var filling = new Filling(store, db, replace, by);
            foreach (var (which, json) in load.Documents)
                await filling.Put(SavingTheShop.NameOf(which), json, id => new ShopDocumentRow { Id = id }, _ => { }, stop);
            foreach (var sheet in load.Sheets)
                await filling.Put(sheet.Id, sheet.Json, id => new SheetRow { Id = id }, row => (row.Name, row.Use) = (sheet.Name, sheet.Use), stop);
            foreach (var pack in load.Packs)
                await filling.Put(pack.Id, pack.Json, id => new PackRow { Id = id }, row => (row.Material, row.Lot, row.Expires) = (pack.Material, pack.Lot, pack.Expires), stop);
            foreach (var repair in load.Repairs)
                await filling.Put(repair.Id, repair.Json, id => new RepairRow { Id = id, Created = store.Now }, row => SavingRepairs.Fill(row, repair), stop);
            if (filling.Clashes.Count == 0)
                await db.SaveChangesAsync(stop);
            return filling.Outcome;
        }, stop);
        if (!outcome.Clashes.IsEmpty)
            return outcome;
        foreach (var (source, readings) in load.Readings)
        {
            if (source == AddingReadings.Forecast)
                await store.ReplaceForecast(readings, stop);
            else
                await store.AddReadings(source, readings, stop);
        }

        return outcome;
    }

    private sealed class Filling(ShopStore store, ShopDb db, bool replace, string by)
    {
        private int _added;
        private int _changed;
        private int _same;

        public List<string> Clashes { get; } = [];

        public FillOutcome Outcome => new(_added, _changed, _same, [.. Clashes]);

        public async Task Put<TRow>(string id, string json, Func<string, TRow> make, Action<TRow> fill, CancellationToken stop)
            where TRow : DocumentRow
        {
            var row = await db.Set<TRow>().FindAsync([id], stop);
            if (row?.Document == json)
            {
                _same++;
                return;
            }

            if (row is not null && !replace)
            {
                Clashes.Add(id);
                return;
            }

            if (row is null)
            {
                db.Add(row = make(id));
                _added++;
            }
            else
            {
                _changed++;
            }

            row.Document = json;
            row.Version++;
            row.Changed = store.Now;
            row.ChangedBy = by;
            fill(row);
        }
    }
}
