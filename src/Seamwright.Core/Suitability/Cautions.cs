using System.Collections.Immutable;
using Seamwright.Materials;

namespace Seamwright.Suitability;

/// <summary>A line of caution shown where it matters.</summary>
/// <param name="Key">Key of the sentence.</param>
/// <param name="Source">Where it was read.</param>
/// <param name="Hazard">The danger it speaks of; null = the line that always comes first.</param>
public sealed record Caution(string Key, string Source, Hazard? Hazard);

/// <summary>The safety lines of a material. They never replace its safety sheet.</summary>
public static class Cautions
{
    /// <summary>The line that always comes first: maker's procedure, data sheet, safety sheet, local law.</summary>
    public static Caution Always { get; } = new("caution-first-things", "this program's own limits", null);

    private static readonly ImmutableArray<Caution> Lines =
    [
        new("caution-isocyanate", "HSE, isocyanates in motor vehicle repair", Hazard.Isocyanate),
        new("caution-isocyanate-mist", "HSE, asthma in vehicle spraying", Hazard.Isocyanate),
        new("caution-isocyanate-skin", "HSE; Washington State surveillance, JOEH 10 (2013) 597", Hazard.Isocyanate),
        new("caution-isocyanate-training", "Regulation (EU) 2020/1149, REACH Annex XVII entry 74", Hazard.Isocyanate),
        new("caution-epoxy", "EU-OSHA OSHwiki; HSE RR79", Hazard.Epoxy),
        new("caution-zinc-fume", "AWS Fact Sheet 25; NIOSH", Hazard.ZincFume),
        new("caution-flammable", "OSHA 1910.106", Hazard.Flammable),
        new("caution-acid", Sources.CommonPractice, Hazard.Acid),
        new("caution-acrylate", Sources.CommonPractice, Hazard.Acrylate),
        new("caution-solvent", "OSHA 1910.106", Hazard.Solvent),
    ];

    /// <summary>The lines for a material: <see cref="Always"/> first, then those of its hazards in a fixed order.</summary>
    public static ImmutableArray<Caution> For(DataSheet sheet) =>
        [Always, .. Lines.Where(line => line.Hazard is { } hazard && sheet.Hazards.Contains(hazard))];
}
