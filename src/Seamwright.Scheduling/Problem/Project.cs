using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>
/// A project-scheduling problem: activities in modes, renewable resources with calendars, serial batches, time lags,
/// dated lots and money. Time is whole minutes from an origin that the caller chooses.
/// </summary>
/// <remarks><see cref="ProblemValidator"/> says what is wrong with one; the solver refuses a project with mistakes.</remarks>
public sealed record Project
{
    /// <summary>Everything ends at or before this minute. [minutes, 1..40 000]</summary>
    public required int Horizon { get; init; }

    /// <summary>Starts are multiples of this. [minutes, 1..1440] Default 5.</summary>
    public int StartStep { get; init; } = 5;

    /// <summary>Renewable resources.</summary>
    public ImmutableArray<Resource> Resources { get; init; } = [];

    /// <summary>What can be used up.</summary>
    public ImmutableArray<Consumable> Consumables { get; init; } = [];

    /// <summary>Supplies of consumables.</summary>
    public ImmutableArray<Lot> Lots { get; init; } = [];

    /// <summary>What makes lots available.</summary>
    public ImmutableArray<Unlock> Unlocks { get; init; } = [];

    /// <summary>What is to be done.</summary>
    public ImmutableArray<Activity> Activities { get; init; } = [];

    /// <summary>Batches that modes may join.</summary>
    public ImmutableArray<Batch> Batches { get; init; } = [];

    /// <summary>Minimum and maximum time lags.</summary>
    public ImmutableArray<Lag> Lags { get; init; } = [];

    /// <summary>Start windows that depend on another activity's mode.</summary>
    public ImmutableArray<ConditionalWindow> ConditionalWindows { get; init; } = [];

    /// <summary>Money that depends on time.</summary>
    public ImmutableArray<Charge> Charges { get; init; } = [];
}
