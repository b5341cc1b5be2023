using System.Collections.Immutable;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>Different metals: what must be kept apart, and never bare against each other.</summary>
internal static class GalvanicRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("galvanic.pair", Sources.AnodicIndex, Pair),
        new("galvanic.primed", Sources.Trade, Primed),
    ];

    private static Finding Pair(JointCase subject)
    {
        if (subject.Joint.Metals.Length < 2 && !subject.Joint.GalvanicIsolation)
            return Finding.NotConcerned;
        if (subject.Joint.Metals.Length < 2)
            return Finding.Advice("isolate-as-marked", subject.Joint.Id);

        var (a, b) = (subject.Joint.Metals[0], subject.Joint.Metals[1]);
        int difference = GalvanicSeries.Difference(a, b);
        return GalvanicSeries.Need(a, b) switch
        {
            GalvanicNeed.Isolation when subject.Joint.Type == JointType.Fastener =>
                Finding.Advice("isolate-all-heads", a, b, difference, subject.Joint.Count),
            GalvanicNeed.Isolation => Finding.Advice("isolate-both-edges", a, b, difference),
            _ when subject.Joint.GalvanicIsolation => Finding.Advice("isolate-as-marked", subject.Joint.Id),
            GalvanicNeed.Intended => Finding.Fine("zinc-protects-steel", a, b, difference),
            _ => Finding.Fine("metals-get-along", a, b, difference),
        };
    }

    private static Finding Primed(JointCase subject)
    {
        bool apart = subject.Joint.GalvanicIsolation
            || (subject.Joint.Metals.Length > 1 && GalvanicSeries.Need(subject.Joint.Metals[0], subject.Joint.Metals[1]) == GalvanicNeed.Isolation);
        if (!apart || !subject.IsSeamMaterial)
            return Finding.NotConcerned;

        return SurfaceFacts.IsPrimed(subject.Beneath.Kind)
            ? Finding.Fine("isolation-primed", subject.Joint.Id, subject.Beneath.Kind)
            : Finding.Refused("isolation-needs-primer", subject.Joint.Id, subject.Beneath.Kind);
    }
}
