using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Suitability.Rules;

/// <summary>A strip follows straight edges only: unstretched, rolled on, drains left open.</summary>
internal static class StripRules
{
    /// <summary>Where a strip's sheet states no radius: the upper end of 100…150 mm. Common practice.</summary>
    internal static readonly Length CustomaryRadius = Length.FromMillimetres(150);

    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("strip.radius", Sources.CommonPractice, Radius),
        new("strip.edge", Sources.CommonPractice, Edge),
        new("strip.laying", Sources.Trade, Laying),
    ];

    private static Finding Radius(JointCase subject)
    {
        if (!IsStrip(subject))
            return Finding.NotConcerned;
        if (subject.Joint.Radius is not { } radius)
            return Finding.Fine("strip-on-straight", subject.Sheet.Id, subject.Joint.Id);

        var least = subject.Sheet.MinimumRadius ?? CustomaryRadius;
        var finding = radius >= least
            ? Finding.Fine("strip-follows-radius", subject.Sheet.Id, radius, least)
            : Finding.Refused("strip-radius-too-tight", subject.Sheet.Id, radius, least);
        return subject.Sheet.MinimumRadius is null ? finding : finding.From(subject.Sheet.Source);
    }

    private static Finding Edge(JointCase subject)
    {
        if (!IsStrip(subject))
            return Finding.NotConcerned;

        bool straightEdge = subject.Joint.Type is JointType.Lap or JointType.PinchWeld && subject.Joint.Radius is null;
        return subject.Joint.Type == JointType.Hem || straightEdge
            ? Finding.Fine("strip-on-edge", subject.Sheet.Id, subject.Joint.Type)
            : Finding.Refused("strip-only-on-edges", subject.Sheet.Id, subject.Joint.Type);
    }

    private static Finding Laying(JointCase subject)
    {
        if (!IsStrip(subject))
            return Finding.NotConcerned;

        return subject.Joint.Drains > 0
            ? Finding.Advice("strip-laid-unstretched-drains", subject.Sheet.Id, subject.Joint.Drains)
            : Finding.Advice("strip-laid-unstretched", subject.Sheet.Id);
    }

    private static bool IsStrip(JointCase subject) => subject.Sheet.Use == MaterialUse.SeamTape;
}
