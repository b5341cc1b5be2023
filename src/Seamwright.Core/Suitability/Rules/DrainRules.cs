using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>Drain slots, weep and wax holes in the seam's path stay open after each layer.</summary>
internal static class DrainRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("drains.open", Sources.Makers, Open)];

    private static Finding Open(JointCase subject) =>
        subject.Joint.Drains > 0
            ? Finding.Advice("keep-drains-open", subject.Joint.Id, subject.Joint.Drains)
            : Finding.Fine("no-drains-in-path", subject.Joint.Id);
}
