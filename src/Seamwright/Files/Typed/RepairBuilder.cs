using System.Collections.Immutable;
using NodaTime;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Files.Typed;

/// <summary>Reads a repair and the files it refers to.</summary>
internal sealed class RepairBuilder(FileSet files)
{
    /// <summary>The input; worth anything only where no problem was told.</summary>
    public RepairInput? Read(MapReader map)
    {
        var shopMap = Inner(map, "shop", ShopFormat.File, ShopFormat.Line);
        var shop = shopMap is null ? null : ShopReader.Read(shopMap);
        var zone = shop?.Zone ?? DateTimeZone.Utc;
        var now = map.Moment("now", zone);
        var sheets = Sheets(map, shop?.Currency ?? "?");

        // Without all sheets no reference to one can be judged: one missing file must not look like twenty mistakes.
        var byName = sheets?.GroupBy(sheet => sheet.Id.Value).ToImmutableDictionary(group => group.Key, group => group.First());
        if (shopMap?.Id("usual_primer") is { } primer && byName is not null && !byName.ContainsKey(primer))
            References.TellUnknown(shopMap.Find("usual_primer")!.Value, primer, byName.Keys, "reference.material");

        var stock = Inner(map, "stock", StockFormat.File, StockFormat.Line) is { } stockMap
            ? new StockReader(zone, now, byName).Read(stockMap)
            : new Stock();
        var climate = Inner(map, "climate", ClimateFormat.File, ClimateFormat.Line) is { } climateMap
            ? new ClimateReader(files, zone, now).Read(climateMap)
            : null;
        var repair = Repair(map, zone, now, byName);
        if (shop is not null && map.Map("today") is { } today)
            shop = Today(today, shop, zone, byName, now ?? default);

        return files.Problems.Count == 0 && shop is not null && sheets is { } all && climate is not null
            ? new(repair, shop, all, stock, climate, files.ContentHash())
            : null;
    }

    /// <summary>A part that stands in place or in a file of its own.</summary>
    private MapReader? Inner(MapReader map, string key, Section section, string line)
    {
        if (map.Find(key) is not { } field)
            return null;
        return field.Node is MapNode ? MapReader.Open(field, section)
            : FileSet.Beside(field) is { } shown ? OpenNamed(field, shown, section, line)
            : null;
    }

    // A file that is not there is told where it is named: that is the line to mend.
    private MapReader? OpenNamed(Field field, string shown, Section section, string line)
    {
        if (files.Has(shown))
            return files.Open(shown, section, line);
        field.Problem("file.named-missing", Words.Quote(shown));
        return null;
    }

    private ImmutableArray<DataSheet>? Sheets(MapReader map, string currency)
    {
        if (map.Find("materials") is not { } materials)
            return null;
        var sheets = ImmutableArray.CreateBuilder<DataSheet>();
        var names = new HashSet<string>();
        bool complete = true;
        foreach (var item in materials.Items())
        {
            var file = item.Node is MapNode ? MapReader.Open(item, MaterialsFormat.File)
                : FileSet.Beside(item) is { } shown ? OpenNamed(item, shown, MaterialsFormat.File, MaterialsFormat.Line)
                : null;
            complete &= file is not null;
            if (file is null)
                continue;
            foreach (var (sheetMap, sheet) in MaterialsReader.Read(file, currency))
            {
                if (sheet.Id.Value.Length > 0 && !names.Add(sheet.Id.Value))
                    sheetMap.Problem("id", "reference.twice", sheet.Id.Value);
                sheets.Add(sheet);
            }
        }

        return complete ? sheets.ToImmutable() : null;
    }

    private Repair Repair(MapReader map, DateTimeZone zone, Instant? now, ImmutableDictionary<string, DataSheet>? sheets)
    {
        var places = new PlaceReader(zone, now, sheets);
        var order = new PlaceOrder();
        ImmutableArray<T> All<T>(string key, Func<MapReader, T> read)
        {
            var all = ImmutableArray.CreateBuilder<T>();
            foreach (var item in map.Maps(key))
            {
                order.Add(key, item);
                all.Add(read(item));
            }

            return all.ToImmutable();
        }

        string id = map.Id("id") ?? FolderName(map.File);
        var vehicle = map.Map("vehicle");
        var procedure = map.Map("procedure");
        var repair = new Repair
        {
            Id = id,
            Name = map.Text("name") ?? id,
            Now = now ?? default,
            Arrives = map.Moment("arrives", zone),
            Promise = map.Moment("promise", zone) ?? default,
            PaintSlots = Slots(map, zone, now),
            BakeTemperature = map.Temperature("bake"),
            Joints = All("joints", places.Joint),
            Bonds = All("bonds", places.Bond),
            BareAreas = All("bare_areas", places.BareArea),
            Cavities = All("cavities", PlaceReader.Cavity),
            Operations = All("operations", PlaceReader.Operation),
            Panel = map.Map("panel") is { } panel ? Panel(panel, zone, now) : null,
            VehicleTilt = vehicle?.Angle("tilt"),
            CanBeLevelled = vehicle?.Flag("can_be_levelled") ?? true,
            ProcedureReference = procedure?.Text("reference") ?? "",
            LooksRecorded = map.Flag("looks_recorded") ?? true,
        };
        order.Check();
        if (now is { } present && !files.IsLive && map.Has("promise") && repair.Promise != default && repair.Promise <= present)
            map.Problem("promise", "repair.promise-before-now");
        return repair with
        {
            Procedure = procedure is null ? [] : [.. procedure.Maps("statements").Select(item => Statement(item, places, order))],
            SignOffs = [.. map.Maps("sign_offs").Select(item => SignOff(item, places, order))],
        };
    }

