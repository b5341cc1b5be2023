using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>An answer to a project: what is done how and when, by whom, from which lots, and what it costs.</summary>
public sealed class Schedule
{
    private readonly FrozenDictionary<ActivityId, PlannedActivity> activities;
    private readonly FrozenDictionary<BatchId, PlannedBatch> batches;

    /// <summary>Puts the parts together.</summary>
    /// <param name="activities">One entry per activity of the project.</param>
    /// <param name="batches">One entry per batch of the project.</param>
    /// <param name="covers">Which lot covers what.</param>
    /// <param name="unlocked">Unlocks paid for.</param>
    /// <param name="cost">Total cost. [whole money units]</param>
    public Schedule(
        ImmutableArray<PlannedActivity> activities,
        ImmutableArray<PlannedBatch> batches,
        ImmutableArray<Cover> covers,
        ImmutableArray<UnlockId> unlocked,
        long cost)
    {
        (Activities, Batches, Covers, Unlocked, Cost) = (activities, batches, covers, unlocked, cost);
        this.activities = activities.ToFrozenDictionary(a => a.Id);
        this.batches = batches.ToFrozenDictionary(b => b.Id);
    }

    /// <summary>One entry per activity, in the project's order.</summary>
    public ImmutableArray<PlannedActivity> Activities { get; }

    /// <summary>One entry per batch, in the project's order.</summary>
    public ImmutableArray<PlannedBatch> Batches { get; }

    /// <summary>Which lot covers how much of which consumption.</summary>
    public ImmutableArray<Cover> Covers { get; }

    /// <summary>Unlocks paid for, in the project's order.</summary>
    public ImmutableArray<UnlockId> Unlocked { get; }

    /// <summary>Total cost, computed from this schedule. [whole money units]</summary>
    public long Cost { get; }

    /// <summary>The entry of one activity.</summary>
    /// <param name="id">An activity of the project.</param>
    /// <exception cref="KeyNotFoundException">The schedule has no such activity.</exception>
    public PlannedActivity this[ActivityId id] => activities[id];

    /// <summary>The entry of one batch.</summary>
    /// <param name="id">A batch of the project.</param>
    /// <exception cref="KeyNotFoundException">The schedule has no such batch.</exception>
    public PlannedBatch this[BatchId id] => batches[id];

    /// <summary>The entry of one activity, or null if the schedule has none (it may belong to another project).</summary>
    /// <param name="id">Any activity id.</param>
    public PlannedActivity? Find(ActivityId id) => activities.GetValueOrDefault(id);

    /// <summary>The entry of one batch, or null if the schedule has none (it may belong to another project).</summary>
    /// <param name="id">Any batch id.</param>
    public PlannedBatch? Find(BatchId id) => batches.GetValueOrDefault(id);
}

/// <summary>What became of one activity.</summary>
/// <param name="Id">The activity.</param>
/// <param name="Present">False: it is not done, and the rest says nothing.</param>
/// <param name="Mode">The mode chosen, or none if absent.</param>
/// <param name="Start">[minutes from the origin; −1 if absent]</param>
/// <param name="End">[minutes from the origin; −1 if absent]</param>
/// <param name="Batch">The batch it is done in, or none.</param>
public sealed record PlannedActivity(ActivityId Id, bool Present, ModeId? Mode, int Start, int End, BatchId? Batch);

/// <summary>What became of one batch.</summary>
/// <param name="Id">The batch.</param>
/// <param name="Used">False: nobody chose it, and the rest says nothing.</param>
/// <param name="Crew">Who does it, or none if unused or if it needs nobody.</param>
/// <param name="Start">[minutes from the origin; −1 if unused]</param>
/// <param name="End">[minutes from the origin; −1 if unused]</param>
public sealed record PlannedBatch(BatchId Id, bool Used, CrewId? Crew, int Start, int End);

/// <summary>A part of one consumption taken from one lot.</summary>
/// <param name="Lot">Where it comes from.</param>
/// <param name="Consumable">What the consumer asked for.</param>
/// <param name="Activity">The consuming activity, or none if a batch consumes by itself.</param>
/// <param name="Batch">The consuming batch, or none if an activity consumes.</param>
/// <param name="Amount">[whole units, 1 or more]</param>
public sealed record Cover(LotId Lot, ConsumableId Consumable, ActivityId? Activity, BatchId? Batch, int Amount);
