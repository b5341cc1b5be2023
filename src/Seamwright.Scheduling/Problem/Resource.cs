using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>A renewable resource with a calendar: people, a bay, a machine.</summary>
public sealed record Resource
{
    /// <summary>Unique among the project's resources.</summary>
    public required ResourceId Id { get; init; }

    /// <summary>Units available at every open minute. [1 or more] Default 1.</summary>
    public int Capacity { get; init; } = 1;

    /// <summary>
    /// Open windows, ascending, not overlapping. Work that demands the resource lies wholly inside one of them:
    /// it is never split, not even between two windows that touch (they stand for two shifts).
    /// </summary>
    public required ImmutableArray<Window> Open { get; init; }
}

/// <summary>How much of a resource some work occupies from its start to its end.</summary>
/// <param name="Resource">A resource of the project.</param>
/// <param name="Units">Units occupied. [1..capacity]</param>
public readonly record struct Demand(ResourceId Resource, int Units = 1);
