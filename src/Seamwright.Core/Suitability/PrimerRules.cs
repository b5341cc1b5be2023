using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability.Rules;

namespace Seamwright.Suitability;

/// <summary>A primer thought of on a surface.</summary>
public sealed record PrimerCase
{
    /// <summary>The primer.</summary>
    public required DataSheet Primer { get; init; }

    /// <summary>What it will lie on.</summary>
    public required SurfaceKind On { get; init; }

    /// <summary>Metals of the place, one or two.</summary>
    public required ImmutableArray<Metal> Metals { get; init; }

    /// <summary>What comes over it; null = not known yet.</summary>
    public DataSheet? Over { get; init; }

    /// <summary>True where the faces will be welded after it.</summary>
    public bool WillBeWelded { get; init; }

    /// <summary>True for a joint that twists.</summary>
    public bool Torsion { get; init; }
}

/// <summary>Which primer may go where.</summary>
public static class PrimerRules
{
    /// <summary>Every rule on primers.</summary>
    public static ImmutableArray<Rule<PrimerCase>> All { get; } =
    [
        new("primer.kind", Sources.Trade, Kind),
        new("primer.surface", Sources.Trade, Surface),
        new("primer.over-etch", Sources.Trade, OverEtch),
        new("primer.etch-beneath", Sources.Trade, EtchBeneath),
        new("primer.torsion", Sources.Trade, Torsion),
        new("primer.zinc-metal", Sources.Trade, ZincMetal),
        new("primer.zinc-place", Sources.Trade, ZincPlace),
    ];

    /// <summary>The full list of verdicts, one a rule in the order of <see cref="All"/>.</summary>
    public static ImmutableArray<Verdict> Judge(PrimerCase subject) => [.. All.Select(rule => rule.Judge(subject))];

    private static Finding Kind(PrimerCase subject) =>
        subject.Primer.Use is MaterialUse.Primer or MaterialUse.EtchPrimer or MaterialUse.WeldThroughPrimer
            ? Finding.Fine("is-a-primer", subject.Primer.Id)
            : Finding.Refused("is-no-primer", subject.Primer.Id);

    private static Finding Surface(PrimerCase subject)
    {
        // Etch beneath and zinc's metals have rules of their own with better words.
        if (subject.On == SurfaceKind.EtchPrimer)
            return Finding.NotConcerned;

        ImmutableArray<SurfaceKind> met = SurfaceFacts.IsBareMetal(subject.On) ? SurfaceFacts.BareKinds(subject.On, subject.Metals) : [subject.On];
        foreach (var kind in met)
        {
            switch (SurfaceFacts.Statement(subject.Primer, kind))
            {
                case false:
                    return Finding.Refused("primer-refused-by-sheet", subject.Primer.Id, kind).From(subject.Primer.Source);
                case null when SurfaceFacts.IsBareMetal(kind) || kind == SurfaceKind.WeldThroughPrimer:
                    return Finding.Refused("primer-not-stated", subject.Primer.Id, kind);
                case null:
                    return Finding.Advice("primer-over-coat-scuff", subject.Primer.Id, kind);
            }
        }
        return Finding.Fine("primer-allowed-by-sheet", subject.Primer.Id, subject.On).From(subject.Primer.Source);
    }

    private static Finding OverEtch(PrimerCase subject)
    {
        if (subject.On != SurfaceKind.EtchPrimer)
            return Finding.NotConcerned;

        bool? stated = SurfaceFacts.Statement(subject.Primer, SurfaceKind.EtchPrimer);
        if (subject.Primer.IsTwoPart && stated != true)
            return Finding.Refused("two-part-primer-over-etch", subject.Primer.Id);

        return stated switch
        {
            true when subject.Primer.Chemistry == Chemistry.TwoPartEpoxy =>
                Finding.NeedsSignOff("epoxy-over-etch-allowed-by-sheet", subject.Primer.Id).From(subject.Primer.Source),
            true => Finding.Fine("primer-allowed-by-sheet", subject.Primer.Id, subject.On).From(subject.Primer.Source),
            false => Finding.Refused("primer-refused-by-sheet", subject.Primer.Id, subject.On).From(subject.Primer.Source),
            null => Finding.Refused("primer-not-stated", subject.Primer.Id, subject.On),
        };
    }

    private static Finding EtchBeneath(PrimerCase subject)
    {
        if (SurfaceFacts.LeftBy(subject.Primer) != SurfaceKind.EtchPrimer || subject.Over is not { } over)
            return Finding.NotConcerned;

        bool? stated = SurfaceFacts.Statement(over, SurfaceKind.EtchPrimer);
        if (over.IsTwoPart)
        {
            return stated == true
                ? Finding.NeedsSignOff("etch-under-two-part-allowed-by-sheet", over.Id).From(over.Source)
                : Finding.Refused("etch-would-lie-under-two-part", subject.Primer.Id, over.Id);
        }
        return stated == true
            ? Finding.Advice("etch-is-thin", subject.Primer.Id, over.Id)
            : Finding.Refused("etch-would-lie-under-unstated", subject.Primer.Id, over.Id);
    }

    private static Finding Torsion(PrimerCase subject) =>
        !subject.Torsion ? Finding.NotConcerned
        : SurfaceFacts.IsPrimed(SurfaceFacts.LeftBy(subject.Primer)) ? Finding.Fine("torsion-primer", subject.Primer.Id)
        : Finding.Refused("torsion-needs-full-primer", subject.Primer.Id);

    private static Finding ZincMetal(PrimerCase subject) =>
        WeldThroughRules.IsWeldThrough(subject.Primer)
            ? WeldThroughRules.Metal(subject.Primer, subject.On == SurfaceKind.BareAluminium ? [Metal.Aluminium] : subject.Metals)
            : Finding.NotConcerned;

    private static Finding ZincPlace(PrimerCase subject) =>
        WeldThroughRules.IsWeldThrough(subject.Primer) ? WeldThroughRules.Place(subject.Primer, subject.WillBeWelded) : Finding.NotConcerned;
}
