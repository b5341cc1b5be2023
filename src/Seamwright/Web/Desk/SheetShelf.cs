using System.Collections.Concurrent;
using NodaTime;
using Seamwright.Air;
using Seamwright.Documents.Charts;
using Seamwright.Files.Format;
using Seamwright.Files.Typed;
using Seamwright.Materials;
using Seamwright.Program.Drawings;
using Seamwright.Program.Texts;
using Seamwright.Storage;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Seamwright.Units;

namespace Seamwright.Program.Web.Desk;

/// <summary>Data sheets as they lie in the store, read.</summary>
internal sealed class SheetShelf(ShopStore store)
{
    private const double Desktop = 640;
    private const double Phone = 344;

    /// <summary>Sheets kept before all are let go.</summary>
    private const int MostKept = 1000;

    // A sheet that was saved anew has another version, so nothing here grows old.
    private readonly ConcurrentDictionary<(string Id, long Version), DataSheet?> _read = new();

    /// <summary>A sheet; null = there is none of this name that can be read.</summary>
    public async Task<DataSheet?> Find(string id, CancellationToken stop) =>
        (await store.Sheets(stop)).FirstOrDefault(line => line.Document.Id == id) is { } line ? Read(line.Document) : null;

    /// <summary>All sheets that can be read, by name.</summary>
    public async Task<IReadOnlyList<DataSheet>> All(CancellationToken stop) =>
        [.. (await store.Sheets(stop)).Select(line => Read(line.Document)).OfType<DataSheet>()];

    private DataSheet? Read(StoredDocument document)
    {
        if (_read.Count > MostKept)
            _read.Clear();
        return _read.GetOrAdd((document.Id, document.Version), _ => Drafts.SheetOf(document.Json));
    }

    /// <summary>What a material does when applied now in the shop's air; null where nothing of it takes time.</summary>
    public static (CureDrawing Wide, CureDrawing Narrow)? Curve(DataSheet sheet, DeskState state, Formatter format)
    {
        if (!sheet.Milestones.Any(milestone => milestone.Needed > ReferenceTime.Zero))
            return null;
        var climate = state.Climate ?? new ConstantClimate(AirState.Standard);
        var words = new DrawingWords(format);
        Length? depth = sheet.PaintNeedsCuredThrough ? Length.FromMillimetres(3) : null;
        var cure = new CureCase(sheet, PanelClimate.FollowingAir(climate), state.AsOf, depth, state.AsOf, "", []);
        return (new CureDrawing(cure, words, Desktop), new CureDrawing(cure, words, Phone));
    }
}
