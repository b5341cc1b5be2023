using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;

namespace Seamwright.Suitability.Rules;

/// <summary>
/// The layer beneath. Sealer goes on primer unless its sheet allows bare metal; nothing two-part goes on acid etch; zinc residue is taken
/// off; a strip needs a primed edge.
/// </summary>
internal static class SurfaceRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("surface.bare-metal", Sources.Trade, BareMetal),
        new("surface.etch", Sources.Trade, Etch),
        new("surface.weld-through", Sources.Trade, WeldThrough),
        new("surface.coat", Sources.Trade, Coat),
        new("surface.strip", Sources.Trade, Strip),
    ];

    private static Finding BareMetal(JointCase subject)
    {
        if (!subject.Beneath.IsBareMetal)
            return Finding.NotConcerned;

        foreach (var kind in SurfaceFacts.BareKinds(subject.Beneath.Kind, subject.Joint.Metals))
        {
            switch (SurfaceFacts.Statement(subject.Sheet, kind))
            {
                case false:
                    return Finding.Refused("bare-metal-refused-by-sheet", subject.Sheet.Id, kind).From(subject.Sheet.Source);
                case null:
                    return Finding.Refused("bare-metal-not-stated", subject.Sheet.Id, kind);
            }
        }
        return Finding.Advice("bare-metal-allowed-prime-better", subject.Sheet.Id, subject.Beneath.Kind).From(subject.Sheet.Source);
    }

    private static Finding Etch(JointCase subject)
    {
        if (subject.Beneath.Kind != SurfaceKind.EtchPrimer)
            return Finding.NotConcerned;

        bool? stated = SurfaceFacts.Statement(subject.Sheet, SurfaceKind.EtchPrimer);
        if (subject.Sheet.IsTwoPart)
        {
            var length = PreparationRoutes.WorkedLength(subject.Joint);
            return stated == true
                ? Finding.NeedsSignOff("etch-under-two-part-allowed-by-sheet", subject.Sheet.Id).From(subject.Sheet.Source)
                : Finding.Refused("etch-under-two-part", subject.Sheet.Id, length, StripTime(subject));
        }
        return stated switch
        {
            true => Finding.Fine("etch-allowed-by-sheet", subject.Sheet.Id).From(subject.Sheet.Source),
            false => Finding.Refused("etch-refused-by-sheet", subject.Sheet.Id, StripTime(subject)).From(subject.Sheet.Source),
            null => Finding.Refused("etch-not-stated", subject.Sheet.Id, StripTime(subject)),
        };
    }

    private static Finding WeldThrough(JointCase subject)
    {
        if (subject.Beneath.Kind != SurfaceKind.WeldThroughPrimer)
            return Finding.NotConcerned;

        return SurfaceFacts.Statement(subject.Sheet, SurfaceKind.WeldThroughPrimer) == true
            ? Finding.Fine("weld-through-allowed-by-sheet", subject.Sheet.Id).From(subject.Sheet.Source)
            : Finding.Refused("weld-through-under-seam", subject.Sheet.Id, StripTime(subject));
    }

    private static Finding Coat(JointCase subject)
    {
        var kind = subject.Beneath.Kind;
        if (!SurfaceFacts.IsPrimed(kind))
            return Finding.NotConcerned;

        return SurfaceFacts.Statement(subject.Sheet, kind) switch
        {
            true => Finding.Fine("coat-allowed-by-sheet", subject.Sheet.Id, kind).From(subject.Sheet.Source),
            false => Finding.Refused("coat-refused-by-sheet", subject.Sheet.Id, kind).From(subject.Sheet.Source),
            null => kind == SurfaceKind.EpoxyPrimer
                ? Finding.Fine("coat-is-usual", subject.Sheet.Id, kind)
                : Finding.Advice("coat-not-stated-test", subject.Sheet.Id, kind),
        };
    }

    private static Finding Strip(JointCase subject)
    {
        if (subject.Sheet.Use != MaterialUse.SeamTape)
            return Finding.NotConcerned;

        return SurfaceFacts.IsPrimed(subject.Beneath.Kind)
            ? Finding.Fine("strip-on-primed-edge", subject.Sheet.Id, subject.Beneath.Kind)
            : Finding.Refused("strip-needs-primed-edge", subject.Sheet.Id, subject.Beneath.Kind);
    }

    private static Duration StripTime(JointCase subject) => PreparationRoutes.StripTime(subject.Joint, subject.Shop.Times);
}
