using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>Air that a humidifier never lets fall below a relative humidity; its temperature stays what it is.</summary>
/// <param name="inner">The air without the humidifier.</param>
/// <param name="least">Relative humidity held. [0…1]</param>
public sealed class HumidifiedClimate(Climate inner, RelativeHumidity least) : Climate
{
    /// <summary>The air without the humidifier.</summary>
    public Climate Inner { get; } = inner;

    /// <summary>Relative humidity held.</summary>
    public RelativeHumidity Least { get; } = least;

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => Inner.Notices;

    /// <inheritdoc/>
    public override AirState At(Instant time)
    {
        var air = Inner.At(time);
        return air.Humidity >= Least ? air : air with { Humidity = Least };
    }

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => Inner.Breakpoints(from, to);

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to) => Inner.NoticesWithin(from, to);
}
