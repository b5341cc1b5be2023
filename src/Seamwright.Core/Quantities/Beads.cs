using System.Collections.Immutable;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>How much paste a joint takes, how thick the bead is and how deep it must cure.</summary>
public static class Beads
{
    /// <summary>Share of a brushed band that a skip-brushed one takes: the upper end of 60…80 %, so that the amount suffices. Common practice.</summary>
    public const double SkipBrushedShare = 0.8;

    /// <summary>
    /// Cross-section of a look; zero for no seam. A look without a height is taken as high as half its width for a half-round; a flat band
    /// without a height has no section. For a dab the section is zero: dabs count by piece.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A width or height is negative or not a number.</exception>
    public static Area Section(Look look) => look.Profile switch
    {
        Profile.None or Profile.Dab => Area.Zero,
        Profile.Round => CrossSections.Round(look.Width),
        Profile.HalfRound => look.Height == Length.Zero
            ? CrossSections.HalfRound(look.Width)
            : CrossSections.HalfEllipse(look.Width, look.Height),
        Profile.Fillet => CrossSections.Fillet(look.Width, SecondLeg(look)),
        Profile.SkipBrushed => CrossSections.Flat(look.Width, look.Height) * SkipBrushedShare,
        _ => CrossSections.Flat(look.Width, look.Height),
    };

    /// <summary>
    /// Thickness of the bead, which is what sags: the diameter of a round bead, half the width of a half-round of one number, the throat
    /// a·b/√(a² + b²) of a fillet, else the look's height.
    /// </summary>
    public static Length Thickness(Look look) => look.Profile switch
    {
        Profile.None => Length.Zero,
        Profile.Round => look.Height == Length.Zero ? look.Width : look.Height,
        Profile.HalfRound => look.Height == Length.Zero ? look.Width * 0.5 : look.Height,
        Profile.Fillet => Throat(look.Width, SecondLeg(look)),
        Profile.Dab => look.Height > Length.Zero ? look.Height : look.Width * 0.25,
        _ => look.Height,
    };

    /// <summary>Depth that must cure from the nearest open face: the joint's own depth, else the thickness of its look.</summary>
    public static Length Depth(Joint joint) => joint.Depth ?? Thickness(joint.Look);

    /// <summary>Paste of one metre of a look, without loss.</summary>
    public static Volume PerMetre(Look look) => Section(look) * Length.FromMetres(1);

    /// <summary>
    /// Volume of one dab: the shop's own figure, else a half ellipsoid of the look; a dab without a height is a quarter of its diameter high
    /// (common practice, no source).
    /// </summary>
    public static Volume Dab(Look look, Amounts amounts) => amounts.Dab ?? CrossSections.Dab(look.Width, look.Height > Length.Zero ? look.Height : look.Width * 0.25);

    /// <summary>Paste that stays on the joint: section × all runs, or dabs × their number; without loss and gap fill.</summary>
    public static Volume Net(Joint joint, Amounts amounts) =>
        joint.Look.Profile == Profile.Dab
            ? Dab(joint.Look, amounts) * joint.Count
            : Section(joint.Look) * joint.TotalLength;

    /// <summary>Paste that the joint takes: net × (1 + loss) + gap fill; what mixing nozzles hold back and purge is not in it.</summary>
    public static Volume Needed(Joint joint, Amounts amounts) => Net(joint, amounts) * (1 + amounts.BeadLoss) + joint.GapFill;

    /// <summary>Pieces of strip that the joint takes: one a run, an end allowance at both ends; empty where the joint has no length.</summary>
    public static ImmutableArray<Length> StripPieces(Joint joint, Amounts amounts) =>
        joint.Length > Length.Zero
            ? [.. Enumerable.Repeat(joint.Length + amounts.StripEnd * 2, joint.Count)]
            : [];

    private static Length SecondLeg(Look look) => look.Height == Length.Zero ? look.Width : look.Height;

    private static Length Throat(Length a, Length b)
    {
        double hypotenuse = Math.Sqrt(a.Metres * a.Metres + b.Metres * b.Metres);
        return hypotenuse > 0 ? Length.FromMetres(a.Metres * b.Metres / hypotenuse) : Length.Zero;
    }
}
