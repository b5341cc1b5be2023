using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>One way of doing an activity: either on its own, or as a member of a batch.</summary>
/// <remarks>
/// A mode with a <see cref="Batch"/> has no time of its own (batch availability): the activity starts and ends with the batch.
/// </remarks>
public sealed record Mode
{
    /// <summary>Unique among the activity's modes.</summary>
    public required ModeId Id { get; init; }

    /// <summary>Length of the activity in this mode; 0 when the mode has a batch. [minutes, 0 or more]</summary>
    public int Duration { get; init; }

    /// <summary>Resources occupied from start to end; empty when the mode has a batch (its crew has the demands).</summary>
    public ImmutableArray<Demand> Demands { get; init; } = [];

    /// <summary>Paid when the mode is chosen. [whole money units, may be negative]</summary>
    public long Cost { get; init; }

    /// <summary>Allowed starts, ascending, not overlapping; empty means any. With a batch they restrict the start of the batch.</summary>
    public ImmutableArray<Window> Starts { get; init; } = [];

    /// <summary>The batch that the activity joins by choosing this mode, or none.</summary>
    public BatchId? Batch { get; init; }

    /// <summary>What the activity adds to the length of the batch; 0 without a batch. [minutes, 0 or more]</summary>
    public int Work { get; init; }

    /// <summary>
    /// What the activity adds to the load of its batch (<see cref="Scheduling.Batch.MaxLoad"/>); negative where it makes room,
    /// such as a further container.
    /// </summary>
    public int Load { get; init; }

    /// <summary>What is consumed, at the start of the activity.</summary>
    public ImmutableArray<Consumption> Consumes { get; init; } = [];
}
