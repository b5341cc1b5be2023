using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>
/// Film build and coverage (docs/formulas.md, G1…G6, G8). Solids, thinner and efficiency are plain ratios. Source: public coating data
/// sheets and coverage tables; transfer efficiency as a rule-maker defines it (solids on the part / solids sprayed).
/// </summary>
public static class Films
{
    /// <summary>Area covered by one litre at no loss: S[m²/l] = 1000·VS/DFT[µm].</summary>
    /// <param name="volumeSolids">Solids by volume. [0 &lt; VS ≤ 1]</param>
    /// <param name="dryThickness">Dry film thickness. [&gt; 0]</param>
    /// <exception cref="OutsideValidityException">A value is outside its range.</exception>
    public static Area AreaPerLitre(double volumeSolids, Length dryThickness) =>
        Area.FromSquareMetres(1e-3 * Solids(volumeSolids) / Positive(dryThickness).Metres);

    /// <summary>Wet film that leaves this dry film: WFT = DFT/VS.</summary>
    /// <param name="dryThickness">Dry film thickness. [&gt; 0]</param>
    /// <param name="volumeSolids">Solids by volume as sprayed. [0 &lt; VS ≤ 1]</param>
    /// <exception cref="OutsideValidityException">A value is outside its range.</exception>
    public static Length WetThickness(Length dryThickness, double volumeSolids) => Positive(dryThickness) * (1 / Solids(volumeSolids));

    /// <summary>Solids after thinning: VS' = VS/(1 + x).</summary>
    /// <param name="volumeSolids">Solids by volume before. [0 &lt; VS ≤ 1]</param>
    /// <param name="thinner">Thinner added, as a share of the paint's volume. [≥ 0; 0.1 = 10 %]</param>
    /// <exception cref="OutsideValidityException">A value is outside its range.</exception>
    public static double ThinnedSolids(double volumeSolids, double thinner) =>
        thinner is >= 0 and < double.PositiveInfinity
            ? Solids(volumeSolids) / (1 + thinner)
            : throw Outside("Thinned solids", thinner, "a share of 0 or more");

    /// <summary>Area that is covered in practice: theoretical × (1 − loss).</summary>
    /// <param name="theoretical">Area at no loss.</param>
    /// <param name="loss">Share lost. [0 ≤ loss &lt; 1]</param>
    /// <exception cref="OutsideValidityException"><paramref name="loss"/> is outside its range.</exception>
    public static Area Practical(Area theoretical, double loss) =>
        loss is >= 0 and < 1 ? theoretical * (1 - loss) : throw Outside("Practical coverage", loss, "0…1");

    /// <summary>Ready-to-spray volume for an area: A·DFT/(VS·TE).</summary>
    /// <param name="area">Area. [≥ 0]</param>
    /// <param name="film">Dry thickness, solids, transfer efficiency.</param>
    /// <exception cref="OutsideValidityException">A value is outside its range.</exception>
    public static Volume Needed(Area area, FilmFacts film)
    {
        if (film.TransferEfficiency is not (> 0 and <= 1))
            throw Outside("Transfer efficiency", film.TransferEfficiency, "0…1");

        return area * Positive(film.DryThickness) * (1 / (Solids(film.VolumeSolids) * film.TransferEfficiency));
    }

    /// <summary>Solids of two mixed components: Σ vᵢ·VSᵢ/Σ vᵢ; no shrinkage assumed.</summary>
    /// <param name="ratio">Parts by volume.</param>
    /// <param name="baseSolids">Solids of the base. [0 &lt; VS ≤ 1]</param>
    /// <param name="hardenerSolids">Solids of the hardener. [0 &lt; VS ≤ 1]</param>
    /// <exception cref="OutsideValidityException">A value is outside its range.</exception>
    public static double MixedSolids(MixRatio ratio, double baseSolids, double hardenerSolids) =>
        (ratio.Base * Solids(baseSolids) + ratio.Hardener * Solids(hardenerSolids)) / (ratio.Base + ratio.Hardener);

    private static double Solids(double volumeSolids) =>
        volumeSolids is > 0 and <= 1 ? volumeSolids : throw Outside("Volume solids", volumeSolids, "0…1");

    private static Length Positive(Length thickness) =>
        thickness.Metres is > 0 and < double.PositiveInfinity
            ? thickness
            : throw new OutsideValidityException(
                "Film thickness", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{thickness.Micrometres} µm"), "more than 0 µm");

    private static OutsideValidityException Outside(string formula, double value, string range) =>
        new(formula, value.ToString(System.Globalization.CultureInfo.InvariantCulture), range);
}
