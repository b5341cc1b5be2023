using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Something to be done in exactly one of its modes, if it is present at all.</summary>
public sealed record Activity
{
    /// <summary>Unique among the project's activities.</summary>
    public required ActivityId Id { get; init; }

    /// <summary>The ways of doing it; at least one.</summary>
    public required ImmutableArray<Mode> Modes { get; init; }

    /// <summary>Empty: always present. Otherwise present exactly when at least one of these triggers holds.</summary>
    public ImmutableArray<Trigger> PresentWhen { get; init; } = [];
}

/// <summary>A condition that makes an activity present.</summary>
public abstract record Trigger
{
    private Trigger()
    {
    }

    /// <summary>Holds when the activity is present in one of the modes.</summary>
    /// <param name="Activity">The activity looked at.</param>
    /// <param name="Modes">Some of its modes; empty means any.</param>
    public sealed record InMode(ActivityId Activity, ImmutableArray<ModeId> Modes) : Trigger;

    /// <summary>Holds when at least one activity chose the batch.</summary>
    /// <param name="Batch">The batch looked at.</param>
    public sealed record BatchUsed(BatchId Batch) : Trigger;
}
