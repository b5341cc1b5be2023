using System.Collections.Immutable;
using NodaTime;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>
/// Why work moves, found by asking: the rest is planned again without each entry that disturbs, and an entry is a cause of the moves that are
/// then gone. What no single entry explains is put to all of them together, and then to work that took longer than announced.
/// </summary>
internal sealed class MoveCauses
{
    /// <summary>So many entries are asked about one by one; of more, the last ones. Each costs a search.</summary>
    private const int MostAsked = 8;

    /// <summary>Work that ends so much later than announced may be why the rest moves.</summary>
    private static readonly Duration Noticeable = Duration.FromMinutes(5);

    private readonly ImmutableArray<LogEntry> _disturbing;
    private readonly Standing _standing;
    private readonly Func<IReadOnlyCollection<LogEntry>, (Standing Standing, Plan Plan)?> _without;

    public MoveCauses(IEnumerable<LogEntry> entries, Standing standing, Func<IReadOnlyCollection<LogEntry>, (Standing Standing, Plan Plan)?> without)
    {
        _disturbing = [.. entries.Where(entry => entry is LogEntry.Away or LogEntry.Late or LogEntry.Failed or LogEntry.NewAir or LogEntry.Slots or LogEntry.Gone or LogEntry.Found).TakeLast(MostAsked)];
        (_standing, _without) = (standing, without);
    }

    /// <summary>The moves with their causes.</summary>
    public ImmutableArray<Move> Explain(ImmutableArray<Move> moves)
    {
        if (moves.IsEmpty)
            return moves;
        var gone = new ImmutableArray<Move>?[_disturbing.Length];
        if (_disturbing.Length > 1)
            Parallel.For(0, _disturbing.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => gone[i] = MovesWithout([_disturbing[i]]));
        var all = _disturbing.IsEmpty ? null : MovesWithout(_disturbing);
        return [.. moves.Select(move => move with { Why = Why(move) })];

        ImmutableArray<Reason> Why(Move move)
        {
            var causes = _disturbing.Where((_, i) => gone[i] is { } others && !others.Any(other => IsSame(other, move))).Select(Name).ToImmutableArray();
            if (causes.IsEmpty && all is { } quiet && !quiet.Any(other => IsSame(other, move)))
                causes = [.. _disturbing.Select(Name)];
            if (causes.IsEmpty && move.Before is { } before && before.Start < _standing.Input.Repair.Now)
                return [Reason.Of("move-not-begun")];
            return !causes.IsEmpty ? causes : [Slower() ?? Reason.Of(_disturbing.IsEmpty ? "move-cheaper" : "move-follows")];
        }
    }

    private ImmutableArray<Move>? MovesWithout(IReadOnlyCollection<LogEntry> entries) =>
        _without(entries) is { } other ? MoveReader.Compare(other.Standing.Input, other.Standing.Announced, other.Plan).Moves : null;

    /// <summary>The same work moves to the same time: then the entry left out is not why.</summary>
    private static bool IsSame(Move a, Move b) =>
        a.Work == b.Work && a.Kind == b.Kind && a.After?.Start == b.After?.Start && a.After?.Person == b.After?.Person && a.After?.Material == b.After?.Material
        && (a.Places.IsEmpty ? b.Places.IsEmpty : a.Places.Intersect(b.Places).Any());

    /// <summary>The work so far that ended latest against its announced end; null where all went as announced.</summary>
    private Reason? Slower()
    {
        var slowest = _standing.Works.Where(work => work.Announced is not null && work.Step.Person is not null && work.Step.End - work.Announced.End >= Noticeable)
            .OrderByDescending(work => work.Step.End - work.Announced!.End).FirstOrDefault();
        return slowest is null ? null
            : Reason.Of("move-slower", slowest.Step.Kind, Where(slowest.Step.Places), slowest.Step.End - slowest.Announced!.End);
    }

    private static string Where(ImmutableArray<PlaceId> places) => places.IsEmpty ? "" : string.Join(", ", places);

    private static Reason Name(LogEntry entry) => entry switch
    {
        LogEntry.Away away => Reason.Of("move-away", away.Person, away.From, away.To),
        LogEntry.Late { Arrives: { } arrives } late => Reason.Of("move-late", late.Material, arrives),
        LogEntry.Late late => Reason.Of("move-never", late.Material),
        LogEntry.Failed failed => Reason.Of("move-failed", failed.Place, failed.Fault),
        LogEntry.NewAir air => Reason.Of("move-air", air.At),
        LogEntry.Slots => Reason.Of("move-slots"),
        LogEntry.Gone gone => Reason.Of("move-gone", gone.Pack, gone.Why),
        LogEntry.Found found => Reason.Of("move-found", found.Pack.Id),
        _ => throw new ArgumentOutOfRangeException(nameof(entry), entry, "This entry disturbs nothing."),
    };
}
