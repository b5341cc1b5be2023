using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>Air as a function of time: constant, a heating pattern, a forecast or a log. Immutable.</summary>
public abstract class Climate
{
    /// <summary>Air at a moment; where the value jumps (heating on without a time constant), the later value.</summary>
    public abstract AirState At(Instant time);

    /// <summary>
    /// Moments in (<paramref name="from"/>, <paramref name="to"/>) at which temperature or vapour pressure changes its slope
    /// abruptly (heating switched, a log reading). Ascending; may be empty.
    /// </summary>
    public virtual IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => [];

    /// <summary>What was repaired to get this climate, whatever is asked of it: bridged gaps, dropped or sorted rows. May be empty.</summary>
    public virtual IReadOnlyList<ClimateNotice> Notices => [];

    /// <summary>
    /// What was assumed to answer for a span of time: the <see cref="Notices"/> that touch it, values held beyond a log's ends, humidity
    /// held at 100 %. May be empty.
    /// </summary>
    public virtual IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to) =>
        [.. Notices.Where(notice => notice.From <= to && notice.To >= from)];

    /// <summary>Vapour pressure at a moment. [Pa]</summary>
    public Pressure VapourPressureAt(Instant time) => MoistAir.VapourPressure(At(time));

    /// <summary>Closed-form stretches covering at least the span. The default samples <see cref="At"/> and draws straight lines.</summary>
    internal virtual Track Track(Instant from, Instant to)
    {
        Span.Require(from, to);
        var times = new SortedSet<Instant>(Breakpoints(from, to)) { from, to };
        for (var time = from; time < to; time += Span.Grid)
            times.Add(time);

        var pieces = new List<TrackPiece>(times.Count);
        var (start, air) = (from, At(from));
        foreach (var end in times.Skip(1))
        {
            var next = At(end);
            pieces.Add(Lines.Between((start - from).TotalMinutes, air, (end - from).TotalMinutes, next));
            (start, air) = (end, next);
        }

        return new Track(from, from, to, [.. pieces]);
    }

    /// <summary>Where a track's humidity was held at saturation, as one notice from first to last; none where it never was.</summary>
    private protected static IEnumerable<ClimateNotice> Capped(Track track, Instant from, Instant to)
    {
        Instant? first = null;
        var last = from;
        for (var time = from; time <= to; time += Span.Grid)
        {
            double minute = track.Minute(time);
            var piece = track.Pieces[track.IndexAt(minute)];
            if (!piece.IsCapped(minute - piece.Start))
                continue;
            first ??= time;
            last = time;
        }

        if (first is { } begin)
            yield return new ClimateNotice(ClimateNoticeKind.HumidityCapped, begin, last);
    }

    /// <summary>Air of a track at a moment.</summary>
    private protected static AirState AirOf(Track track, Instant time)
    {
        double minute = track.Minute(time);
        var piece = track.Pieces[track.IndexAt(minute)];
        double s = minute - piece.Start;
        return new AirState(
            Temperature.FromKelvin(piece.Air.Value(s)), RelativeHumidity.FromFraction(piece.HumidityFraction(s)));
    }
}
