using NodaTime;

namespace Seamwright.Air;

/// <summary>Air that is known from one source up to a moment and from another one after it: what was measured or expected, then a new forecast.</summary>
public sealed class SplicedClimate : Climate
{
    private readonly Climate _before;
    private readonly Climate _after;

    /// <summary>Air of two sources.</summary>
    /// <param name="before">Air before the moment.</param>
    /// <param name="from">The moment.</param>
    /// <param name="after">Air from the moment on.</param>
    public SplicedClimate(Climate before, Instant from, Climate after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        (_before, From, _after) = (before, from, after);
    }

    /// <summary>The moment from which the later source holds.</summary>
    public Instant From { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => [.. _before.Notices, .. _after.Notices];

    /// <inheritdoc/>
    public override AirState At(Instant time) => (time < From ? _before : _after).At(time);

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to)
    {
        if (to <= From)
            return _before.Breakpoints(from, to);
        if (from >= From)
            return _after.Breakpoints(from, to);
        return [.. _before.Breakpoints(from, From), From, .. _after.Breakpoints(From, to)];
    }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to)
    {
        if (to <= From)
            return _before.NoticesWithin(from, to);
        if (from >= From)
            return _after.NoticesWithin(from, to);
        return [.. _before.NoticesWithin(from, From), .. _after.NoticesWithin(From, to)];
    }

    internal override Track Track(Instant from, Instant to)
    {
        Span.Require(from, to);
        if (to <= From)
            return _before.Track(from, to);
        if (from >= From)
            return _after.Track(from, to);

        double seam = (From - from).TotalMinutes;
        var pieces = new List<TrackPiece>();
        Append(pieces, _before.Track(from, From), from, 0, seam);
        Append(pieces, _after.Track(From, to), from, seam, (to - from).TotalMinutes);
        return new Track(from, from, to, [.. pieces]);
    }

    /// <summary>The pieces of a track between two minutes, counted from another origin.</summary>
    private static void Append(List<TrackPiece> pieces, Track track, Instant origin, double from, double to)
    {
        double shift = track.Minute(origin);
        foreach (var piece in track.Pieces)
        {
            double start = Math.Max(from, piece.Start - shift), end = Math.Min(to, piece.End - shift);
            if (end > start)
                pieces.Add(piece.Cut(start + shift, end + shift) with { Start = start, End = end });
        }
    }
}
