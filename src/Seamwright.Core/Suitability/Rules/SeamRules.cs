using System.Collections.Immutable;

namespace Seamwright.Suitability.Rules;

/// <summary>No seam where the factory had none: it would trap water that must weep out.</summary>
internal static class SeamRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("seam.none", Sources.CommonPractice, None)];

    private static Finding None(JointCase subject) =>
        !subject.IsSeamMaterial ? Finding.NotConcerned
        : subject.Joint.IsBare ? Finding.Refused("factory-had-no-seam", subject.Joint.Id)
        : Finding.Fine("factory-had-seam", subject.Joint.Id, subject.Joint.Look.Profile);
}
