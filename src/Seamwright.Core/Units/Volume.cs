namespace Seamwright.Units;

/// <summary>An amount of paste, paint, wax or foam by volume.</summary>
public readonly record struct Volume : IComparable<Volume>
{
    private Volume(double cubicMetres) => CubicMetres = cubicMetres;

    /// <summary>Stored value. [m³]</summary>
    public double CubicMetres { get; }

    /// <summary>One US fluid ounce. [ml]</summary>
    public const double MillilitresPerFluidOunce = 29.5735295625;

    /// <summary>Volume. [ml]</summary>
    public double Millilitres => CubicMetres * 1e6;

    /// <summary>Volume. [l]</summary>
    public double Litres => CubicMetres * 1e3;

    /// <summary>Volume. [US fl oz]</summary>
    public double FluidOunces => Millilitres / MillilitresPerFluidOunce;

    /// <summary>From millilitres.</summary>
    public static Volume FromMillilitres(double millilitres) => new(millilitres / 1e6);

    /// <summary>From litres.</summary>
    public static Volume FromLitres(double litres) => new(litres / 1e3);

    /// <summary>From US fluid ounces.</summary>
    public static Volume FromFluidOunces(double fluidOunces) => FromMillilitres(fluidOunces * MillilitresPerFluidOunce);

    /// <summary>From cubic metres.</summary>
    public static Volume FromCubicMetres(double cubicMetres) => new(cubicMetres);

    /// <summary>Nothing.</summary>
    public static Volume Zero => default;

    /// <summary>Sum.</summary>
    public static Volume operator +(Volume a, Volume b) => new(a.CubicMetres + b.CubicMetres);

    /// <summary>Difference.</summary>
    public static Volume operator -(Volume a, Volume b) => new(a.CubicMetres - b.CubicMetres);

    /// <summary>Multiple.</summary>
    public static Volume operator *(Volume a, double factor) => new(a.CubicMetres * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Volume a, Volume b) => a.CubicMetres / b.CubicMetres;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Volume a, Volume b) => a.CubicMetres < b.CubicMetres;

    /// <summary>Greater than.</summary>
    public static bool operator >(Volume a, Volume b) => a.CubicMetres > b.CubicMetres;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Volume a, Volume b) => a.CubicMetres <= b.CubicMetres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Volume a, Volume b) => a.CubicMetres >= b.CubicMetres;

    /// <inheritdoc/>
    public int CompareTo(Volume other) => CubicMetres.CompareTo(other.CubicMetres);
}
