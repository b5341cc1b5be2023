namespace Seamwright.Units;

/// <summary>A mass, for mixing by weight.</summary>
public readonly record struct Mass : IComparable<Mass>
{
    private Mass(double kilograms) => Kilograms = kilograms;

    /// <summary>Stored value. [kg]</summary>
    public double Kilograms { get; }

    /// <summary>Mass. [g]</summary>
    public double Grams => Kilograms * 1e3;

    /// <summary>From kilograms.</summary>
    public static Mass FromKilograms(double kilograms) => new(kilograms);

    /// <summary>From grams.</summary>
    public static Mass FromGrams(double grams) => new(grams / 1e3);

    /// <summary>Nothing.</summary>
    public static Mass Zero => default;

    /// <summary>Sum.</summary>
    public static Mass operator +(Mass a, Mass b) => new(a.Kilograms + b.Kilograms);

    /// <summary>Difference.</summary>
    public static Mass operator -(Mass a, Mass b) => new(a.Kilograms - b.Kilograms);

    /// <summary>Multiple.</summary>
    public static Mass operator *(Mass a, double factor) => new(a.Kilograms * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Mass a, Mass b) => a.Kilograms / b.Kilograms;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Mass a, Mass b) => a.Kilograms < b.Kilograms;

    /// <summary>Greater than.</summary>
    public static bool operator >(Mass a, Mass b) => a.Kilograms > b.Kilograms;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Mass a, Mass b) => a.Kilograms <= b.Kilograms;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Mass a, Mass b) => a.Kilograms >= b.Kilograms;

    /// <inheritdoc/>
    public int CompareTo(Mass other) => Kilograms.CompareTo(other.Kilograms);
}
