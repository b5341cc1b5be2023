using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Seamwright.Air;
using Seamwright.Files;
using Seamwright.Files.Trees;
using Seamwright.Storage.Actions;
using Seamwright.Work;

namespace Seamwright.Stored;

/// <summary>
/// Reads a folder of our files as what the store takes in. All repairs of the folder must be of one shop. A climate that all of them
/// have becomes the shop's; other ones stay with their repairs.
/// </summary>
public static class ShopImport
{
    /// <summary>Reads a repair, or a folder of repairs.</summary>
    /// <returns>What to take in, or every problem of every file.</returns>
    /// <param name="path">Folder of repairs, folder of one repair, or repair file.</param>
    public static Checked<ShopLoad> Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        ImmutableArray<string> repairs = RepairReader.RepairsBelow(path) is { IsEmpty: false } several ? several : [path];
        var readings = repairs.Select(repair => (Path: repair, Reading: RepairReader.Read(repair))).ToList();
        ImmutableArray<FileProblem> problems = [.. readings.SelectMany(one => one.Reading.Problems).Distinct()];
        if (!problems.IsEmpty)
            return new(null, problems);
        var gathering = new Gathering();
        foreach (var (repair, reading) in readings)
            gathering.Add(RepairReader.FileOf(repair), reading.Input!);
        return gathering.Finish();
    }

    private sealed class Gathering
    {
        private readonly List<FileProblem> _problems = [];
        private readonly Dictionary<string, SheetDraft> _sheets = [];
        private readonly Dictionary<string, PackDraft> _packs = [];
        private readonly List<(RepairInput Input, JsonObject Document, JsonNode? Climate, Climate Air)> _repairs = [];
        private string? _shop;
        private JsonObject? _shelf;

        public void Add(string file, RepairInput input)
        {
            var repair = Tree(file);
            var parts = new Parts(file, repair);
            string shop = WithoutLine(parts.One("shop").Content);
            if ((_shop ??= shop) != shop)
                _problems.Add(new(file, 0, 0, "shop", "store.import-other-shop", []));
            foreach (var (shown, content) in parts.Many("materials"))
                AddSheets(shown, content);
            if (repair.ContainsKey("stock"))
                AddStock(parts.One("stock"), input);

            var climate = parts.One("climate");
            foreach (string key in new[] { "shop", "materials", "stock", "climate", "seamwright" })
                repair.Remove(key);
            _repairs.Add((input, repair, JsonNode.Parse(WithoutLine(climate.Content)), input.Climate));
        }

        public Checked<ShopLoad> Finish()
        {
            var documents = ImmutableDictionary.CreateBuilder<ShopDocument, string>();
            documents.Add(ShopDocument.Shop, _shop!);
            if (_shelf is { Count: > 0 })
                documents.Add(ShopDocument.Shelf, NodeJson.Text(_shelf));
            var readings = ImmutableDictionary<string, ImmutableArray<ClimateReading>>.Empty;
            bool isOneClimate = _repairs.Select(repair => NodeJson.Text(repair.Climate)).Distinct().Count() == 1;
            if (isOneClimate)
            {
                documents.Add(ShopDocument.Climate, NodeJson.Text(_repairs[0].Climate));
                readings = ReadingsOf(_repairs[0].Air);
            }

            var drafts = ImmutableArray.CreateBuilder<RepairDraft>();
            foreach (var (input, document, climate, air) in _repairs)
            {
                if (!isOneClimate)
                {
                    if (!ReadingsOf(air).IsEmpty)
                        _problems.Add(new(input.Repair.Id, 0, 0, "climate", "store.import-own-table", []));
                    document["climate"] = climate;
                }

                document["id"] = input.Repair.Id;
                drafts.Add(new(input.Repair.Id, input.Repair.Name, NodeJson.Text(document), input.Repair.Arrives, input.Repair.Promise));
            }

            foreach (var twice in drafts.GroupBy(draft => draft.Id).Where(group => group.Count() > 1))
                _problems.Add(new(twice.Key, 0, 0, "id", "reference.twice", [twice.Key]));
            return _problems.Count > 0
                ? new(null, [.. _problems])
                : new(new(documents.ToImmutable(), [.. _sheets.Values], [.. _packs.Values], drafts.ToImmutable(), readings), []);
        }

        // The line tells a file's kind; in the store the table does.
        private static string WithoutLine(JsonObject content)
        {
            var bare = (JsonObject)content.DeepClone();
            bare.Remove("seamwright");
            return NodeJson.Text(bare);
        }

        private void AddSheets(string shown, JsonObject content)
        {
            foreach (var sheet in content["sheets"]!.AsArray().OfType<JsonObject>())
            {
                var whole = (JsonObject)sheet.DeepClone();
                if (content["reference"] is { } reference && !whole.ContainsKey("reference"))
                    whole["reference"] = reference.DeepClone();
                if (Drafts.Sheet(NodeJson.Text(whole)).Draft is not { } draft)
                    throw new InvalidOperationException($"A sheet of {shown} could be read, but not alone.");
                if (_sheets.TryGetValue(draft.Id, out var there) && there != draft)
                    _problems.Add(new(shown, 0, 0, $"sheets[{draft.Id}]", "store.import-two-contents", [draft.Id]));
                _sheets[draft.Id] = draft;
            }
        }

        private void AddStock((string Shown, JsonObject Content) stock, RepairInput input)
        {
            var zone = input.Shop.Zone;
            foreach (var pack in stock.Content["packs"] is JsonArray packs ? packs.OfType<JsonObject>() : [])
            {
                foreach (var draft in Drafts.Packs(NodeJson.Text(pack), null, zone).Draft ?? [])
                {
                    if (_packs.TryGetValue(draft.Id, out var there) && there != draft)
                        _problems.Add(new(stock.Shown, 0, 0, $"packs[{draft.Id}]", "store.import-two-contents", [draft.Id]));
                    _packs[draft.Id] = draft;
                }
            }

            var shelf = (JsonObject)stock.Content.DeepClone();
            shelf.Remove("packs");
            shelf.Remove("seamwright");
            if (_shelf is not null && NodeJson.Text(_shelf) != NodeJson.Text(shelf))
                _problems.Add(new(stock.Shown, 0, 0, "nozzles", "store.import-two-contents", ["nozzles"]));
            _shelf = shelf;
        }

        private static ImmutableDictionary<string, ImmutableArray<ClimateReading>> ReadingsOf(Climate air) => air switch
        {
            LoggedClimate log => ImmutableDictionary<string, ImmutableArray<ClimateReading>>.Empty.Add(AddingReadings.Log, RowsOf(log)),
            ForecastClimate { Outdoors: LoggedClimate outdoors } =>
                ImmutableDictionary<string, ImmutableArray<ClimateReading>>.Empty.Add(AddingReadings.Forecast, RowsOf(outdoors)),
            _ => ImmutableDictionary<string, ImmutableArray<ClimateReading>>.Empty,
        };

        private static ImmutableArray<ClimateReading> RowsOf(LoggedClimate log) =>
            [.. log.Breakpoints(log.First, log.Last).Append(log.First).Append(log.Last).Distinct().Order().Select(time => new ClimateReading(time, log.At(time)))];
    }

    /// <summary>The parts that a repair refers to, as what they hold.</summary>
    private sealed class Parts(string file, JsonObject repair)
    {
        public (string Shown, JsonObject Content) One(string key) => Of(repair[key]!);

        public IEnumerable<(string Shown, JsonObject Content)> Many(string key) =>
            repair[key] is JsonArray several ? several.Select(one => Of(one!)) : [Of(repair[key]!)];

        private (string Shown, JsonObject Content) Of(JsonNode part)
        {
            if (part is JsonObject inPlace)
                return (file, inPlace);
            string shown = Path.Combine(Path.GetDirectoryName(file) ?? "", part.ToString());
            return (shown, Tree(shown));
        }
    }

    // The files have been read without a problem, so there is a tree.
    private static JsonObject Tree(string shown)
    {
        var file = new SourceFile(shown, new ProblemList());
        string text = file.Text(SourceFile.Limit)!;
        return (JsonObject)NodeJson.Of((file.IsJson ? JsonTree.Read(text, file) : YamlTree.Read(text, file))!)!;
    }
}
