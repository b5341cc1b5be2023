namespace Seamwright.Units;

/// <summary>A difference between two temperatures, for example a dew point margin.</summary>
public readonly record struct TemperatureDifference : IComparable<TemperatureDifference>
{
    private TemperatureDifference(double kelvins) => Kelvins = kelvins;

    /// <summary>Difference. [K]</summary>
    public double Kelvins { get; }

    /// <summary>Difference. [°F]</summary>
    public double FahrenheitDegrees => Kelvins * 9 / 5;

    /// <summary>From kelvins (the same as Celsius degrees).</summary>
    public static TemperatureDifference FromKelvins(double kelvins) => new(kelvins);

    /// <summary>Smaller than.</summary>
    public static bool operator <(TemperatureDifference a, TemperatureDifference b) => a.Kelvins < b.Kelvins;

    /// <summary>Greater than.</summary>
    public static bool operator >(TemperatureDifference a, TemperatureDifference b) => a.Kelvins > b.Kelvins;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(TemperatureDifference a, TemperatureDifference b) => a.Kelvins <= b.Kelvins;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(TemperatureDifference a, TemperatureDifference b) => a.Kelvins >= b.Kelvins;

    /// <summary>A multiple of a difference.</summary>
    public static TemperatureDifference operator *(TemperatureDifference d, double factor) => new(d.Kelvins * factor);

    /// <inheritdoc/>
    public int CompareTo(TemperatureDifference other) => Kelvins.CompareTo(other.Kelvins);
}
