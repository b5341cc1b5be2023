using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>Air at one moment as one source told it.</summary>
internal sealed class ReadingRow
{
    public required string Source { get; init; }

    public required Instant At { get; init; }

    /// <summary>Dry-bulb temperature. [°C]</summary>
    public required double Celsius { get; init; }

    /// <summary>Relative humidity. [%]</summary>
    public required double HumidityPercent { get; init; }
}
