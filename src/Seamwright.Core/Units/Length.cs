namespace Seamwright.Units;

/// <summary>A length: a seam, a bead's width or height, a film thickness.</summary>
public readonly record struct Length : IComparable<Length>
{
    private Length(double metres) => Metres = metres;

    /// <summary>Stored value. [m]</summary>
    public double Metres { get; }

    /// <summary>Length. [mm]</summary>
    public double Millimetres => Metres * 1e3;

    /// <summary>Film thickness. [µm]</summary>
    public double Micrometres => Metres * 1e6;

    /// <summary>Length. [in]</summary>
    public double Inches => Metres / 0.0254;

    /// <summary>Length. [ft]</summary>
    public double Feet => Metres / 0.3048;

    /// <summary>Film thickness. [mil, a thousandth of an inch]</summary>
    public double Mils => Metres / 2.54e-5;

    /// <summary>From metres.</summary>
    public static Length FromMetres(double metres) => new(metres);

    /// <summary>From millimetres.</summary>
    public static Length FromMillimetres(double millimetres) => new(millimetres / 1e3);

    /// <summary>From micrometres.</summary>
    public static Length FromMicrometres(double micrometres) => new(micrometres / 1e6);

    /// <summary>From inches.</summary>
    public static Length FromInches(double inches) => new(inches * 0.0254);

    /// <summary>From feet.</summary>
    public static Length FromFeet(double feet) => new(feet * 0.3048);

    /// <summary>From mils (thousandths of an inch).</summary>
    public static Length FromMils(double mils) => new(mils * 2.54e-5);

    /// <summary>The area of a rectangle, or a bead's cross-section from width and height.</summary>
    public static Area operator *(Length a, Length b) => Area.FromSquareMetres(a.Metres * b.Metres);

    /// <summary>Nothing.</summary>
    public static Length Zero => default;

    /// <summary>Sum.</summary>
    public static Length operator +(Length a, Length b) => new(a.Metres + b.Metres);

    /// <summary>Difference.</summary>
    public static Length operator -(Length a, Length b) => new(a.Metres - b.Metres);

    /// <summary>Multiple.</summary>
    public static Length operator *(Length a, double factor) => new(a.Metres * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Length a, Length b) => a.Metres / b.Metres;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Length a, Length b) => a.Metres < b.Metres;

    /// <summary>Greater than.</summary>
    public static bool operator >(Length a, Length b) => a.Metres > b.Metres;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Length a, Length b) => a.Metres <= b.Metres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Length a, Length b) => a.Metres >= b.Metres;

    /// <inheritdoc/>
    public int CompareTo(Length other) => Metres.CompareTo(other.Metres);
}
