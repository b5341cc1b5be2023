using System.Collections.Immutable;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>The factory look is reproduced; where it is visible or strict no other look is put in its place.</summary>
internal static class LookRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } = [new("look.profile", Sources.Makers, MakesProfile)];

    private static Finding MakesProfile(JointCase subject)
    {
        var look = subject.Joint.Look;
        if (look.Profile == Profile.None || !subject.IsSeamMaterial)
            return Finding.NotConcerned;
        if (subject.Sheet.Looks.Contains(look.Profile))
            return Finding.Fine("look-can-be-made", subject.Sheet.Id, look.Profile).From(subject.Sheet.Source);

        return look.Strict ? Finding.Refused("look-strict", subject.Sheet.Id, look.Profile).From(subject.Sheet.Source)
            : look.Visible ? Finding.Refused("look-visible", subject.Sheet.Id, look.Profile).From(subject.Sheet.Source)
            : Finding.NeedsSignOff("look-hidden-substitute", subject.Sheet.Id, look.Profile).From(subject.Sheet.Source);
    }
}
