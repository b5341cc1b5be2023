using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>Air at one moment.</summary>
/// <param name="Temperature">Dry-bulb temperature.</param>
/// <param name="Humidity">Relative humidity over liquid water. [0…1]</param>
public readonly record struct AirState(Temperature Temperature, RelativeHumidity Humidity)
{
    /// <summary>The sheet's usual reference air, 23 °C and 50 % (ISO 291, atmosphere 23/50).</summary>
    public static AirState Standard { get; } = new(Temperature.FromCelsius(23), RelativeHumidity.FromPercent(50));
}
