namespace Seamwright.Units;

/// <summary>Relative humidity over liquid water, as weather services report it also below 0 °C.</summary>
public readonly record struct RelativeHumidity : IComparable<RelativeHumidity>
{
    private RelativeHumidity(double fraction) => Fraction = fraction;

    /// <summary>Stored value. [1]</summary>
    public double Fraction { get; }

    /// <summary>Relative humidity. [%]</summary>
    public double Percent => Fraction * 100;

    /// <summary>From percent.</summary>
    public static RelativeHumidity FromPercent(double percent) => new(percent / 100);

    /// <summary>From a fraction 0…1.</summary>
    public static RelativeHumidity FromFraction(double fraction) => new(fraction);

    /// <summary>Nothing.</summary>
    public static RelativeHumidity Zero => default;

    /// <summary>Sum.</summary>
    public static RelativeHumidity operator +(RelativeHumidity a, RelativeHumidity b) => new(a.Fraction + b.Fraction);

    /// <summary>Difference.</summary>
    public static RelativeHumidity operator -(RelativeHumidity a, RelativeHumidity b) => new(a.Fraction - b.Fraction);

    /// <summary>Multiple.</summary>
    public static RelativeHumidity operator *(RelativeHumidity a, double factor) => new(a.Fraction * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(RelativeHumidity a, RelativeHumidity b) => a.Fraction / b.Fraction;

    /// <summary>Smaller than.</summary>
    public static bool operator <(RelativeHumidity a, RelativeHumidity b) => a.Fraction < b.Fraction;

    /// <summary>Greater than.</summary>
    public static bool operator >(RelativeHumidity a, RelativeHumidity b) => a.Fraction > b.Fraction;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(RelativeHumidity a, RelativeHumidity b) => a.Fraction <= b.Fraction;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(RelativeHumidity a, RelativeHumidity b) => a.Fraction >= b.Fraction;

    /// <inheritdoc/>
    public int CompareTo(RelativeHumidity other) => Fraction.CompareTo(other.Fraction);
}
