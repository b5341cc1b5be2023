using NodaTime;

namespace Seamwright.Air;

/// <summary>Runs a heating pattern through time: the indoor air as closed-form stretches.</summary>
internal static class IndoorTrack
{
    /// <summary>After this many time constants an older temperature is forgotten to 1e-15 of itself.</summary>
    private const double Forgotten = 36;

    /// <summary>Indoor air from <paramref name="from"/> to <paramref name="to"/>.</summary>
    /// <param name="pattern">The heating pattern.</param>
    /// <param name="start">Moment of a known indoor temperature.</param>
    /// <param name="startKelvin">That temperature. [K]; null = the set-point, a long time ago.</param>
    /// <param name="outdoors">Outdoor air, whose stretches are straight lines; null = the pattern's floor and a constant vapour pressure.</param>
    /// <param name="constantVapour">Vapour pressure where <paramref name="outdoors"/> is null. [Pa]</param>
    /// <param name="from">Start of the span that must be covered.</param>
    /// <param name="to">End of that span.</param>
    public static Track Build(
        HeatingPattern pattern, Instant start, double? startKelvin, Climate? outdoors, double constantVapour, Instant from, Instant to)
    {
        Span.Require(from, to);
        var memory = Forgotten * Duration.Max(pattern.Fall, pattern.Rise) + Duration.FromDays(8);
        bool startCounts = startKelvin is not null && start < to && from - start <= memory;
        var begin = startCounts && start <= from ? start : from - memory;
        double kelvin = startCounts && start <= from ? startKelvin!.Value : pattern.SetPoint.Kelvin;

        var spans = pattern.Heated(begin, to);
        var outside = outdoors?.Track(begin, to);
        var pieces = new List<TrackPiece>();
        int heated = 0;
        for (var time = begin; time < to;)
        {
            if (startCounts && time == start)
                kelvin = startKelvin!.Value;

            while (heated < spans.Length && spans[heated].Off <= time)
                heated++;
            bool on = heated < spans.Length && spans[heated].On <= time;
            var end = heated >= spans.Length ? to : on ? spans[heated].Off : spans[heated].On;
            end = Instant.Min(end, to);
            if (startCounts && time < start)
                end = Instant.Min(end, start);

            kelvin = Append(pieces, pattern, on, kelvin, outside, constantVapour, begin, time, end);
            time = end;
        }

        // The run-up to the span is dropped; only the last stretch that reaches into it is kept.
        int keep = 0;
        double first = (from - begin).TotalMinutes;
        while (keep + 1 < pieces.Count && pieces[keep + 1].Start <= first)
            keep++;
        return new Track(begin, from, to, [.. pieces.Skip(keep)]);
    }

    private static double Append(
        List<TrackPiece> pieces, HeatingPattern pattern, bool on, double kelvin, Track? outside, double constantVapour, Instant origin,
        Instant time, Instant end)
    {
        double at = (time - origin).TotalMinutes;
        double last = (end - origin).TotalMinutes;
        var tau = on ? pattern.Rise : pattern.Fall;
        double? least = on ? pattern.SetPoint.Kelvin : pattern.Floor?.Kelvin;
        if (outside is null)
        {
            var target = Curve.Constant(least ?? throw new ArgumentException("Without outdoor air the pattern needs a floor.", nameof(pattern)));
            return Add(pieces, Following(target, tau, kelvin), at, last, constantVapour, 0);
        }

        for (int i = outside.IndexAt(outside.Minute(time)); at < last; i++)
        {
            var piece = outside.Pieces[i];
            double shift = outside.Minute(origin);
            double stop = i + 1 < outside.Pieces.Length ? Math.Min(last, piece.End - shift) : last;
            if (stop <= at)
                continue;

            // Heating never cools: in warm weather the shop is as warm as it is outdoors. Where the outdoor line crosses the
            // set-point (or floor) the stretch is cut, so that each part has one straight target.
            while (at < stop)
            {
                var part = piece.Cut(at + shift, stop + shift);
                double length = stop - at;
                double first = part.Air.Value(0);
                double final = part.Air.Value(length);
                var target = part.Air;
                double partEnd = stop;
                if (least is { } floor)
                {
                    bool above = first > floor || (first == floor && final > floor);
                    bool aboveAtEnd = final > floor;
                    target = above ? part.Air : Curve.Constant(floor);
                    double crossing = at + length * (floor - first) / (final - first);
                    if (above != aboveAtEnd && crossing <= at + 1e-6)
                        target = aboveAtEnd ? part.Air : Curve.Constant(floor);
                    else if (above != aboveAtEnd)
                        partEnd = Math.Min(crossing, stop);
                }

                kelvin = Add(pieces, Following(target, tau, kelvin), at, partEnd, part.Vapour, part.VapourSlope);
                at = partEnd;
            }
        }

        return kelvin;
    }

    private static Curve Following(Curve target, Duration tau, double kelvin) =>
        tau == Duration.Zero ? target : target.Followed(1 / tau.TotalMinutes, kelvin);

    private static double Add(List<TrackPiece> pieces, Curve air, double start, double end, double vapour, double vapourSlope)
    {
        pieces.Add(TrackPiece.OfAir(start, end, air, vapour, vapourSlope));
        return air.Value(end - start);
    }
}
