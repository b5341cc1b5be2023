using System.Collections.Immutable;
using System.Text.Json.Nodes;
using NodaTime;
using Seamwright.Files;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Materials;
using Seamwright.Shops;
using Seamwright.Storage.Actions;

namespace Seamwright.Stored;

/// <summary>A document that was checked before it is stored.</summary>
/// <param name="Draft">What to store; null where there is a problem.</param>
/// <param name="Problems">Every problem with its field.</param>
/// <typeparam name="T">What to store.</typeparam>
public sealed record Checked<T>(T? Draft, ImmutableArray<FileProblem> Problems)
    where T : class;

/// <summary>Checks documents from forms and makes of them what is stored, by the same readers as for files.</summary>
public static class Drafts
{
    /// <summary>A repair, checked against everything that the shop has.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">Name of the repair.</param>
    /// <param name="json">The document.</param>
    public static Checked<RepairDraft> Repair(StoredShop shop, string id, string json)
    {
        ArgumentNullException.ThrowIfNull(shop);
        var reading = shop.Read(id, json);
        return reading.Input is { } input
            ? new(new(input.Repair.Id, input.Repair.Name, json, input.Repair.Arrives, input.Repair.Promise), [])
            : new(null, reading.Problems);
    }

    /// <summary>A data sheet.</summary>
    /// <param name="json">The sheet, as one entry of a materials file.</param>
    public static Checked<SheetDraft> Sheet(string json)
    {
        var file = NodeJson.Text(new JsonObject { ["seamwright"] = MaterialsFormat.Line, ["sheets"] = new JsonArray(Entry(json)) });
        return Read("materials.json", file, MaterialsFormat.File, MaterialsFormat.Line, (_, map) =>
        {
            var sheet = MaterialsReader.Read(map, "").Select(read => read.Sheet).FirstOrDefault();
            return sheet is null ? null : new SheetDraft(sheet.Id.Value, sheet.Name, Words.Word(sheet.Use), json);
        });
    }

    /// <summary>Packs: one for each that the document counts.</summary>
    /// <param name="json">The pack, as one entry of a stock file.</param>
    /// <param name="sheets">The shop's sheets as one materials file; null = not to be looked at.</param>
    /// <param name="zone">The shop's zone.</param>
    /// <param name="now">The present, after which nothing can have been opened; null = not to be looked at.</param>
    public static Checked<IReadOnlyList<PackDraft>> Packs(string json, string? sheets, DateTimeZone zone, Instant? now = null)
    {
        var file = NodeJson.Text(new JsonObject { ["seamwright"] = StockFormat.Line, ["packs"] = new JsonArray(Entry(json)) });
        return Read<IReadOnlyList<PackDraft>>("stock.json", file, StockFormat.File, StockFormat.Line, (_, map) =>
        {
            var packs = new StockReader(zone, now, sheets is null ? null : SheetsOf(sheets)).Read(map).Packs;
            return [.. packs.Select(pack => new PackDraft(pack.Id.Value, pack.Material.Value, pack.Lot, pack.Expires, OneOf(json, pack.Id.Value)))];
        });
    }

    /// <summary>What lies on the shelf beside the packs.</summary>
    /// <param name="json">The document.</param>
    /// <param name="zone">The shop's zone.</param>
    public static Checked<string> Shelf(string json, DateTimeZone zone) =>
        Read("stock.json", StoredShop.WithLine(json, StockFormat.Line), StockFormat.File, StockFormat.Line, (_, map) => new StockReader(zone, null, null).Read(map) is null ? null : json);

    /// <summary>The shop itself.</summary>
    /// <param name="json">The document.</param>
    public static Checked<string> Shop(string json) =>
        Read("shop.json", StoredShop.WithLine(json, ShopFormat.Line), ShopFormat.File, ShopFormat.Line, (_, map) => ShopReader.Read(map) is null ? null : json);

    /// <summary>The shop as the planner has it; null where its document cannot be read.</summary>
    /// <param name="json">The document.</param>
    public static Shop? ShopOf(string json) =>
        Read("shop.json", StoredShop.WithLine(json, ShopFormat.Line), ShopFormat.File, ShopFormat.Line, (_, map) => ShopReader.Read(map)).Draft;

