using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Files.Values;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Files;

/// <summary>Reads a work log.</summary>
public sealed class WorkLogReader
{
    private static readonly ImmutableArray<string> Always = ["id", "at", "by", "what"];

    private readonly FileSet _files;
    private readonly RepairInput? _input;
    private readonly DateTimeZone _zone;
    private readonly HashSet<string> _ids = [];
    private Climate? _air;

    private WorkLogReader(FileSet files, RepairInput? input)
    {
        (_files, _input) = (files, input);
        _zone = input?.Shop.Zone ?? DateTimeZone.Utc;
        _air = input?.Climate;
    }

    /// <summary>Reads a log for a repair. Tells every problem at once.</summary>
    /// <param name="path">The log.</param>
    /// <param name="input">The repair it is of.</param>
    public static (WorkLog? Log, ImmutableArray<FileProblem> Problems) Read(string path, RepairInput input)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(input);
        var files = new FileSet(new ProblemList());
        WorkLog? log = null;
        if (files.Open(path, WorkLogFormat.File, WorkLogFormat.Line) is { } map)
            log = new WorkLogReader(files, input).Read(map) with { ContentHash = files.ContentHash() };
        return (files.Problems.Count == 0 ? log : null, [.. files.Problems.Shown()]);
    }

    /// <summary>Checks a log by itself: names of the repair are not known then.</summary>
    internal static void Check(FileSet files, MapReader map) => new WorkLogReader(files, null).Read(map);

    private WorkLog Read(MapReader map)
    {
        var entries = ImmutableArray.CreateBuilder<LogEntry>();
        foreach (var item in map.Maps("entries"))
        {
            string id = item.Id("id") ?? "";
            if (id.Length > 0 && !_ids.Add(id))
                item.Problem("id", "reference.twice", Words.Quote(id));
            if (item.Word<EntryKind>("what") is { } kind && HasKeys(item, kind))
                entries.AddRange(Entries(item, kind, id, item.Moment("at", _zone) ?? default, item.Id("by") ?? ""));
        }
        return new WorkLog(entries.ToImmutable());
    }

    private static bool HasKeys(MapReader item, EntryKind kind)
    {
        var (needed, allowed) = WorkLogFormat.KeysOf(kind);
        bool good = true;
        foreach (string key in needed.Where(key => !item.Has(key)))
        {
            item.Self.Problem("worklog.key-missing", Words.Word(kind), key, WorkLogFormat.Entry.Find(key).Example);
            good = false;
        }
        foreach (string key in WorkLogFormat.Entry.Keys.Select(key => key.Name).Where(key => item.Has(key) && !Always.Contains(key) && !needed.Contains(key) && !allowed.Contains(key)))
            item.Problem(key, "worklog.key-not-for", key, Words.Word(kind), Words.OneOf(needed.Concat(allowed).DefaultIfEmpty("–")));
        return good;
    }

    private IEnumerable<LogEntry> Entries(MapReader item, EntryKind kind, string id, Instant at, string by)
    {
        MaterialId? Material() => item.Id("material") is { } name ? new MaterialId(name) : null;
        var work = new WorkOn(item.Has("work") ? item.Word<StepKind>("work") ?? default : default, [.. item.Ids("places").Select(place => new PlaceId(place.Name))]);
        switch (kind)
        {
            case EntryKind.Started:
                yield return new LogEntry.Started(id, at, by, work, item.Id("person"), Material());
                break;
            case EntryKind.Ended:
                yield return new LogEntry.Ended(id, at, by, work, item.Id("person"), Material(), item.Moment("start", _zone), [.. item.Maps("packs").Select(Taken)]);
                break;
            case EntryKind.AsAnnounced:
                yield return new LogEntry.AsAnnounced(id, at, by);
                break;
            case EntryKind.Failed:
                var fault = item.Word<Fault>("fault") ?? Fault.Holiday;
                yield return new LogEntry.Failed(id, at, by, new PlaceId(item.Id("place") ?? ""), fault, item.Word<TakenOff>("down_to") ?? (fault == Fault.Adhesion ? TakenOff.Metal : TakenOff.Coat));
                break;
            case EntryKind.Away:
                var (from, to) = (item.Moment("from", _zone) ?? at, item.Moment("to", _zone) ?? at);
                if (to <= from)
                    item.Problem("to", "worklog.back-before-away");
                else
                    yield return new LogEntry.Away(id, at, by, item.Id("person") ?? "", from, to);
                break;
            case EntryKind.Ordered:
                yield return new LogEntry.Ordered(id, at, by, Material(), item.Whole("count") ?? 1, item.Moment("arrives", _zone) ?? at);
                break;
            case EntryKind.Late:
                yield return new LogEntry.Late(id, at, by, Material() ?? default, item.Moment("arrives", _zone));
                break;
            case EntryKind.Gone:
                yield return new LogEntry.Gone(id, at, by, new PackId(item.Id("pack") ?? ""), item.Text("why") ?? Words.Word(kind));
                break;
            case EntryKind.Found:
                foreach (var pack in Packs(item, at))
                    yield return new LogEntry.Found(id, at, by, pack);
                break;
            case EntryKind.Slots:
                yield return new LogEntry.Slots(id, at, by, Slots(item));
                break;
            case EntryKind.Withdrawn:
                string withdrawn = item.Id("entry") ?? "";
                if (!_ids.Contains(withdrawn) || withdrawn == id)
                    item.Problem("entry", "worklog.no-such-entry", Words.Quote(withdrawn));
                yield return new LogEntry.Withdrawn(id, at, by, withdrawn);
                break;
            default:
                if (Air(item, kind, at) is { } air)
                    yield return new LogEntry.NewAir(id, at, by, _air = air);
                break;
        }
    }

    private static Taken Taken(MapReader item) =>
        new(new PackId(item.Id("pack") ?? ""), item.Volume("amount") ?? Volume.Zero, item.Length("strip") ?? Length.Zero, item.Whole("nozzles") ?? 0);

    private ImmutableArray<Pack> Packs(MapReader item, Instant at)
    {
        var sheets = _input?.Sheets.GroupBy(sheet => sheet.Id.Value).ToImmutableDictionary(group => group.Key, group => group.First());
        return item.Map("stock") is { } stock ? new StockReader(_zone, _input is null ? null : at, sheets).Read(stock).Packs : [];
    }

    private ImmutableArray<Instant> Slots(MapReader item)
    {
        var slots = ImmutableArray.CreateBuilder<Instant>();
        foreach (var field in item.Items("slots"))
        {
            if (Times.Moment(field, _zone) is not { } slot)
                continue;
            if (slots.Count > 0 && slot <= slots[^1])
                field.Problem("repair.slots-not-ascending");
            slots.Add(slot);
        }
        return slots.ToImmutable();
    }

    /// <summary>The air from a reading or a new forecast on; null where there is a problem, which has been told.</summary>
    private Climate? Air(MapReader item, EntryKind kind, Instant at)
    {
        if (kind == EntryKind.Forecast)
            return Forecast(item, at);
        if (item.Temperature("temperature") is not { } temperature || item.Humidity("humidity") is not { } humidity)
            return null;
        var air = new AirState(temperature, humidity);
        switch (_air)
        {
            case null or ConstantClimate:
                return new ConstantClimate(air);
            case HeatedDayClimate heated:
                return new HeatedDayClimate(heated.Pattern, at, air);
            case ForecastClimate forecast:
                return new ForecastClimate(forecast.Outdoors, forecast.Pattern, at, temperature);
            default:
                item.Problem("temperature", "worklog.reading-of-log");
                return null;
        }
    }

    private Climate? Forecast(MapReader item, Instant at)
    {
        if (item.Find("climate") is not { } field)
            return null;
        var map = field.Node is MapNode ? MapReader.Open(field, ClimateFormat.File)
            : FileSet.Beside(field) is { } shown ? _files.Open(shown, ClimateFormat.File, ClimateFormat.Line)
            : null;
        return map is null ? null : new ClimateReader(_files, _zone, at).Read(map);
    }
}
