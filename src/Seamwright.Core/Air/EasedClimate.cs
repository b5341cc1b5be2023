using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>
/// A climate that begins warmer or colder than the steel is, with the difference dying away in a first-order fall: where a panel is taken to be as
/// warm as the air, this is what it does when the heating is turned up. The vapour pressure stays what it is.
/// </summary>
public sealed class EasedClimate : Climate
{
    private readonly Instant _from;
    private readonly TemperatureDifference _jump;
    private readonly Duration _timeConstant;

    /// <summary>Eases a jump.</summary>
    /// <param name="inner">Air that is reached in the end.</param>
    /// <param name="from">Moment of the jump; nothing is eased before it.</param>
    /// <param name="jump">Temperature after the jump less the one before.</param>
    /// <param name="timeConstant">Time constant. [&gt; 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">The time constant is not above zero.</exception>
    public EasedClimate(Climate inner, Instant from, TemperatureDifference jump, Duration timeConstant)
    {
        ArgumentNullException.ThrowIfNull(inner);
        if (timeConstant <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(timeConstant), timeConstant, "A time constant must be above zero.");
        (Inner, _from, _jump, _timeConstant) = (inner, from, jump, timeConstant);
    }

    /// <summary>Air that is reached in the end.</summary>
    public Climate Inner { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => Inner.Notices;

    /// <inheritdoc/>
    public override AirState At(Instant time)
    {
        var air = Inner.At(time);
        if (time < _from)
            return air;
        var left = _jump * Math.Exp(-((time - _from) / _timeConstant));
        var eased = air.Temperature - left;
        double pascals = MoistAir.VapourPressure(air).Pascals;
        return new AirState(eased, RelativeHumidity.FromFraction(Math.Min(1, pascals / MoistAir.SaturationPressure(eased).Pascals)));
    }

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => Inner.Breakpoints(from, to);

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to) => Inner.NoticesWithin(from, to);
}
