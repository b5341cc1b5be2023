using NodaTime;

namespace Seamwright.Air;

/// <summary>One climate up to a moment, another from it on: what was measured stays as it is when something else is supposed of what comes.</summary>
public sealed class SwitchedClimate : Climate
{
    private readonly TrackCache _tracks;

    /// <summary>Joins two climates.</summary>
    /// <param name="before">Air before the moment.</param>
    /// <param name="switched">The moment.</param>
    /// <param name="after">Air from the moment on.</param>
    public SwitchedClimate(Climate before, Instant switched, Climate after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        (Before, Switched, After) = (before, switched, after);
        _tracks = new(Build);
    }

    /// <summary>Air before the moment.</summary>
    public Climate Before { get; }

    /// <summary>The moment.</summary>
    public Instant Switched { get; }

    /// <summary>Air from the moment on.</summary>
    public Climate After { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => Before.Notices.Union(After.Notices).ToList();

    /// <inheritdoc/>
    public override AirState At(Instant time) => time < Switched ? Before.At(time) : After.At(time);

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to)
    {
        var found = new List<Instant>();
        if (from < Switched)
            found.AddRange(Before.Breakpoints(from, Instant.Min(to, Switched)));
        if (from < Switched && Switched < to)
            found.Add(Switched);
        if (to > Switched)
            found.AddRange(After.Breakpoints(Instant.Max(from, Switched), to));
        return found;
    }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to)
    {
        var before = from < Switched ? Before.NoticesWithin(from, Instant.Min(to, Switched)) : [];
        var after = to > Switched ? After.NoticesWithin(Instant.Max(from, Switched), to) : [];
        return [.. before.Union(after)];
    }

    internal override Track Track(Instant from, Instant to) => _tracks.Covering(from, to);

    private Track Build(Instant from, Instant to)
    {
        Span.Require(from, to);
        if (to <= Switched)
            return Before.Track(from, to);
        if (from >= Switched)
            return After.Track(from, to);

        var pieces = new List<TrackPiece>();
        Append(pieces, Before.Track(from, Switched), from, from, Switched);
        Append(pieces, After.Track(Switched, to), from, Switched, to);
        return new Track(from, from, to, [.. pieces]);
    }

    /// <summary>The stretches of a track between two moments, told from another origin.</summary>
    private static void Append(List<TrackPiece> pieces, Track track, Instant origin, Instant from, Instant to)
    {
        double shift = track.Minute(origin);
        double first = track.Minute(from), last = track.Minute(to);
        for (int i = track.IndexAt(first); i < track.Pieces.Length && track.Pieces[i].Start < last; i++)
        {
            var piece = track.Pieces[i];
            var cut = piece.Cut(Math.Max(piece.Start, first), i + 1 < track.Pieces.Length ? Math.Min(piece.End, last) : last);
            if (cut.End > cut.Start)
                pieces.Add(cut with { Start = cut.Start - shift, End = cut.End - shift });
        }
    }
}
