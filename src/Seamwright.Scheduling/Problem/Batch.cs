using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>
/// A serial batch with set-up (s-batch): its members are worked one after the other and all start and end with the batch.
/// It is used exactly when some activity chooses it, and lasts <see cref="Setup"/> plus the work of its members.
/// </summary>
public sealed record Batch
{
    /// <summary>Unique among the project's batches.</summary>
    public required BatchId Id { get; init; }

    /// <summary>Part of the length that does not depend on the members. [minutes, 0 or more]</summary>
    public int Setup { get; init; }

    /// <summary>Who may do it: exactly one crew does a used batch. Empty means that it needs nobody.</summary>
    public ImmutableArray<Crew> Crews { get; init; } = [];

    /// <summary>Paid once if the batch is used. [whole money units, may be negative]</summary>
    public long Cost { get; init; }

    /// <summary>What is consumed once, at the start, if the batch is used.</summary>
    public ImmutableArray<Consumption> Consumes { get; init; } = [];

    /// <summary>Allowed starts, ascending, not overlapping; empty means any.</summary>
    public ImmutableArray<Window> Starts { get; init; } = [];

    /// <summary>If given, the batch ends no later than this function of its start, for example a limit on its length.</summary>
    public TimeFunction? LatestEnd { get; init; }

    /// <summary>If given, the most work (without set-up) that fits. [minutes, 0 or more]</summary>
    public int? MaxWork { get; init; }

    /// <summary>If given, the most load of all members together: a capacity beside time, such as the content of one container. [0 or more]</summary>
    public int? MaxLoad { get; init; }

    /// <summary>
    /// Batches that name the same group are interchangeable: equal in everything but id and order, including the modes that
    /// join them and the lags and triggers that mention them (the validator compares). The solver then uses them in order.
    /// </summary>
    public string? SymmetryGroup { get; init; }

    /// <summary>Place inside <see cref="SymmetryGroup"/>: a later one is used only if the earlier one is, and does not start sooner.</summary>
    public int SymmetryIndex { get; init; }
}

/// <summary>Who does a batch.</summary>
public sealed record Crew
{
    /// <summary>Unique among the batch's crews.</summary>
    public required CrewId Id { get; init; }

    /// <summary>Resources occupied while the batch lasts; it lies inside one open window of each.</summary>
    public ImmutableArray<Demand> Demands { get; init; } = [];

    /// <summary>Paid for each minute of the batch. [whole money units a minute, 0 or more]</summary>
    public long CostPerMinute { get; init; }

    /// <summary>Paid once if this crew does the batch. [whole money units, may be negative]</summary>
    public long Cost { get; init; }
}
