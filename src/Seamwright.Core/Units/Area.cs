namespace Seamwright.Units;

/// <summary>An area: bare metal to coat, or the cross-section of a bead.</summary>
public readonly record struct Area : IComparable<Area>
{
    private Area(double squareMetres) => SquareMetres = squareMetres;

    /// <summary>Stored value. [m²]</summary>
    public double SquareMetres { get; }

    /// <summary>Cross-section. [mm², which is also ml per metre of bead]</summary>
    public double SquareMillimetres => SquareMetres * 1e6;

    /// <summary>Area. [ft²]</summary>
    public double SquareFeet => SquareMetres / 0.09290304;

    /// <summary>From square metres.</summary>
    public static Area FromSquareMetres(double squareMetres) => new(squareMetres);

    /// <summary>From square millimetres.</summary>
    public static Area FromSquareMillimetres(double squareMillimetres) => new(squareMillimetres / 1e6);

    /// <summary>From square feet.</summary>
    public static Area FromSquareFeet(double squareFeet) => new(squareFeet * 0.09290304);

    /// <summary>A cross-section drawn out along a length, or an area under a film.</summary>
    public static Volume operator *(Area a, Length l) => Volume.FromCubicMetres(a.SquareMetres * l.Metres);

    /// <summary>Nothing.</summary>
    public static Area Zero => default;

    /// <summary>Sum.</summary>
    public static Area operator +(Area a, Area b) => new(a.SquareMetres + b.SquareMetres);

    /// <summary>Difference.</summary>
    public static Area operator -(Area a, Area b) => new(a.SquareMetres - b.SquareMetres);

    /// <summary>Multiple.</summary>
    public static Area operator *(Area a, double factor) => new(a.SquareMetres * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(Area a, Area b) => a.SquareMetres / b.SquareMetres;

    /// <summary>Smaller than.</summary>
    public static bool operator <(Area a, Area b) => a.SquareMetres < b.SquareMetres;

    /// <summary>Greater than.</summary>
    public static bool operator >(Area a, Area b) => a.SquareMetres > b.SquareMetres;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(Area a, Area b) => a.SquareMetres <= b.SquareMetres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Area a, Area b) => a.SquareMetres >= b.SquareMetres;

    /// <inheritdoc/>
    public int CompareTo(Area other) => SquareMetres.CompareTo(other.SquareMetres);
}
