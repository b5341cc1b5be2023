using System.Collections.Immutable;
using NodaTime;
using Seamwright.Quantities;

namespace Seamwright.Suitability.Rules;

/// <summary>A moisture cure comes from the open face: never in a closed joint, and with the square of the depth.</summary>
internal static class DepthRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("depth.closed-to-air", Sources.MoistureCure, ClosedToAir),
        new("depth.deep-bead", Sources.MoistureCure, DeepBead),
    ];

    private static Finding ClosedToAir(JointCase subject) =>
        !subject.Sheet.IsMoistureCure ? Finding.NotConcerned
        : subject.Joint.ClosedToAir ? Finding.Refused("closed-joint-never-cures", subject.Sheet.Id, subject.Joint.Id)
        : Finding.Fine("open-to-air", subject.Sheet.Id, subject.Joint.Id);

    private static Finding DeepBead(JointCase subject)
    {
        if (!subject.Sheet.IsMoistureCure || subject.Sheet.DepthCure is not { } cure || subject.Joint.IsBare)
            return Finding.NotConcerned;

        var depth = Beads.Depth(subject.Joint);
        var needed = Duration.FromHours(cure.Needed(depth).Hours);
        return (depth <= cure.DepthInFirstDay
            ? Finding.Fine("cures-through-in-a-day", subject.Sheet.Id, depth, needed)
            : Finding.Advice("deep-bead-is-slow", subject.Sheet.Id, depth, needed, cure.DepthInFirstDay)).From(subject.Sheet.Source);
    }
}
