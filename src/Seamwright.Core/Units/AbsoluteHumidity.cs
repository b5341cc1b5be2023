namespace Seamwright.Units;

/// <summary>Water vapour per volume of air.</summary>
public readonly record struct AbsoluteHumidity : IComparable<AbsoluteHumidity>
{
    private AbsoluteHumidity(double kilogramsPerCubicMetre) => KilogramsPerCubicMetre = kilogramsPerCubicMetre;

    /// <summary>Stored value. [kg/m³]</summary>
    public double KilogramsPerCubicMetre { get; }

    /// <summary>Absolute humidity. [g/m³]</summary>
    public double GramsPerCubicMetre => KilogramsPerCubicMetre * 1e3;

    /// <summary>From grams per cubic metre.</summary>
    public static AbsoluteHumidity FromGramsPerCubicMetre(double gramsPerCubicMetre) => new(gramsPerCubicMetre / 1e3);

    /// <summary>Nothing.</summary>
    public static AbsoluteHumidity Zero => default;

    /// <summary>Sum.</summary>
    public static AbsoluteHumidity operator +(AbsoluteHumidity a, AbsoluteHumidity b) => new(a.KilogramsPerCubicMetre + b.KilogramsPerCubicMetre);

    /// <summary>Difference.</summary>
    public static AbsoluteHumidity operator -(AbsoluteHumidity a, AbsoluteHumidity b) => new(a.KilogramsPerCubicMetre - b.KilogramsPerCubicMetre);

    /// <summary>Multiple.</summary>
    public static AbsoluteHumidity operator *(AbsoluteHumidity a, double factor) => new(a.KilogramsPerCubicMetre * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(AbsoluteHumidity a, AbsoluteHumidity b) => a.KilogramsPerCubicMetre / b.KilogramsPerCubicMetre;

    /// <summary>Smaller than.</summary>
    public static bool operator <(AbsoluteHumidity a, AbsoluteHumidity b) => a.KilogramsPerCubicMetre < b.KilogramsPerCubicMetre;

    /// <summary>Greater than.</summary>
    public static bool operator >(AbsoluteHumidity a, AbsoluteHumidity b) => a.KilogramsPerCubicMetre > b.KilogramsPerCubicMetre;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(AbsoluteHumidity a, AbsoluteHumidity b) => a.KilogramsPerCubicMetre <= b.KilogramsPerCubicMetre;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(AbsoluteHumidity a, AbsoluteHumidity b) => a.KilogramsPerCubicMetre >= b.KilogramsPerCubicMetre;

    /// <inheritdoc/>
    public int CompareTo(AbsoluteHumidity other) => KilogramsPerCubicMetre.CompareTo(other.KilogramsPerCubicMetre);
}
