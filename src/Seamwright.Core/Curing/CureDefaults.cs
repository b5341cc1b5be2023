using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>An energy to use where a sheet does not determine one.</summary>
/// <param name="Energy">The energy; null = none is known, so the sheet must state times at two temperatures.</param>
/// <param name="Source">Where it comes from, for the user to read.</param>
public sealed record CureDefault(MolarEnergy? Energy, string Source);

/// <summary>
/// Class defaults per milestone. Every answer that rests on one is flagged (<see cref="MilestoneEvidence.EnergyIsDefault"/>): milestones of
/// one pack differ, and a sheet with two temperatures is always better.
/// </summary>
public static class CureDefaults
{
    /// <summary>Drying of solvent-borne two-part and one-part films (touch-dry, recoat, sand). [30 kJ/mol]</summary>
    public static CureDefault FilmDrying { get; } = new(
        MolarEnergy.FromKilojoulesPerMole(30),
        "public sheets of two-part epoxy and polyurethane primers, drying rows: 28 to 33 kJ/mol fitted; tin-catalysed polyurethane films 29 to 36 in the literature");

    /// <summary>Pot life, handling and strength of epoxy-amine pastes and adhesives. [55 kJ/mol]</summary>
    public static CureDefault EpoxyReaction { get; } = new(
        MolarEnergy.FromKilojoulesPerMole(55),
        "amine-cured epoxies in the literature: 55 to 60, 44 to 57 and 64 to 71 kJ/mol; pot life on public primer sheets: 48 to 54 fitted");

    /// <summary>Pot life, handling and strength of two-part polyurethane pastes and adhesives. [50 kJ/mol]</summary>
    public static CureDefault PolyurethaneReaction { get; } = new(
        MolarEnergy.FromKilojoulesPerMole(50),
        "a public two-part polyurethane adhesive sheet, strength rows: 47 to 59 kJ/mol fitted; catalysed coating films are flatter (29 to 36)");

    /// <summary>Two-part acrylic (methacrylate) adhesives. [none]</summary>
    public static CureDefault AcrylicReaction { get; } = new(
        null,
        "none known: 32 to 55 kJ/mol is published for a model system, nothing for adhesives; fit from two temperatures of the sheet");

    /// <summary>Permeability of the cured layer of a moisture-cure bead, Ep. [0 kJ/mol]</summary>
    public static CureDefault MoisturePermeability { get; } = new(
        MolarEnergy.Zero,
        "none known for seam sealers: the vapour-pressure law alone, so that heat without moisture is never counted as help");
}