    /// <summary>The shop's climate.</summary>
    /// <param name="json">The document.</param>
    /// <param name="zone">The shop's zone.</param>
    /// <param name="tables">Tables that it may refer to, by the names of <see cref="ClimateDocuments"/>; none = it refers to none.</param>
    public static Checked<string> Climate(string json, DateTimeZone zone, params ReadOnlySpan<(string Name, string Text)> tables)
    {
        var problems = new ProblemList();
        return StoredAir.Read([(ClimateDocuments.Name, StoredShop.WithLine(json, ClimateFormat.Line)), .. tables], zone, null, problems) is null
            ? new(null, [.. problems.Shown()])
            : new(json, []);
    }

    private static Checked<T> Read<T>(string name, string text, Section section, string line, Func<FileSet, MapReader, T?> read)
        where T : class
    {
        var problems = new ProblemList();
        var files = new FileSet(problems, FileSource.InMemory(ImmutableDictionary<string, ReadOnlyMemory<byte>>.Empty.Add(name, StoredShop.Bytes(text))));
        var draft = files.Open(name, section, line) is { } map ? read(files, map) : null;
        return problems.Count == 0 ? new(draft, []) : new(null, [.. problems.Shown()]);
    }

    /// <summary>A data sheet as the planner has it; null where it cannot be read.</summary>
    /// <param name="json">The sheet, as one entry of a materials file.</param>
    public static DataSheet? SheetOf(string json) => SheetsOf(NodeJson.Text(new JsonObject { ["seamwright"] = MaterialsFormat.Line, ["sheets"] = new JsonArray(Entry(json)) })).Values.FirstOrDefault();

    /// <summary>A pack as the planner has it; null where it cannot be read.</summary>
    /// <param name="json">The pack, as one entry of a stock file.</param>
    /// <param name="sheet">Its sheet, of which a pack is full where it does not say how much is left; null = not known.</param>
    /// <param name="zone">The shop's zone.</param>
    public static Pack? PackOf(string json, DataSheet? sheet, DateTimeZone zone)
    {
        var sheets = sheet is null ? null : ImmutableDictionary<string, DataSheet>.Empty.Add(sheet.Id.Value, sheet);
        var file = NodeJson.Text(new JsonObject { ["seamwright"] = StockFormat.Line, ["packs"] = new JsonArray(Entry(json)) });
        return Read("stock.json", file, StockFormat.File, StockFormat.Line, (_, map) => new StockReader(zone, null, sheets).Read(map).Packs.FirstOrDefault()).Draft;
    }

    /// <summary>The loose nozzles of a shelf; none where it cannot be read.</summary>
    /// <param name="json">The document beside the packs.</param>
    public static ImmutableArray<NozzleStock> NozzlesOf(string json) =>
        Read("stock.json", StoredShop.WithLine(json, StockFormat.Line), StockFormat.File, StockFormat.Line, (_, map) => new StockReader(DateTimeZone.Utc, null, null).Read(map)).Draft?.Nozzles ?? [];

    private static ImmutableDictionary<string, DataSheet> SheetsOf(string materials)
    {
        var files = new FileSet(new ProblemList(), FileSource.InMemory(ImmutableDictionary<string, ReadOnlyMemory<byte>>.Empty.Add("materials.json", StoredShop.Bytes(materials))));
        return files.Open("materials.json", MaterialsFormat.File, MaterialsFormat.Line) is { } map
            ? MaterialsReader.Read(map, "").GroupBy(read => read.Sheet.Id.Value).ToImmutableDictionary(group => group.Key, group => group.First().Sheet)
            : [];
    }

    // What is no object is handed on as it is, so that the reader says what is wrong with it.
    private static JsonNode? Entry(string json) => NodeJson.ObjectOf(json) is { } map ? map : JsonValue.Create(json);

    private static string OneOf(string json, string id)
    {
        if (NodeJson.ObjectOf(json) is not { } map || !map.ContainsKey("count"))
            return json;
        map.Remove("count");
        map["id"] = id;
        return NodeJson.Text(map);
    }
}
