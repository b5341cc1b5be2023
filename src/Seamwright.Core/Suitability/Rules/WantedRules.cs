using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>The technician may insist on one material for a joint; every other one is then out of the question.</summary>
internal static class WantedRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("wanted.material", "choice of the shop", Wanted)];

    private static Finding Wanted(JointCase subject)
    {
        if (subject.Joint.Wanted is not { } wanted)
            return Finding.Fine("wanted-open", subject.Joint.Id);

        return wanted == subject.Sheet.Id
            ? Finding.Fine("wanted-this", subject.Sheet.Id, subject.Joint.Id)
            : Finding.Refused("wanted-other", wanted, subject.Joint.Id);
    }
}
