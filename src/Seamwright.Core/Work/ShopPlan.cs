using System.Collections.Immutable;
using NodaTime;
using Seamwright.Units;

namespace Seamwright.Work;

/// <summary>Plans of all vehicles of a shop, made together on its people, bays, booth, lamps and stock.</summary>
public sealed record ShopPlan
{
    /// <summary>One entry per vehicle, in the order given.</summary>
    public required ImmutableArray<VehiclePlan> Vehicles { get; init; }

    /// <summary>Sum over the vehicles that have a plan; one delivery brings everything ordered, so its price counts once.</summary>
    public required Money Total { get; init; }

    /// <summary>Proven: no plan for the same vehicles costs less.</summary>
    public required Money LowerBound { get; init; }

    /// <summary>How long the search took until nothing better was found or the time was over.</summary>
    public required Duration Elapsed { get; init; }

    /// <summary>After how long the first plan for all vehicles stood.</summary>
    public required Duration FirstAfter { get; init; }

    /// <summary>Share by which the plan may be dearer than the best one. [0..1]</summary>
    public double Gap => Total.Amount <= 0 ? 0 : (double)((Total.Amount - LowerBound.Amount) / Total.Amount);

    /// <summary>True where no plan is cheaper, to the rounding of the search.</summary>
    public bool ProvenOptimal => Total.Amount - LowerBound.Amount < 0.01m;
}

/// <summary>One vehicle of a shop's plan.</summary>
/// <param name="Input">What it is planned from.</param>
/// <param name="Plan">Its plan; null where it finds no place.</param>
/// <param name="Alone">Least cost if it had the shop to itself; null where it has no plan even then, or time was over before it was known.</param>
/// <param name="Conflicts">Why it has no plan at all; empty where others stand in its way or it has one.</param>
public sealed record VehiclePlan(RepairInput Input, Plan? Plan, Money? Alone, ImmutableArray<Conflict> Conflicts)
{
    /// <summary>What sharing the shop costs this vehicle; null where it has no plan.</summary>
    public Money? PriceOfSharing => Plan is { } plan && Alone is { } alone ? plan.Cost.Total - alone : null;

    /// <summary>Handed over after the promise.</summary>
    public bool IsLate => Plan is { } plan && plan.ReadyForDelivery > Input.Repair.Promise;
}

/// <summary>How far the search for a shop's plan has come.</summary>
/// <param name="Elapsed">Since it began.</param>
/// <param name="Placed">Vehicles that have a plan.</param>
/// <param name="Vehicles">All vehicles.</param>
/// <param name="Total">Cost of the plans so far.</param>
/// <param name="LowerBound">Proven lower bound for all vehicles; null while it is not known.</param>
public sealed record ShopProgress(Duration Elapsed, int Placed, int Vehicles, Money Total, Money? LowerBound);
