using System.Collections.Immutable;
using Seamwright.Repairs;

namespace Seamwright.Suitability;

/// <summary>Rows of the anodic index table that a repair can meet, and the two noble ones its sources use as their example.</summary>
public enum SeriesMetal
{
    /// <summary>Gold.</summary>
    Gold,

    /// <summary>Silver.</summary>
    Silver,

    /// <summary>Graphite, carbon fibre; the noble end of the 0.00…0.05 V that the table gives.</summary>
    Graphite,

    /// <summary>Titanium, nickel.</summary>
    Titanium,

    /// <summary>Copper.</summary>
    Copper,

    /// <summary>18 % chromium and 18-8 stainless steel.</summary>
    Stainless,

    /// <summary>Carbon and low-alloy steel.</summary>
    CarbonSteel,

    /// <summary>Wrought aluminium of the 5000 and 6000 series.</summary>
    WroughtAluminium,

    /// <summary>Cast aluminium.</summary>
    CastAluminium,

    /// <summary>Hot-dip zinc.</summary>
    HotDipZinc,

    /// <summary>Zinc plate, zinc die cast.</summary>
    ZincPlate,

    /// <summary>Magnesium.</summary>
    Magnesium,
}

/// <summary>What an anodic index and the trade ask of two metals in contact.</summary>
public enum GalvanicNeed
{
    /// <summary>Same metal or harmless.</summary>
    Nothing,

    /// <summary>Zinc on steel: the zinc is meant to be the anode.</summary>
    Intended,

    /// <summary>The two must not touch: primer on both sides, adhesive or a film between, edges and heads sealed.</summary>
    Isolation,
}

/// <summary>
/// Anodic indices of one public table (gold = 0). The difference is an alarm that can only add an isolation requirement: it passes bare
/// steel against aluminium, which a car cannot bear, and fails zinc on steel, which is intended.
/// </summary>
public static class GalvanicSeries
{
    /// <summary>Greatest difference in the open. [mV; 150, the customary limit outdoors and in salt]</summary>
    public const int HarshLimitMillivolts = 150;

    private static readonly ImmutableDictionary<SeriesMetal, int> Millivolts = new Dictionary<SeriesMetal, int>
    {
        [SeriesMetal.Gold] = 0,
        [SeriesMetal.Graphite] = 0,
        [SeriesMetal.Silver] = 150,
        [SeriesMetal.Titanium] = 300,
        [SeriesMetal.Copper] = 350,
        [SeriesMetal.Stainless] = 500,
        [SeriesMetal.CarbonSteel] = 850,
        [SeriesMetal.WroughtAluminium] = 900,
        [SeriesMetal.CastAluminium] = 950,
        [SeriesMetal.HotDipZinc] = 1200,
        [SeriesMetal.ZincPlate] = 1250,
        [SeriesMetal.Magnesium] = 1750,
    }.ToImmutableDictionary();

    /// <summary>Anodic index, sign dropped. [mV below gold]</summary>
    public static int Index(SeriesMetal metal) => Millivolts[metal];

    /// <summary>The table's row for a panel.</summary>
    public static SeriesMetal Row(Metal metal) => metal switch
    {
        Metal.Steel => SeriesMetal.CarbonSteel,
        Metal.ZincCoatedSteel => SeriesMetal.HotDipZinc,
        Metal.Aluminium => SeriesMetal.WroughtAluminium,
        Metal.StainlessSteel => SeriesMetal.Stainless,
        Metal.Magnesium => SeriesMetal.Magnesium,
        Metal.CarbonFibre => SeriesMetal.Graphite,
        _ => throw new ArgumentOutOfRangeException(nameof(metal), metal, "Not a metal of the series."),
    };

    /// <summary>Difference of two rows. [mV, ≥ 0]</summary>
    public static int Difference(SeriesMetal a, SeriesMetal b) => Math.Abs(Index(a) - Index(b));

    /// <summary>Difference of two panels. [mV, ≥ 0]</summary>
    public static int Difference(Metal a, Metal b) => Difference(Row(a), Row(b));

    /// <summary>What the pair needs. Steel, coated or not, against aluminium always needs isolation, whatever the difference says.</summary>
    public static GalvanicNeed Need(Metal a, Metal b)
    {
        if (a == b)
            return GalvanicNeed.Nothing;
        if (IsCarbonSteel(a) && IsCarbonSteel(b))
            return GalvanicNeed.Intended;
        if ((IsCarbonSteel(a) && b == Metal.Aluminium) || (a == Metal.Aluminium && IsCarbonSteel(b)))
            return GalvanicNeed.Isolation;

        return Difference(a, b) > HarshLimitMillivolts ? GalvanicNeed.Isolation : GalvanicNeed.Nothing;
    }

    private static bool IsCarbonSteel(Metal metal) => metal is Metal.Steel or Metal.ZincCoatedSteel;
}
