using NodaTime;

namespace Seamwright.Air;

/// <summary>Air that does not change.</summary>
public sealed class ConstantClimate : Climate
{
    private readonly AirState _air;
    private readonly double _pascals;

    /// <summary>Air that does not change.</summary>
    /// <param name="air">Temperature −80…200 °C, humidity 0…1.</param>
    /// <exception cref="Units.OutsideValidityException">An input is outside its range or not a number.</exception>
    public ConstantClimate(AirState air)
    {
        _air = air;
        _pascals = MoistAir.VapourPressure(air).Pascals;
    }

    /// <inheritdoc/>
    public override AirState At(Instant time) => _air;

    internal override Track Track(Instant from, Instant to)
    {
        Span.Require(from, to);
        double minutes = (to - from).TotalMinutes;
        return new Track(from, from, to, [TrackPiece.OfAir(0, minutes, Curve.Constant(_air.Temperature.Kelvin), _pascals, 0)]);
    }
}
