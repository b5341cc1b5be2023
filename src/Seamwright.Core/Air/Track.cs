using NodaTime;

namespace Seamwright.Air;

/// <summary>One stretch of a track. Minutes count from the track's origin, s from the stretch's own start.</summary>
/// <param name="Start">Start. [min]</param>
/// <param name="End">End. [min]</param>
/// <param name="Panel">Panel temperature. [K]</param>
/// <param name="Air">Air temperature. [K]</param>
/// <param name="Vapour">Vapour pressure at the start. [Pa]</param>
/// <param name="VapourSlope">Its slope. [Pa/min]</param>
/// <param name="MayCondense">Whether the vapour pressure must be held at saturation somewhere in the stretch.</param>
internal readonly record struct TrackPiece(
    double Start, double End, Curve Panel, Curve Air, double Vapour, double VapourSlope, bool MayCondense)
{
    /// <summary>A stretch of air with the panel at air temperature.</summary>
    public static TrackPiece OfAir(double start, double end, Curve air, double vapour, double vapourSlope)
    {
        // A saturation pressure costs more than the rest of a sample, so it is looked at only in stretches that come near it.
        // Air temperature has at most one turning point in a stretch: five looks find it near enough for the 3 % of allowance.
        bool mayCondense = false;
        for (int look = 0; look <= 4 && !mayCondense; look++)
        {
            double s = (end - start) * look / 4;
            mayCondense = vapour + vapourSlope * s > 0.97 * MoistAir.SaturationPascals(air.Value(s));
        }

        return new(start, end, air, air, vapour, vapourSlope, mayCondense);
    }

    public double VapourPascals(double s)
    {
        double pascals = Vapour + VapourSlope * s;
        return MayCondense ? Math.Min(pascals, MoistAir.SaturationPascals(Air.Value(s))) : pascals;
    }

    /// <summary>Relative humidity of the air. [1, at most 1]</summary>
    public double HumidityFraction(double s) =>
        Math.Min(1, (Vapour + VapourSlope * s) / MoistAir.SaturationPascals(Air.Value(s)));

    /// <summary>Whether the air would hold more water than it can.</summary>
    public bool IsCapped(double s) => MayCondense && Vapour + VapourSlope * s > (1 + 1e-9) * MoistAir.SaturationPascals(Air.Value(s));

    /// <summary>The part of the stretch between two minutes.</summary>
    public TrackPiece Cut(double from, double to)
    {
        double by = from - Start;
        return this with
        {
            Start = from,
            End = to,
            Panel = Panel.Shifted(by),
            Air = Air.Shifted(by),
            Vapour = Vapour + VapourSlope * by,
        };
    }
}

/// <summary>Air and panel over a span of time as closed-form stretches without gaps, ascending. What the integrators read.</summary>
internal sealed class Track
{
    private readonly TrackPiece[] _pieces;

    /// <param name="origin">Where minutes count from.</param>
    /// <param name="from">Start of the span that the stretches cover (stated, so that rounding to minutes cannot lose a nanosecond of it).</param>
    /// <param name="to">End of that span.</param>
    /// <param name="pieces">Stretches, ascending, without gaps.</param>
    public Track(Instant origin, Instant from, Instant to, TrackPiece[] pieces)
    {
        if (pieces.Length == 0)
            throw new ArgumentException("A track needs at least one stretch.", nameof(pieces));

        Origin = origin;
        From = from;
        To = to;
        _pieces = pieces;
    }

    public Instant Origin { get; }

    public Instant From { get; }

    public Instant To { get; }

    public ReadOnlySpan<TrackPiece> Pieces => _pieces;

    public bool Covers(Instant from, Instant to) => from >= From && to <= To;

    public double Minute(Instant time) => (time - Origin).TotalMinutes;

    public Instant Time(double minute) => Origin + Duration.FromMinutes(minute);

    /// <summary>Index of the stretch that holds a minute; at a boundary the later one.</summary>
    public int IndexAt(double minute)
    {
        int low = 0, high = _pieces.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) >> 1;
            if (_pieces[middle].Start <= minute)
                low = middle;
            else
                high = middle - 1;
        }

        return low;
    }

    /// <summary>Starts of stretches strictly inside the span.</summary>
    public IReadOnlyList<Instant> Breakpoints(Instant from, Instant to)
    {
        var found = new List<Instant>();
        for (int i = IndexAt(Minute(from)); i < _pieces.Length; i++)
        {
            var start = Time(_pieces[i].Start);
            if (start >= to)
                break;
            if (start > from)
                found.Add(start);
        }

        return found;
    }
}

/// <summary>Keeps the last track of a climate, so that asking for one moment after the other does not rebuild it. Safe from several threads.</summary>
internal sealed class TrackCache(Func<Instant, Instant, Track> build)
{
    private static readonly Duration Before = Duration.FromDays(1);
    private static readonly Duration After = Duration.FromDays(8);

    private Track? _last;

    /// <summary>A track that covers at least the span.</summary>
    public Track Covering(Instant from, Instant to)
    {
        var last = Volatile.Read(ref _last);
        if (last is not null && last.Covers(from, to))
            return last;

        var built = build(from, to);
        if (last is null || built.To - built.From >= last.To - last.From)
            Volatile.Write(ref _last, built);
        return built;
    }

    /// <summary>A track that covers a moment, built wide enough to serve its neighbours.</summary>
    public Track Around(Instant time)
    {
        var last = Volatile.Read(ref _last);
        if (last is not null && last.Covers(time, time))
            return last;

        var built = build(time - Before, time + After);
        Volatile.Write(ref _last, built);
        return built;
    }
}
