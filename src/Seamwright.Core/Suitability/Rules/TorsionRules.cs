using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>Roof ditches and other joints that twist in driving are always primed, whatever the sealer's sheet allows.</summary>
internal static class TorsionRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("torsion.primed", Sources.Trade, Primed)];

    private static Finding Primed(JointCase subject) =>
        !subject.Joint.IsTorsion ? Finding.NotConcerned
        : SurfaceFacts.IsPrimed(subject.Beneath.Kind) ? Finding.Fine("torsion-joint-primed", subject.Joint.Id, subject.Beneath.Kind)
        : Finding.Refused("torsion-joint-needs-primer", subject.Joint.Id, subject.Beneath.Kind);
}
