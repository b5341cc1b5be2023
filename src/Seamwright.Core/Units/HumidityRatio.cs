namespace Seamwright.Units;

/// <summary>Water vapour per dry air by mass.</summary>
public readonly record struct HumidityRatio : IComparable<HumidityRatio>
{
    private HumidityRatio(double kilogramsPerKilogram) => KilogramsPerKilogram = kilogramsPerKilogram;

    /// <summary>Stored value. [kg/kg]</summary>
    public double KilogramsPerKilogram { get; }

    /// <summary>Humidity ratio. [g water per kg dry air]</summary>
    public double GramsPerKilogram => KilogramsPerKilogram * 1e3;

    /// <summary>From grams of water per kilogram of dry air.</summary>
    public static HumidityRatio FromGramsPerKilogram(double gramsPerKilogram) => new(gramsPerKilogram / 1e3);

    /// <summary>Nothing.</summary>
    public static HumidityRatio Zero => default;

    /// <summary>Sum.</summary>
    public static HumidityRatio operator +(HumidityRatio a, HumidityRatio b) => new(a.KilogramsPerKilogram + b.KilogramsPerKilogram);

    /// <summary>Difference.</summary>
    public static HumidityRatio operator -(HumidityRatio a, HumidityRatio b) => new(a.KilogramsPerKilogram - b.KilogramsPerKilogram);

    /// <summary>Multiple.</summary>
    public static HumidityRatio operator *(HumidityRatio a, double factor) => new(a.KilogramsPerKilogram * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(HumidityRatio a, HumidityRatio b) => a.KilogramsPerKilogram / b.KilogramsPerKilogram;

    /// <summary>Smaller than.</summary>
    public static bool operator <(HumidityRatio a, HumidityRatio b) => a.KilogramsPerKilogram < b.KilogramsPerKilogram;

    /// <summary>Greater than.</summary>
    public static bool operator >(HumidityRatio a, HumidityRatio b) => a.KilogramsPerKilogram > b.KilogramsPerKilogram;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(HumidityRatio a, HumidityRatio b) => a.KilogramsPerKilogram <= b.KilogramsPerKilogram;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(HumidityRatio a, HumidityRatio b) => a.KilogramsPerKilogram >= b.KilogramsPerKilogram;

    /// <inheritdoc/>
    public int CompareTo(HumidityRatio other) => KilogramsPerKilogram.CompareTo(other.KilogramsPerKilogram);
}