    private static ImmutableArray<Instant> Slots(MapReader map, DateTimeZone zone, Instant? now)
    {
        var slots = ImmutableArray.CreateBuilder<Instant>();
        foreach (var item in map.Items("slots"))
        {
            if (Times.Moment(item, zone) is not { } slot)
                continue;
            if (now is { } present && slot < present)
                item.Problem("repair.slot-before-now");
            else if (slots.Count > 0 && slot <= slots[^1])
                item.Problem("repair.slots-not-ascending");
            slots.Add(slot);
        }

        if (map.Find("slots") is { Node: ListNode { Items.Length: 0 } } empty)
            empty.Problem("value.empty-list");
        return slots.ToImmutable();
    }

    private static PanelReading Panel(MapReader map, DateTimeZone zone, Instant? now)
    {
        var at = map.Moment("at", zone);
        if (at is { } moment && now is { } present && moment > present)
            map.Problem("at", "repair.reading-in-future");
        return new(at ?? now ?? default, map.Temperature("temperature") ?? default);
    }

    private static ProcedureStatement Statement(MapReader map, PlaceReader places, PlaceOrder order)
    {
        order.Place(map, "place");
        if (!map.Has("materials") && !map.Has("chemistries") && !map.Has("uses"))
            map.Self.Problem("repair.statement-names-nothing");
        return new(
            map.Id("place") is { } place ? new PlaceId(place) : null,
            map.Word<ProcedureKind>("says") ?? ProcedureKind.Requires,
            [.. map.Items("materials").Select(places.Material).OfType<MaterialId>()],
            map.WordList<Chemistry>("chemistries"),
            map.WordList<MaterialUse>("uses"),
            map.Text("text") ?? "");
    }

    private static SignOff SignOff(MapReader map, PlaceReader places, PlaceOrder order)
    {
        order.Place(map, "place");
        return new(
            new(map.Id("place") ?? ""),
            (map.Find("material") is { } material ? places.Material(material) : null) ?? new MaterialId(""),
            map.Text("rule") ?? "",
            map.Text("role") ?? "",
            map.Text("by") ?? "",
            map.Text("reason") ?? "");
    }

    private static Shop Today(MapReader map, Shop shop, DateTimeZone zone, ImmutableDictionary<string, DataSheet>? sheets, Instant now)
    {
        var people = shop.People;
        foreach (var (field, name) in map.Ids("absent"))
        {
            if (!shop.People.Any(person => person.Id == name))
                References.TellUnknown(field, name, shop.People.Select(person => person.Id), "reference.person");
            people = people.RemoveAll(person => person.Id == name);
        }

        var lacks = map.Ids("supplier_lacks");
        foreach (var (field, name) in lacks)
        {
            if (sheets is not null && !sheets.ContainsKey(name))
                References.TellUnknown(field, name, sheets.Keys, "reference.material");
        }

        var lamps = shop.Lamps;
        if (map.Has("lamp_busy_until") || map.Has("lamp_free_until"))
        {
            if (lamps is null)
                map.Self.Problem("repair.no-lamps");
            lamps = lamps is null ? null : lamps with
            {
                BusyUntil = map.Moment("lamp_busy_until", zone),
                FreeUntil = map.Moment("lamp_free_until", zone),
            };
        }

        return shop with
        {
            People = people,
            Lamps = lamps,
            Supplier = shop.Supplier is { } supplier
                ? supplier with
                {
                    Lacks = supplier.Lacks.Union(lacks.Select(item => item.Name)),
                    ClosedUntil = map.Flag("supplier_closed") ?? false ? zone.AtStartOfDay(now.InZone(zone).Date.PlusDays(1)).ToInstant() : null,
                }
                : null,
        };
    }

    private static string FolderName(SourceFile file)
    {
        string full = Path.GetFullPath(file.Shown);
        return Path.GetFileName(Path.GetDirectoryName(full)) is { Length: > 0 } name ? name : "repair";
    }
}
