using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Seamwright.Air;
using Seamwright.Files;
using Seamwright.Files.Format;
using Seamwright.Shops;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;

namespace Seamwright.Stored;

/// <summary>
/// Everything in the store that repairs are planned from, as the documents that files would be. Stored documents, forms and files are
/// all read by <see cref="RepairReader"/>, so problems have the same fields and sentences everywhere. Names of the documents in problems:
/// <c>repair.json</c>, <c>shop.json</c>, <c>materials.json</c>, <c>stock.json</c>, <c>climate.json</c>.
/// </summary>
public sealed class StoredShop
{
    /// <summary>How far back readings of a log are taken along.</summary>
    public static Duration LogTaken { get; } = Duration.FromDays(14);

    /// <summary>A reading of the shop's own air counts as fresh for so long; it then takes the place of the climate document's reading.</summary>
    public static Duration Fresh { get; } = Duration.FromHours(3);

    private const string RepairName = "repair.json";

    private const string ShopName = "shop.json";

    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    private readonly ImmutableDictionary<string, ReadOnlyMemory<byte>> _documents;
    private readonly ImmutableSortedDictionary<Instant, string> _slotsTaken;
    private readonly Instant? _now;

    private StoredShop(
        ImmutableDictionary<string, ReadOnlyMemory<byte>> documents, ImmutableSortedDictionary<Instant, string> slotsTaken, DateTimeZone zone, Instant? now)
    {
        _documents = documents;
        _slotsTaken = slotsTaken;
        Zone = zone;
        _now = now;
    }

    /// <summary>The shop's zone; UTC where there is no shop yet.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The shop itself, also while it has no repair; null where there is none or its document cannot be read.</summary>
    public Shop? Shop => _documents.TryGetValue(ShopName, out var bytes) ? Drafts.ShopOf(Encoding.UTF8.GetString(bytes.Span)) : null;

    /// <summary>Fetches it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="now">The moment from which is planned; null = each repair's own, as for a demonstration.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<StoredShop> Load(ShopStore store, Instant? now, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var documents = ImmutableDictionary.CreateBuilder<string, ReadOnlyMemory<byte>>();
        var shop = await store.ShopDocumentOf(ShopDocument.Shop, stop);
        if (shop is not null)
            documents.Add(ShopName, Bytes(WithLine(shop.Json, ShopFormat.Line)));
        documents.Add("materials.json", Bytes(Materials(await store.Sheets(stop))));
        documents.Add("stock.json", Bytes(Stock(await store.ShopDocumentOf(ShopDocument.Shelf, stop), await store.PacksInTheShop(stop))));
        var climate = await ClimateDocuments.Load(store, now, stop);
        documents.AddRange(climate.Select(document => KeyValuePair.Create(document.Name, Bytes(document.Text))));
        return new(documents.ToImmutable(), await store.SlotsTaken(now ?? Instant.MinValue, stop), ZoneOf(shop?.Json), now);
    }

    /// <summary>Reads a repair as it lies in the store.</summary>
    /// <param name="repair">The repair's document.</param>
    public Reading Read(StoredDocument repair)
    {
        ArgumentNullException.ThrowIfNull(repair);
        return Read(repair.Id, repair.Json);
    }

    /// <summary>Reads a repair that is not stored yet, or as it would be if it were stored.</summary>
    /// <param name="id">Name of the repair.</param>
    /// <param name="json">The document.</param>
    public Reading Read(string id, string json)
    {
        ArgumentNullException.ThrowIfNull(id);
        ArgumentNullException.ThrowIfNull(json);
        return RepairReader.Read(RepairName, _documents.SetItem(RepairName, Bytes(NodeJson.ObjectOf(json) is { } map ? NodeJson.Text(Whole(id, map)) : json)), isLive: _now is not null);
    }

    /// <summary>Whether a repair has a climate of its own instead of the shop's.</summary>
    /// <param name="repair">The repair's document.</param>
    public static bool HasOwnAir(StoredDocument repair)
    {
        ArgumentNullException.ThrowIfNull(repair);
        return NodeJson.ObjectOf(repair.Json)?.ContainsKey("climate") ?? false;
    }

    internal static ReadOnlyMemory<byte> Bytes(string text) => Encoding.UTF8.GetBytes(text);

    internal static string WithLine(string json, string line)
    {
        if (NodeJson.ObjectOf(json) is not { } map || map.ContainsKey("seamwright"))
            return json;
        map.Insert(0, "seamwright", line);
        return NodeJson.Text(map);
    }

    internal static string Materials(IEnumerable<SheetLine> sheets) => NodeJson.Text(new JsonObject
    {
        ["seamwright"] = MaterialsFormat.Line,
        ["sheets"] = new JsonArray([.. sheets.Select(sheet => JsonNode.Parse(sheet.Document.Json))]),
    });

    internal static string Stock(StoredDocument? shelf, IEnumerable<PackLine> packs)
    {
        var stock = shelf is null ? new JsonObject() : NodeJson.ObjectOf(shelf.Json) ?? [];
        stock["seamwright"] = StockFormat.Line;
        stock["packs"] = new JsonArray([.. packs.Select(pack => JsonNode.Parse(pack.Document.Json))]);
        return NodeJson.Text(stock);
    }

    internal static DateTimeZone ZoneOf(string? shop) =>
        shop is not null && NodeJson.ObjectOf(shop) is { } map && map["zone"] is JsonValue zone && zone.TryGetValue(out string? name)
            ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) ?? DateTimeZone.Utc
            : DateTimeZone.Utc;

    // What the shop has is laid beside the repair, what has happened since is laid over it.
    private JsonObject Whole(string id, JsonObject repair)
    {
        var whole = (JsonObject)repair.DeepClone();
        if (!whole.ContainsKey("seamwright"))
            whole.Insert(0, "seamwright", RepairFormat.Line);
        whole.TryAdd("id", JsonValue.Create(id));
        whole["shop"] = ShopName;
        whole["materials"] = new JsonArray("materials.json");
        whole["stock"] = "stock.json";
        if (_documents.ContainsKey(ClimateDocuments.Name))
            whole.TryAdd("climate", JsonValue.Create(ClimateDocuments.Name));
        if (_now is { } now)
            whole["now"] = Local.Format(now.InZone(Zone).LocalDateTime);
        if (whole["slots"] is JsonArray slots)
            whole["slots"] = new JsonArray([.. slots.Where(slot => IsOpen(slot, id)).Select(slot => slot?.DeepClone())]);
        return whole;
    }

    // A slot that another repair has taken is no offer, and neither is one that has passed; one that cannot be read is left for the reader to tell.
    private bool IsOpen(JsonNode? slot, string id)
    {
        if (slot is not JsonValue value || !value.TryGetValue(out string? text) || !Local.Parse(text).TryGetValue(default, out var local))
            return true;
        var at = Zone.AtLeniently(local).ToInstant();
        return (_now is not { } now || at >= now) && (!_slotsTaken.TryGetValue(at, out string? holder) || holder == id);
    }
}
