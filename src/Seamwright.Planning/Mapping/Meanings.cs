using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>What an activity of the scheduling problem is on the car.</summary>
/// <param name="Kind">Kind of step; null = a decision or a moment without work of its own.</param>
/// <param name="Places">Joints, bonds, areas, cavities or operations.</param>
/// <param name="Sheet">Material where it does not depend on the mode.</param>
/// <param name="Amount">Volume applied.</param>
/// <param name="HeatTo">Panel temperature held.</param>
internal sealed record ActivityMeaning(
    StepKind? Kind,
    ImmutableArray<PlaceId> Places,
    DataSheet? Sheet = null,
    Volume Amount = default,
    Temperature? HeatTo = null);

/// <summary>What choosing a mode means.</summary>
/// <param name="Person">Who does it; null = nobody.</param>
/// <param name="Option">The way a joint is done, for a joint's activity.</param>
/// <param name="Sheet">Material, where the mode chooses it.</param>
/// <param name="Slot">The paint slot, for painting.</param>
/// <param name="Nozzles">Further mixing nozzles that the mode takes into its session.</param>
/// <param name="Labour">Labour where it is shorter than the activity. [min]</param>
/// <param name="IsDone">True where choosing it means that work already done is used: no step.</param>
internal sealed record ModeMeaning(
    string? Person = null,
    JointOption? Option = null,
    DataSheet? Sheet = null,
    Instant? Slot = null,
    int? Labour = null,
    int Nozzles = 0,
    bool IsDone = false);

/// <summary>What a batch is: one session of one material.</summary>
/// <param name="Kind">Seal, prime or foam.</param>
/// <param name="Sheet">Material; null for work without one.</param>
/// <param name="Nozzles">Mixing nozzles the session starts with.</param>
/// <param name="Heat">Lamp use that belongs to it.</param>
internal sealed record BatchMeaning(StepKind Kind, DataSheet? Sheet, int Nozzles, HeatUse Heat);

/// <summary>How a lamp serves a session.</summary>
internal enum HeatUse
{
    /// <summary>No lamp.</summary>
    None,

    /// <summary>The lamp brings a cold panel into the sheet's application range.</summary>
    Before,

    /// <summary>The lamp speeds the cure.</summary>
    After,
}

/// <summary>A scheduling problem together with what its parts mean.</summary>
internal sealed record RepairProject(
    Project Project,
    Variation Variation,
    ImmutableDictionary<ActivityId, ActivityMeaning> Activities,
    ImmutableDictionary<(ActivityId, ModeId), ModeMeaning> Modes,
    ImmutableDictionary<BatchId, BatchMeaning> Batches,
    ImmutableDictionary<LotId, LotMeaning> Lots,
    MovePrices Moving);

/// <summary>What a lot of a consumable is.</summary>
/// <param name="Pack">The pack; null = nozzles or an order.</param>
/// <param name="Ordered">Material ordered; null for stock.</param>
/// <param name="NozzleRatio">Ratio the nozzles fit; null where it is not nozzles.</param>
internal sealed record LotMeaning(Pack? Pack, MaterialId? Ordered, string? NozzleRatio);
