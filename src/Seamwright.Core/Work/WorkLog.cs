using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Work;

/// <summary>What really happened on a repair: entries that are only ever added. What is wrong is withdrawn by a later entry, never changed.</summary>
/// <param name="Entries">In the order in which they were written.</param>
public sealed record WorkLog(ImmutableArray<LogEntry> Entries)
{
    /// <summary>Hash of the log as it was read, in hexadecimal; empty = not read from a file.</summary>
    public string ContentHash { get; init; } = "";

    /// <summary>Nothing has happened.</summary>
    public static WorkLog Empty { get; } = new([]);

    /// <summary>Entries that hold, by time; equal times in the order written.</summary>
    public ImmutableArray<LogEntry> Valid
    {
        get
        {
            var withdrawn = Entries.OfType<LogEntry.Withdrawn>().Select(entry => entry.Entry).ToHashSet();
            return [.. Entries.Where(entry => entry is not LogEntry.Withdrawn && !withdrawn.Contains(entry.Id)).OrderBy(entry => entry.At)];
        }
    }
}

/// <summary>Which piece of work an entry speaks of.</summary>
/// <param name="Kind">Kind of work.</param>
/// <param name="Places">Places; empty = the whole vehicle.</param>
public sealed record WorkOn(StepKind Kind, ImmutableArray<PlaceId> Places);

/// <summary>What was taken from a pack.</summary>
/// <param name="Pack">Pack.</param>
/// <param name="Amount">Volume taken, nozzle waste included.</param>
/// <param name="Strip">Strip taken.</param>
/// <param name="Nozzles">Fresh nozzles.</param>
public sealed record Taken(PackId Pack, Volume Amount, Length Strip, int Nozzles);

/// <summary>What a check found wrong.</summary>
public enum Fault
{
    /// <summary>A pinhole, gap or bare spot.</summary>
    Holiday,

    /// <summary>It does not hold on what is beneath.</summary>
    Adhesion,

    /// <summary>It does not look like the factory's.</summary>
    Look,

    /// <summary>It does not cure.</summary>
    Cure,
}

/// <summary>How far a failed seam or coat is taken off.</summary>
public enum TakenOff
{
    /// <summary>Down to the coat beneath.</summary>
    Coat,

    /// <summary>Down to the metal.</summary>
    Metal,
}

/// <summary>One entry of the work log.</summary>
/// <param name="Id">Name of the entry, unique in its log.</param>
/// <param name="At">When it happened.</param>
/// <param name="By">Who says so; empty = not stated.</param>
public abstract record LogEntry(string Id, Instant At, string By)
{
    /// <summary>Work has begun.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">Its start.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Work">The work.</param>
    /// <param name="Person">Who does it; null = as announced.</param>
    /// <param name="Material">Material; null = as announced.</param>
    public sealed record Started(string Id, Instant At, string By, WorkOn Work, string? Person, MaterialId? Material) : LogEntry(Id, At, By);

    /// <summary>Work has ended.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">Its end.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Work">The work.</param>
    /// <param name="Person">Who did it; null = as begun or announced.</param>
    /// <param name="Material">Material; null = as begun or announced.</param>
    /// <param name="Start">When it began, where no entry says so; null = the announced minutes before its end.</param>
    /// <param name="Packs">What was taken; empty = as announced.</param>
    public sealed record Ended(string Id, Instant At, string By, WorkOn Work, string? Person, MaterialId? Material, Instant? Start, ImmutableArray<Taken> Packs)
        : LogEntry(Id, At, By);

    /// <summary>Everything announced until then has happened as announced, unless other entries speak of it.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">Until when.</param>
    /// <param name="By">Who says so.</param>
    public sealed record AsAnnounced(string Id, Instant At, string By) : LogEntry(Id, At, By);

    /// <summary>A check failed: the seam or coat comes off and is made anew.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it was found.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Place">Joint or area.</param>
    /// <param name="Fault">What was found.</param>
    /// <param name="DownTo">How far it comes off.</param>
    public sealed record Failed(string Id, Instant At, string By, PlaceId Place, Fault Fault, TakenOff DownTo) : LogEntry(Id, At, By);

    /// <summary>Somebody is not there.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it became known.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Person">Who is away.</param>
    /// <param name="From">From when.</param>
    /// <param name="To">Until when.</param>
    public sealed record Away(string Id, Instant At, string By, string Person, Instant From, Instant To) : LogEntry(Id, At, By);

    /// <summary>Packs or mixing nozzles are ordered.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When they were ordered.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Material">Material; null = mixing nozzles.</param>
    /// <param name="Count">Packs or nozzles.</param>
    /// <param name="Arrives">When they are said to come.</param>
    public sealed record Ordered(string Id, Instant At, string By, MaterialId? Material, int Count, Instant Arrives) : LogEntry(Id, At, By);

    /// <summary>What is ordered comes at another time.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it became known.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Material">Material.</param>
    /// <param name="Arrives">When it comes; null = not at all.</param>
    public sealed record Late(string Id, Instant At, string By, MaterialId Material, Instant? Arrives) : LogEntry(Id, At, By);

    /// <summary>A pack cannot be used.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it became known.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Pack">Pack.</param>
    /// <param name="Why">Why.</param>
    public sealed record Gone(string Id, Instant At, string By, PackId Pack, string Why) : LogEntry(Id, At, By);

    /// <summary>A pack is there that no file knows.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it was found.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Pack">Pack.</param>
    public sealed record Found(string Id, Instant At, string By, Pack Pack) : LogEntry(Id, At, By);

    /// <summary>The air is, or will be, another than expected.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">From when.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Air">The air from then on.</param>
    public sealed record NewAir(string Id, Instant At, string By, Climate Air) : LogEntry(Id, At, By);

    /// <summary>The booth offers other slots.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it became known.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Offered">Slots offered now, ascending.</param>
    public sealed record Slots(string Id, Instant At, string By, ImmutableArray<Instant> Offered) : LogEntry(Id, At, By);

    /// <summary>An earlier entry does not hold.</summary>
    /// <param name="Id">Name.</param>
    /// <param name="At">When it was withdrawn.</param>
    /// <param name="By">Who says so.</param>
    /// <param name="Entry">The entry that does not hold.</param>
    public sealed record Withdrawn(string Id, Instant At, string By, string Entry) : LogEntry(Id, At, By);
}
