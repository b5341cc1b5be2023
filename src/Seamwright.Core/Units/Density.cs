namespace Seamwright.Units;

/// <summary>Mass per volume of a component.</summary>
public readonly record struct Density : IComparable<Density>
{
    private Density(double kilogramsPerCubicMetre) => KilogramsPerCubicMetre = kilogramsPerCubicMetre;

    /// <summary>Stored value. [kg/m³]</summary>
    public double KilogramsPerCubicMetre { get; }

    /// <summary>Density. [g/ml, the same figure as kg/l]</summary>
    public double GramsPerMillilitre => KilogramsPerCubicMetre / 1e3;

    /// <summary>From grams per millilitre.</summary>
    public static Density FromGramsPerMillilitre(double gramsPerMillilitre) => new(gramsPerMillilitre * 1e3);

    /// <summary>Mass of a volume.</summary>
    public static Mass operator *(Density d, Volume v) => Mass.FromKilograms(d.KilogramsPerCubicMetre * v.CubicMetres);

    /// <summary>Nothing.</summary>
    public static Density Zero => default;

    /// <summary>Sum.</summary>
    public static Density operator +(Density a, Density b) => new(a.KilogramsPerCubicMetre + b.KilogramsPerCubicMetre);

    /// <summary>Difference.</summary>
    public static Density operator -(Density a, Density b) => new(a.KilogramsPerCubicMetre - b.KilogramsPerCubicMetre);

    /// <summary>Multiple.</summary>
    public static Density operator *(Density a, double factor) => new(a.KilogramsPerCubicMetre * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Density a, Density b) => a.KilogramsPerCubicMetre / b.KilogramsPerCubicMetre;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Density a, Density b) => a.KilogramsPerCubicMetre < b.KilogramsPerCubicMetre;

    /// <summary>Greater than.</summary>
    public static bool operator >(Density a, Density b) => a.KilogramsPerCubicMetre > b.KilogramsPerCubicMetre;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Density a, Density b) => a.KilogramsPerCubicMetre <= b.KilogramsPerCubicMetre;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Density a, Density b) => a.KilogramsPerCubicMetre >= b.KilogramsPerCubicMetre;

    /// <inheritdoc/>
    public int CompareTo(Density other) => KilogramsPerCubicMetre.CompareTo(other.KilogramsPerCubicMetre);
}
