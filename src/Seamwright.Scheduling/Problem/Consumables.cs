using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Something that is used up (a non-renewable resource); it comes in dated lots.</summary>
/// <param name="Id">Unique among the project's consumables.</param>
public sealed record Consumable(ConsumableId Id);

/// <summary>An amount that a mode or batch uses up at its start; several lots may cover it together.</summary>
/// <param name="Consumable">A consumable of the project.</param>
/// <param name="Amount">Whole units of the consumable. [0 or more]</param>
public readonly record struct Consumption(ConsumableId Consumable, int Amount);

/// <summary>A dated supply: serves consumption that starts inside its usable window.</summary>
public sealed record Lot
{
    /// <summary>Unique among the project's lots.</summary>
    public required LotId Id { get; init; }

    /// <summary>What it can stand for; at least one consumable.</summary>
    public required ImmutableArray<ConsumableId> Serves { get; init; }

    /// <summary>How much there is, over all consumables it serves. [whole units, 0 or more]</summary>
    public required int Amount { get; init; }

    /// <summary>The consuming activity or batch must start inside it.</summary>
    public required Window Usable { get; init; }

    /// <summary>What must be paid for before the lot can be used, or nothing.</summary>
    public UnlockId? Unlock { get; init; }

    /// <summary>Paid once if any of the lot is used. [whole money units, 0 or more]</summary>
    public long Cost { get; init; }
}

/// <summary>Makes one or several lots available, for example a delivery; paid once if any of its lots is used.</summary>
/// <param name="Id">Unique among the project's unlocks.</param>
/// <param name="Cost">Paid once. [whole money units, 0 or more]</param>
public sealed record Unlock(UnlockId Id, long Cost);
