namespace Seamwright.Units;

/// <summary>A pressure, usually of water vapour.</summary>
public readonly record struct Pressure : IComparable<Pressure>
{
    private Pressure(double pascals) => Pascals = pascals;

    /// <summary>Stored value. [Pa]</summary>
    public double Pascals { get; }

    /// <summary>Pressure. [hPa]</summary>
    public double Hectopascals => Pascals / 100;

    /// <summary>From pascals.</summary>
    public static Pressure FromPascals(double pascals) => new(pascals);

    /// <summary>One standard atmosphere. [101 325 Pa, exact by definition]</summary>
    public static Pressure StandardAtmosphere => new(101_325);

    /// <summary>Nothing.</summary>
    public static Pressure Zero => default;

    /// <summary>Sum.</summary>
    public static Pressure operator +(Pressure a, Pressure b) => new(a.Pascals + b.Pascals);

    /// <summary>Difference.</summary>
    public static Pressure operator -(Pressure a, Pressure b) => new(a.Pascals - b.Pascals);

    /// <summary>Multiple.</summary>
    public static Pressure operator *(Pressure a, double factor) => new(a.Pascals * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Pressure a, Pressure b) => a.Pascals / b.Pascals;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Pressure a, Pressure b) => a.Pascals < b.Pascals;

    /// <summary>Greater than.</summary>
    public static bool operator >(Pressure a, Pressure b) => a.Pascals > b.Pascals;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Pressure a, Pressure b) => a.Pascals <= b.Pascals;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Pressure a, Pressure b) => a.Pascals >= b.Pascals;

    /// <inheritdoc/>
    public int CompareTo(Pressure other) => Pascals.CompareTo(other.Pascals);
}
