using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>Heat within 100 mm reaches primer, seal, wax and foam: seal after it.</summary>
internal static class HotWorkRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("hot-work.pending", Sources.CommonPractice, Pending)];

    private static Finding Pending(JointCase subject)
    {
        foreach (var operation in subject.Repair.Operations)
        {
            if (operation.HotWork && operation.Near.Contains(subject.Joint.Id))
                return Finding.Advice("after-hot-work", subject.Joint.Id, operation.Id, operation.Name);
        }
        return Finding.Fine("no-hot-work-near", subject.Joint.Id);
    }
}
