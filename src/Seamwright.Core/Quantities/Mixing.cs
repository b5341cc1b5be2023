using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>Both components of a pot, by volume.</summary>
/// <param name="Base">Base.</param>
/// <param name="Hardener">Hardener.</param>
public readonly record struct MixByVolume(Volume Base, Volume Hardener)
{
    /// <summary>Both together.</summary>
    public Volume Mixed => Base + Hardener;
}

/// <summary>Both components of a pot, on the scale.</summary>
/// <param name="Base">Base.</param>
/// <param name="Hardener">Hardener.</param>
public readonly record struct MixByWeight(Mass Base, Mass Hardener)
{
    /// <summary>Both together.</summary>
    public Mass Mixed => Base + Hardener;
}

/// <summary>Mixing two components by volume and by weight (docs/formulas.md, G7: m_B/m_A = (v_B/v_A)·(ρ_B/ρ_A)).</summary>
public static class Mixing
{
    /// <summary>Smallest step in which a pot is mixed. [5 ml; common practice]</summary>
    public static Volume Step { get; } = Volume.FromMillilitres(5);

    /// <summary>Components of a mixed volume.</summary>
    /// <exception cref="OutsideValidityException">A part of the ratio is not greater than zero.</exception>
    public static MixByVolume ByVolume(MixRatio ratio, Volume mixed)
    {
        double baseShare = Checked(ratio).Base / (ratio.Base + ratio.Hardener);
        var baseVolume = mixed * baseShare;
        return new MixByVolume(baseVolume, mixed - baseVolume);
    }

    /// <summary>Components of a mixed volume by weight, or null where a density is not stated.</summary>
    /// <exception cref="OutsideValidityException">A part of the ratio is not greater than zero.</exception>
    public static MixByWeight? ByWeight(MixRatio ratio, Volume mixed)
    {
        if (ratio.BaseDensity is not { } baseDensity || ratio.HardenerDensity is not { } hardenerDensity)
            return null;

        var parts = ByVolume(ratio, mixed);
        return new MixByWeight(baseDensity * parts.Base, hardenerDensity * parts.Hardener);
    }

    /// <summary>Hardener by weight for one part of base by weight, or null where a density is not stated. [kg/kg]</summary>
    /// <exception cref="OutsideValidityException">A part of the ratio is not greater than zero.</exception>
    public static double? WeightRatio(MixRatio ratio) =>
        ratio.BaseDensity is { } baseDensity && ratio.HardenerDensity is { } hardenerDensity
            ? Checked(ratio).Hardener / ratio.Base * (hardenerDensity / baseDensity)
            : null;

    /// <summary>Hardener to weigh to this base, or null where a density is not stated.</summary>
    /// <exception cref="OutsideValidityException">A part of the ratio is not greater than zero.</exception>
    public static Mass? HardenerFor(MixRatio ratio, Mass baseMass) => WeightRatio(ratio) is { } share ? baseMass * share : null;

    /// <summary>Density of the mix, or null where a density is not stated.</summary>
    /// <exception cref="OutsideValidityException">A part of the ratio is not greater than zero.</exception>
    public static Density? MixDensity(MixRatio ratio) =>
        ratio.BaseDensity is { } baseDensity && ratio.HardenerDensity is { } hardenerDensity
            ? (baseDensity * Checked(ratio).Base + hardenerDensity * ratio.Hardener) * (1 / (ratio.Base + ratio.Hardener))
            : null;

    /// <summary>The next practical amount: rounded up to whole steps of <see cref="Step"/>; a millionth of a step above counts as reached.</summary>
    public static Volume RoundedUp(Volume volume) => Step * Math.Ceiling(volume / Step - 1e-6);

    private static MixRatio Checked(MixRatio ratio) =>
        ratio is { Base: > 0, Hardener: > 0 }
            ? ratio
            : throw new OutsideValidityException(
                "Mix ratio", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{ratio.Base}:{ratio.Hardener}"), "parts greater than 0");
}
