using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>One maker's system, or a combination somebody answers for.</summary>
internal static class SystemRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("system.same", Sources.Makers, Same)];

    private static Finding Same(JointCase subject)
    {
        if (subject.BeneathSheet is not { } coat || coat.System is not { } below || subject.Sheet.System is not { } own)
            return Finding.NotConcerned;

        return below == own
            ? Finding.Fine("same-system", subject.Sheet.Id, coat.Id, own)
            : Finding.NeedsSignOff("different-systems", subject.Sheet.Id, own, coat.Id, below);
    }
}
