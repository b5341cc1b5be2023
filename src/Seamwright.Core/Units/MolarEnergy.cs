namespace Seamwright.Units;

/// <summary>An activation energy.</summary>
public readonly record struct MolarEnergy : IComparable<MolarEnergy>
{
    private MolarEnergy(double joulesPerMole) => JoulesPerMole = joulesPerMole;

    /// <summary>Stored value. [J/mol]</summary>
    public double JoulesPerMole { get; }

    /// <summary>Activation energy. [kJ/mol]</summary>
    public double KilojoulesPerMole => JoulesPerMole / 1e3;

    /// <summary>From kilojoules per mole.</summary>
    public static MolarEnergy FromKilojoulesPerMole(double kilojoulesPerMole) => new(kilojoulesPerMole * 1e3);

    /// <summary>Nothing.</summary>
    public static MolarEnergy Zero => default;

    /// <summary>Sum.</summary>
    public static MolarEnergy operator +(MolarEnergy a, MolarEnergy b) => new(a.JoulesPerMole + b.JoulesPerMole);

    /// <summary>Difference.</summary>
    public static MolarEnergy operator -(MolarEnergy a, MolarEnergy b) => new(a.JoulesPerMole - b.JoulesPerMole);

    /// <summary>Multiple.</summary>
    public static MolarEnergy operator *(MolarEnergy a, double factor) => new(a.JoulesPerMole * factor);

    /// <summary>Ratio of two. [1]</summary>
    public static double operator /(MolarEnergy a, MolarEnergy b) => a.JoulesPerMole / b.JoulesPerMole;

    /// <summary>Smaller than.</summary>
    public static bool operator <(MolarEnergy a, MolarEnergy b) => a.JoulesPerMole < b.JoulesPerMole;

    /// <summary>Greater than.</summary>
    public static bool operator >(MolarEnergy a, MolarEnergy b) => a.JoulesPerMole > b.JoulesPerMole;

    /// <summary>Not greater than.</summary>
    public static bool operator <=(MolarEnergy a, MolarEnergy b) => a.JoulesPerMole <= b.JoulesPerMole;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(MolarEnergy a, MolarEnergy b) => a.JoulesPerMole >= b.JoulesPerMole;

    /// <inheritdoc/>
    public int CompareTo(MolarEnergy other) => JoulesPerMole.CompareTo(other.JoulesPerMole);
}
