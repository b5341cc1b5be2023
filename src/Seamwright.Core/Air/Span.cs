using NodaTime;

namespace Seamwright.Air;

/// <summary>Checks of time spans, and the grid on which cure is counted (docs/design.md, 11).</summary>
internal static class Span
{
    /// <summary>Five minutes.</summary>
    public static Duration Grid { get; } = Duration.FromMinutes(5);

    /// <summary>Throws unless the span has a length.</summary>
    public static void Require(Instant from, Instant to)
    {
        if (to <= from)
            throw new ArgumentException("The end of a span must lie after its start.", nameof(to));
    }
}

/// <summary>Straight lines between two readings, in temperature and in vapour pressure.</summary>
internal static class Lines
{
    public static TrackPiece Between(double start, AirState first, double end, AirState second)
    {
        double vapour = MoistAir.VapourPressure(first).Pascals;
        return Between(
            start, first.Temperature.Kelvin, vapour, end, second.Temperature.Kelvin, MoistAir.VapourPressure(second).Pascals);
    }

    public static TrackPiece Between(double start, double kelvin, double vapour, double end, double endKelvin, double endVapour)
    {
        double minutes = end - start;
        return TrackPiece.OfAir(start, end, Curve.Line(kelvin, (endKelvin - kelvin) / minutes), vapour, (endVapour - vapour) / minutes);
    }
}
