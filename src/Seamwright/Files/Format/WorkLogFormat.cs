using System.Collections.Immutable;
using Seamwright.Files.Values;
using Seamwright.Work;
using static Seamwright.Files.Format.Key;
using static Seamwright.Files.Format.Kinds;

namespace Seamwright.Files.Format;

/// <summary>What an entry of the work log tells.</summary>
internal enum EntryKind
{
    /// <summary>Work has begun.</summary>
    Started,

    /// <summary>Work has ended.</summary>
    Ended,

    /// <summary>All that was announced until then has happened so.</summary>
    AsAnnounced,

    /// <summary>A check failed.</summary>
    Failed,

    /// <summary>Somebody is not there.</summary>
    Away,

    /// <summary>Packs are ordered.</summary>
    Ordered,

    /// <summary>What is ordered comes later, or not at all.</summary>
    Late,

    /// <summary>A pack cannot be used.</summary>
    Gone,

    /// <summary>Packs are there that no file knew.</summary>
    Found,

    /// <summary>The air was measured.</summary>
    Reading,

    /// <summary>The air will be another.</summary>
    Forecast,

    /// <summary>The booth offers other slots.</summary>
    Slots,

    /// <summary>An earlier entry does not hold.</summary>
    Withdrawn,
}

/// <summary>The work log.</summary>
internal static class WorkLogFormat
{
    /// <summary>Version line.</summary>
    public const string Line = "worklog/1";

    public static Section Taken { get; } = new("taken", "What was taken from a pack.",
    [
        Must("pack", Id, "Pack.", "C"),
        May("amount", Of(Measures.SomeVolume), "0", "Volume taken, what nozzles hold back and purge included.", "62 ml"),
        May("strip", Of(Measures.StripLength), "0", "Strip taken.", "1.2 m"),
        May("nozzles", Count(0, 100), "0", "Fresh nozzles.", "1"),
    ]);

    public static Section Entry { get; } = new("entry", "One thing that happened. Entries are only ever added: what is wrong is withdrawn by a later one.",
    [
        Must("id", Id, "Name of the entry, unique in the log.", "E1"),
        Must("at", Moment, "When it happened or became known.", "2027-01-12T15:55+01:00"),
        May("by", Id, "not stated", "Who says so.", "technician"),
        Must("what", Word<EntryKind>(), "What it tells.", "ended"),
        May("work", Word<StepKind>(), "–", "started, ended: the work.", "seal"),
        May("places", Ids, "the announced ones, or the whole vehicle", "started, ended: joints, bonds, areas, cavities or operations.", "[J1, J4]"),
        May("person", Id, "as announced", "started, ended: who does it. away: who is away.", "technician"),
        May("material", Id, "as announced; ordered: mixing nozzles", "started, ended: what is applied. ordered, late: what is ordered.", "MSS"),
        May("start", Moment, "the announced minutes before its end", "ended: when it began, where no entry says so.", "2027-01-12T15:40"),
        May("packs", Maps(Taken), "as announced", "ended: what was taken.", "[{pack: B, amount: 80 ml}]"),
        May("place", Id, "–", "failed: joint or area.", "J3"),
        May("fault", Word<Fault>(), "–", "failed: what was found.", "holiday"),
        May("down_to", Word<TakenOff>(), "coat; metal where it does not hold", "failed: how far it comes off.", "metal"),
        May("from", Moment, "at", "away: from when.", "2027-01-12T16:00"),
        May("to", Moment, "–", "away: until when.", "2027-01-13T12:00"),
        May("count", Count(1, 1000), "1", "ordered: packs or nozzles.", "2"),
        May("arrives", Moment, "not at all", "ordered, late: when it comes.", "2027-01-12T17:30"),
        May("pack", Id, "–", "gone: the pack.", "C"),
        May("why", Text, "cannot be used", "gone: why.", "gelled"),
        May("stock", Map(StockFormat.File), "–", "found: the packs, as in a stock file.", "{packs: [{id: X, material: MSS, left: 120 ml}]}"),
        May("temperature", Of(Measures.PanelTemperature), "–", "reading: temperature of the air.", "17 °C"),
        May("humidity", Of(Measures.Share), "–", "reading: relative humidity.", "35 %"),
        May("climate", FileOr(ClimateFormat.File), "–", "forecast: the air from then on, as in a climate file.", "{temperature: 15 °C, humidity: 40 %}"),
        May("slots", new Kind.MomentList(), "–", "slots: what the booth offers now, ascending.", "[2027-01-13T13:00]"),
        May("entry", Id, "–", "withdrawn: the entry that does not hold.", "E1"),
    ]);

    public static Section File { get; } = new("worklog", "What really happened on a repair, for `seamwright replan`.",
    [
        .. Header(Line),
        Must("entries", Maps(Entry), "Entries in the order in which they were written.", "see entry"),
    ]);

    /// <summary>Keys that must be written for a kind of entry, and those that may be.</summary>
    public static (ImmutableArray<string> Needed, ImmutableArray<string> Allowed) KeysOf(EntryKind kind) => kind switch
    {
        EntryKind.Started => (["work"], ["places", "person", "material"]),
        EntryKind.Ended => (["work"], ["places", "person", "material", "start", "packs"]),
        EntryKind.Failed => (["place", "fault"], ["down_to"]),
        EntryKind.Away => (["person", "to"], ["from"]),
        EntryKind.Ordered => (["arrives"], ["material", "count"]),
        EntryKind.Late => (["material"], ["arrives"]),
        EntryKind.Gone => (["pack"], ["why"]),
        EntryKind.Found => (["stock"], []),
        EntryKind.Reading => (["temperature", "humidity"], []),
        EntryKind.Forecast => (["climate"], []),
        EntryKind.Slots => (["slots"], []),
        EntryKind.Withdrawn => (["entry"], []),
        _ => ([], []),
    };
}
