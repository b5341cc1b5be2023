using System.Collections.Immutable;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Units;

namespace Seamwright.Suitability.Rules;

/// <summary>Position: what sags, and what only lies level.</summary>
internal static class PositionRules
{
    /// <summary>Where a self-levelling sheet states no tilt. Customary; no published source.</summary>
    internal static readonly Angle CustomaryTilt = Angle.FromDegrees(3);

    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("position.vertical", Sources.CommonPractice, Vertical),
        new("position.overhead", Sources.CommonPractice, Overhead),
        new("position.level-only", Sources.CommonPractice, LevelOnly),
        new("position.vehicle-tilt", Sources.CommonPractice, VehicleTilt),
    ];

    private static Finding Vertical(JointCase subject) =>
        subject.Joint.Position is Position.Vertical or Position.Inclined
            ? Sag(subject, subject.Sheet.SagVertical, overhead: false)
            : Finding.NotConcerned;

    private static Finding Overhead(JointCase subject) =>
        subject.Joint.Position == Position.Overhead ? Sag(subject, subject.Sheet.SagOverhead, overhead: true) : Finding.NotConcerned;

    private static Finding Sag(JointCase subject, Length? limit, bool overhead)
    {
        // A strip does not flow and a self-levelling grade is judged by its own rule.
        if (subject.Sheet.Use == Materials.MaterialUse.SeamTape || subject.Sheet.LevelOnly || subject.Joint.IsBare)
            return Finding.NotConcerned;

        var height = Beads.Thickness(subject.Joint.Look);
        if (limit is not { } stands)
            return Finding.Advice(overhead ? "sag-not-stated-overhead" : "sag-not-stated-vertical", subject.Sheet.Id, height);

        return height <= stands
            ? Finding.Fine(overhead ? "stays-put-overhead" : "stays-put-vertical", subject.Sheet.Id, height, stands).From(subject.Sheet.Source)
            : Finding.Refused(overhead ? "sags-overhead" : "sags-vertical", subject.Sheet.Id, height, stands).From(subject.Sheet.Source);
    }

    private static Finding LevelOnly(JointCase subject)
    {
        if (!subject.Sheet.LevelOnly)
            return Finding.NotConcerned;

        var limit = subject.Sheet.MaximumTilt ?? CustomaryTilt;
        var own = subject.Joint.Tilt ?? Angle.Zero;
        if (subject.Joint.Position != Position.Level)
            return Finding.Refused("levels-itself-not-level", subject.Sheet.Id, subject.Joint.Position, limit).From(subject.Sheet.Source);

        return own <= limit
            ? Finding.Fine("levels-itself-level", subject.Sheet.Id, own, limit).From(subject.Sheet.Source)
            : Finding.Refused("levels-itself-tilted", subject.Sheet.Id, own, limit).From(subject.Sheet.Source);
    }

    private static Finding VehicleTilt(JointCase subject)
    {
        if (!subject.Sheet.LevelOnly)
            return Finding.NotConcerned;

        var limit = subject.Sheet.MaximumTilt ?? CustomaryTilt;
        var vehicle = subject.Repair.VehicleTilt ?? Angle.Zero;
        if (vehicle <= limit)
            return Finding.Fine("vehicle-level-enough", subject.Sheet.Id, vehicle, limit).From(subject.Sheet.Source);

        return subject.Repair.CanBeLevelled
            ? Finding.Advice("bring-vehicle-level", subject.Sheet.Id, vehicle, limit, subject.Shop.Times.Level).From(subject.Sheet.Source)
            : Finding.Refused("vehicle-cannot-be-levelled", subject.Sheet.Id, vehicle, limit).From(subject.Sheet.Source);
    }
}
