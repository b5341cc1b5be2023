using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>Amounts of primer, adhesive, wax, foam and stone-chip coating, from what the sheet says they cover. Null = the sheet does not say.</summary>
public static class Coatings
{
    /// <summary>Band of metal that is primed along a seam, both flanges together; it ties amounts per metre to amounts per area. Common practice.</summary>
    public static Length SeamBand { get; } = Length.FromMillimetres(100);

    /// <summary>Length of seam that counts for one rivet head or dab when it is primed. Common practice.</summary>
    public static Length HeadLength { get; } = Length.FromMillimetres(50);

    /// <summary>Length of a joint that is prepared and primed: all runs, or a short length a head where it has none.</summary>
    public static Length PrimedLength(Joint joint) => joint.Length > Length.Zero ? joint.TotalLength : HeadLength * joint.Count;

    /// <summary>Primer, ready to spray, losses included, for seams and areas together.</summary>
    /// <param name="sheet">Primer.</param>
    /// <param name="seams">Length of seams.</param>
    /// <param name="areas">Bare areas.</param>
    /// <returns>By the sheet's own measure where it has one (per metre for seams, per square metre or film build for areas); a measure that is
    /// missing is taken from the other with a band of <see cref="SeamBand"/>; null where the sheet has neither coverage nor film build.</returns>
    public static Volume? Primer(DataSheet sheet, Length seams, Area areas)
    {
        if (PerMetre(sheet) is not { } perMetre || PerSquareMetre(sheet) is not { } perSquareMetre)
            return null;

        return perMetre * seams.Metres + perSquareMetre * areas.SquareMetres;
    }

    /// <summary>Stone-chip or underbody coating for an area, losses included; null where the sheet does not state its coverage.</summary>
    public static Volume? StoneChip(DataSheet sheet, Area area) => PerSquareMetre(sheet) is { } perSquareMetre ? perSquareMetre * area.SquareMetres : null;

    /// <summary>Adhesive for a bond line; null where the sheet does not state it.</summary>
    public static Volume? Adhesive(DataSheet sheet, Bond bond) =>
        sheet.Coverage is Coverage.PerMetre coverage ? coverage.Amount * bond.Length.Metres : null;

    /// <summary>
    /// Wax for a closed section: per place, or per metre of its length (a section without a length counts as one metre); null where the
    /// sheet does not state it.
    /// </summary>
    public static Volume? Wax(DataSheet sheet, Cavity cavity) => sheet.Coverage switch
    {
        Coverage.PerPlace coverage => coverage.Amount,
        Coverage.PerMetre coverage => coverage.Amount * (cavity.Length?.Metres ?? 1),
        _ => null,
    };

    /// <summary>
    /// Mixed foam for a closed section: its volume ÷ the sheet's expansion; without a volume what the sheet states for a place, else a whole pack.
    /// </summary>
    /// <exception cref="OutsideValidityException">The expansion is not at least 1.</exception>
    public static Volume Foam(DataSheet sheet, Cavity cavity)
    {
        if (sheet.Coverage is Coverage.Expansion { Factor: var factor } && factor is not >= 1)
            throw new OutsideValidityException("Foam expansion", factor.ToString(System.Globalization.CultureInfo.InvariantCulture), "1 or more");

        return sheet.Coverage switch
        {
            Coverage.Expansion expansion when cavity.Volume is { } volume => volume * (1 / expansion.Factor),
            Coverage.PerPlace place => place.Amount,
            _ => sheet.Pack.Content,
        };
    }

    private static Volume? PerMetre(DataSheet sheet) => sheet.Coverage switch
    {
        Coverage.PerMetre coverage => coverage.Amount,
        Coverage.PerSquareMetre coverage => coverage.Amount * SeamBand.Metres,
        _ => sheet.Film is { } film ? Films.Needed(SeamBand * Length.FromMetres(1), film) : null,
    };

    private static Volume? PerSquareMetre(DataSheet sheet) => sheet.Coverage switch
    {
        Coverage.PerSquareMetre coverage => coverage.Amount,
        _ when sheet.Film is { } film => Films.Needed(Area.FromSquareMetres(1), film),
        Coverage.PerMetre coverage => coverage.Amount * (1 / SeamBand.Metres),
        _ => null,
    };
}
