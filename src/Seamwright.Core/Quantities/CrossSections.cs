using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>
/// Cross-sections of beads. One square millimetre is one millilitre per metre. Source: public sealant quantity guides (round, half-round,
/// fillet, rectangle); the half-ellipse is geometry.
/// </summary>
public static class CrossSections
{
    /// <summary>Round bead: π·d²/4.</summary>
    /// <param name="diameter">Diameter. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="diameter"/> is negative or not a number.</exception>
    public static Area Round(Length diameter) => Checked(diameter) * diameter * (Math.PI / 4);

    /// <summary>Half-round bead of one number, as high as half its width: π·w²/8.</summary>
    /// <param name="width">Width of the base. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="width"/> is negative or not a number.</exception>
    public static Area HalfRound(Length width) => Checked(width) * width * (Math.PI / 8);

    /// <summary>Tooled bead of width and height, a half ellipse: π·w·h/4.</summary>
    /// <param name="width">Width of the base. [≥ 0]</param>
    /// <param name="height">Height. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static Area HalfEllipse(Length width, Length height) => Checked(width) * Checked(height) * (Math.PI / 4);

    /// <summary>Fillet, a triangle of two legs: a·b/2.</summary>
    /// <param name="a">First leg. [≥ 0]</param>
    /// <param name="b">Second leg. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static Area Fillet(Length a, Length b) => Checked(a) * Checked(b) * 0.5;

    /// <summary>Flat band, sprayed band, strip or filled ditch: w·h.</summary>
    /// <param name="width">Width. [≥ 0]</param>
    /// <param name="height">Height. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static Area Flat(Length width, Length height) => Checked(width) * Checked(height);

    /// <summary>Dab or cap, a half ellipsoid on a round base: π·d²·h/6.</summary>
    /// <param name="diameter">Diameter of the base. [≥ 0]</param>
    /// <param name="height">Height. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or not a number.</exception>
    public static Volume Dab(Length diameter, Length height) => Checked(diameter) * diameter * (Math.PI / 6) * Checked(height);

    /// <summary>Length of bead that a pack yields: L[m] = V[ml]/A[mm²].</summary>
    /// <param name="content">What is in the pack. [≥ 0]</param>
    /// <param name="section">Cross-section. [&gt; 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">The section is not greater than zero.</exception>
    public static Length BeadLength(Volume content, Area section) =>
        section.SquareMetres > 0
            ? Length.FromMetres(content.CubicMetres / section.SquareMetres)
            : throw new ArgumentOutOfRangeException(nameof(section), section.SquareMillimetres, "A bead needs a cross-section greater than zero.");

    private static Length Checked(Length length) =>
        length.Metres is >= 0 and < double.PositiveInfinity
            ? length
            : throw new ArgumentOutOfRangeException(nameof(length), length.Millimetres, "A bead's measure is zero or more millimetres.");
}
