namespace Seamwright.Units;

/// <summary>An angle: how far a surface or the vehicle leans.</summary>
public readonly record struct Angle : IComparable<Angle>
{
    private Angle(double degrees) => Degrees = degrees;

    /// <summary>Stored value. [°]</summary>
    public double Degrees { get; }

    /// <summary>From degrees.</summary>
    public static Angle FromDegrees(double degrees) => new(degrees);

    /// <summary>Nothing.</summary>
    public static Angle Zero => default;

    /// <summary>Sum.</summary>
    public static Angle operator +(Angle a, Angle b) => new(a.Degrees + b.Degrees);

    /// <summary>Difference.</summary>
    public static Angle operator -(Angle a, Angle b) => new(a.Degrees - b.Degrees);

    /// <summary>Multiple.</summary>
    public static Angle operator *(Angle a, double factor) => new(a.Degrees * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Angle a, Angle b) => a.Degrees / b.Degrees;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Angle a, Angle b) => a.Degrees < b.Degrees;

    /// <summary>Greater than.</summary>
    public static bool operator >(Angle a, Angle b) => a.Degrees > b.Degrees;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Angle a, Angle b) => a.Degrees <= b.Degrees;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Angle a, Angle b) => a.Degrees >= b.Degrees;

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Degrees.CompareTo(other.Degrees);
}
