using NodaTime;
using Seamwright.Materials;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>Mixing nozzles: how many a session takes and what each costs in paste.</summary>
public static class Nozzles
{
    /// <summary>Free share of a mixer's tube with helical elements (maker's statement: 0.9 or more).</summary>
    public const double HelicalFreeShare = 0.9;

    /// <summary>Paste lost by one fresh nozzle: what it holds back and the first bead that is discarded.</summary>
    public static Volume Waste(Amounts amounts) => amounts.NozzleHeld + amounts.NozzlePurge;

    /// <summary>True where the material goes through a mixing nozzle.</summary>
    public static bool Takes(DataSheet sheet) => sheet.Method == ApplicationMethod.CartridgeWithMixer;

    /// <summary>Fresh nozzles that the work itself needs: one for each stretch of nozzle life that has begun; at least one.</summary>
    /// <param name="work">Work through the nozzle. [≥ 0]</param>
    /// <param name="life">How long a filled nozzle stays usable, at the panel's or shop's temperature; null = no limit.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="life"/> is not greater than zero.</exception>
    public static int Runs(Duration work, Duration? life)
    {
        if (life is not { } span)
            return 1;
        if (span <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(life), span, "A nozzle's life is longer than nothing.");

        return Math.Max(1, (int)Math.Ceiling(work.TotalNanoseconds / span.TotalNanoseconds));
    }

    /// <summary>Nozzles of a session: each pack takes one, and each run takes one; whichever is more.</summary>
    public static int Needed(int packs, int runs) => Math.Max(packs, runs);

    /// <summary>What a mixer holds, from its bore and length: φ·π·d²/4·L.</summary>
    /// <param name="bore">Inner diameter.</param>
    /// <param name="length">Length filled.</param>
    /// <param name="freeShare">Share of the tube not taken up by the elements. [0…1]</param>
    public static Volume HoldUp(Length bore, Length length, double freeShare = HelicalFreeShare) =>
        CrossSections.Round(bore) * length * freeShare;

    /// <summary>Purge bead discarded after a fresh nozzle, customarily the first 100…150 mm (common practice).</summary>
    public static Volume PurgeBead(Length diameter, Length length) => CrossSections.Round(diameter) * length;

    /// <summary>The ratio a nozzle must fit, as it is written on nozzles, for example <c>2:1</c>; null for one-part materials.</summary>
    public static string? RatioOf(DataSheet sheet) =>
        sheet.Pack.Ratio is { } ratio ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{ratio.Base}:{ratio.Hardener}") : null;
}
