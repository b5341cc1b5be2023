using System.Collections.Immutable;
using NodaTime;
using Seamwright.Costs;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Work;

/// <summary>What a plan optimises.</summary>
public enum PlanAim
{
    /// <summary>Least money, time included; ties by earliest ready.</summary>
    Recommended,

    /// <summary>Least spending, whatever the time; ties by earliest ready.</summary>
    Cheapest,

    /// <summary>Earliest ready for paint; ties by least money.</summary>
    Fastest,
}

/// <summary>Materials chosen and steps timed for one repair. Immutable; a new fact makes a new plan that names its parent.</summary>
public sealed record Plan
{
    /// <summary>Identity derived from inputs, aim, seed and engine version: equal inputs give the equal id.</summary>
    public required string Id { get; init; }

    /// <summary>Plan that this one replaces; null = the first.</summary>
    public string? ParentId { get; init; }

    /// <summary>SHA-256 over everything read.</summary>
    public required string InputHash { get; init; }

    /// <summary>Seed of the search.</summary>
    public required int Seed { get; init; }

    /// <summary>Version of the planning engine.</summary>
    public required string EngineVersion { get; init; }

    /// <summary>What was optimised.</summary>
    public required PlanAim Aim { get; init; }

    /// <summary>True where the search proved that no plan is better for the aim.</summary>
    public required bool ProvenOptimal { get; init; }

    /// <summary>Proven lower bound of the total; equals the total where optimal.</summary>
    public required Money LowerBound { get; init; }

    /// <summary>Decision for each joint, in the repair's order.</summary>
    public required ImmutableArray<JointPlan> Joints { get; init; }

    /// <summary>Steps by start time, then by end.</summary>
    public required ImmutableArray<Step> Steps { get; init; }

    /// <summary>What to take from which pack, in order of use.</summary>
    public required ImmutableArray<PackUse> PackUses { get; init; }

    /// <summary>What to order, by latest order time.</summary>
    public required ImmutableArray<OrderLine> Orders { get; init; }

    /// <summary>What to mix, in order of use.</summary>
    public required ImmutableArray<Mix> Mixes { get; init; }

    /// <summary>When paint may go on everywhere.</summary>
    public required Instant ReadyForPaint { get; init; }

    /// <summary>Paint slot taken.</summary>
    public required Instant Slot { get; init; }

    /// <summary>When the vehicle can be handed over.</summary>
    public required Instant ReadyForDelivery { get; init; }

    /// <summary>What the vehicle waits for, from first to last; empty = nothing.</summary>
    public required ImmutableArray<Holdup> HeldUpBy { get; init; }

    /// <summary>Cost by kind.</summary>
    public required CostBreakdown Cost { get; init; }

    /// <summary>Things to know: bridged climate, extrapolation, tight work times, advice that applies to the chosen way.</summary>
    public required ImmutableArray<Reason> Warnings { get; init; }

    /// <summary>Safety lines of the materials used, and whose word comes first.</summary>
    public required ImmutableArray<Reason> Cautions { get; init; }
}

/// <summary>The decision for one joint.</summary>
public sealed record JointPlan
{
    /// <summary>The joint.</summary>
    public required PlaceId Joint { get; init; }

    /// <summary>Material; null = nothing is applied.</summary>
    public MaterialId? Material { get; init; }

    /// <summary>What is done to the surface first.</summary>
    public Preparation Preparation { get; init; }

    /// <summary>Volume with loss; zero for a strip.</summary>
    public Volume Amount { get; init; }

    /// <summary>Strip with end allowances; zero for a paste.</summary>
    public Length StripLength { get; init; }

    /// <summary>Start and end of its session; null where nothing is applied.</summary>
    public Interval? Applied { get; init; }

    /// <summary>When its next layer (paint) may go on; null where nothing waits.</summary>
    public Instant? Ready { get; init; }

    /// <summary>After this the seam must be abraded again before paint; null = no limit.</summary>
    public Instant? PaintBy { get; init; }

    /// <summary>Latest end of application with which this joint still makes the slot; null where nothing waits.</summary>
    public Instant? ApplyBy { get; init; }

    /// <summary>True where a lamp warms it.</summary>
    public bool Heated { get; init; }

    /// <summary>True where the times lie outside the temperatures that the sheet states.</summary>
    public bool Extrapolates { get; init; }

    /// <summary>Why this material, shortest first.</summary>
    public required ImmutableArray<Reason> Why { get; init; }

    /// <summary>Every material of the shop on this joint: verdicts and consequence. In the order of the sheets.</summary>
    public ImmutableArray<MaterialAnswer> Answers { get; init; } = [];

    /// <summary>Best other material; null = there is none.</summary>
    public MaterialId? RunnerUp { get; init; }
}

/// <summary>What another (or the chosen) material would mean on a joint.</summary>
/// <param name="Material">The material.</param>
/// <param name="Overall">Worst verdict.</param>
/// <param name="Verdicts">All verdicts of the best preparation, fine ones too.</param>
/// <param name="Preparation">Preparation judged.</param>
/// <param name="Consequence">What choosing it would change; null where refused.</param>
public sealed record MaterialAnswer(
    MaterialId Material,
    VerdictKind Overall,
    ImmutableArray<Verdict> Verdicts,
    Preparation Preparation,
    Consequence? Consequence);

/// <summary>What changes when a joint takes another material.</summary>
/// <param name="Ready">When the vehicle would be ready for paint.</param>
/// <param name="ReadyShift">Against the plan; positive = later.</param>
/// <param name="CostShift">Against the plan's total; positive = dearer.</param>
/// <param name="Slot">Paint slot that would be taken; null = none offered is reached.</param>
/// <param name="Resolved">True where everything else was planned again; false where the rest was kept as it is.</param>
public sealed record Consequence(Instant Ready, Duration ReadyShift, Money CostShift, Instant? Slot, bool Resolved);

/// <summary>Something the vehicle waits for.</summary>
/// <param name="Place">Joint, bond or operation; null = a delivery or the slot itself.</param>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="Reason">What it is, in words.</param>
public sealed record Holdup(PlaceId? Place, Instant From, Instant To, Reason Reason);

/// <summary>Material taken from a pack for a step.</summary>
/// <param name="StepId">Step that uses it.</param>
/// <param name="Pack">Pack.</param>
/// <param name="Material">Its sheet.</param>
/// <param name="Lot">Lot; empty = unknown.</param>
/// <param name="Amount">Volume taken, nozzle hold-up and purge included.</param>
/// <param name="StripLength">Strip taken.</param>
/// <param name="Nozzles">Fresh nozzles fitted to it.</param>
/// <param name="Left">Volume left afterwards.</param>
/// <param name="StripLeft">Strip left afterwards.</param>
/// <param name="Ordered">True where the pack is to be ordered first.</param>
/// <param name="LeftUsableUntil">Until when the rest may be used; null = no limit stated.</param>
public sealed record PackUse(
    string StepId,
    PackId Pack,
    MaterialId Material,
    string Lot,
    Volume Amount,
    Length StripLength,
    int Nozzles,
    Volume Left,
    Length StripLeft,
    bool Ordered,
    Instant? LeftUsableUntil);

/// <summary>Something to order.</summary>
/// <param name="What">Material; null = mixing nozzles.</param>
/// <param name="Count">Packs or nozzles.</param>
/// <param name="Price">Price of all of them, without delivery.</param>
/// <param name="OrderBy">Latest order time.</param>
/// <param name="Arrives">Arrival when ordered as planned.</param>
/// <param name="For">Joints and places it is for.</param>
public sealed record OrderLine(MaterialId? What, int Count, Money Price, Instant OrderBy, Instant Arrives, ImmutableArray<PlaceId> For);

/// <summary>Components to mix in a pot.</summary>
/// <param name="StepId">Step that uses it.</param>
/// <param name="Material">Sheet.</param>
/// <param name="Total">Ready mix.</param>
/// <param name="Base">Base by volume.</param>
/// <param name="Hardener">Hardener by volume.</param>
/// <param name="BaseMass">Base by weight; null where the sheet states no densities.</param>
/// <param name="HardenerMass">Hardener by weight.</param>
/// <param name="UseBy">End of the pot life when mixed at the start of its step.</param>
public sealed record Mix(
    string StepId,
    MaterialId Material,
    Volume Total,
    Volume Base,
    Volume Hardener,
    Mass? BaseMass,
    Mass? HardenerMass,
    Instant? UseBy);

/// <summary>The whole answer for one repair.</summary>
public sealed record PlanAnswer
{
    /// <summary>The recommended plan; null where none is possible.</summary>
    public Plan? Recommended { get; init; }

    /// <summary>The plan of least spending; null where none is possible.</summary>
    public Plan? Cheapest { get; init; }

    /// <summary>The plan that is ready first; null where none is possible.</summary>
    public Plan? Fastest { get; init; }

    /// <summary>Decisions worth a line of their own: a lamp or a delivery against what it saves.</summary>
    public ImmutableArray<Tradeoff> Tradeoffs { get; init; } = [];

    /// <summary>Where no plan is possible: independent conflicts, each to be resolved once; empty otherwise.</summary>
    public ImmutableArray<Conflict> Conflicts { get; init; } = [];
}

/// <summary>Money spent on speed against what it saves, from planning again without it.</summary>
/// <param name="Kind">What is bought.</param>
/// <param name="Spent">What it costs.</param>
/// <param name="Saved">Bay time and lateness that it saves.</param>
/// <param name="TotalShift">How much dearer the best plan without it is; positive.</param>
/// <param name="SlotWithout">Slot without it; null = no slot.</param>
public sealed record Tradeoff(TradeoffKind Kind, Money Spent, Money Saved, Money TotalShift, Instant? SlotWithout);

/// <summary>What is bought for speed.</summary>
public enum TradeoffKind
{
    /// <summary>A delivery at short notice.</summary>
    Delivery,

    /// <summary>A heat lamp.</summary>
    Lamp,
}

/// <summary>Facts that together leave no plan. Changing any one of them resolves this conflict.</summary>
/// <param name="Facts">The facts, each with its place and what would be right.</param>
public sealed record Conflict(ImmutableArray<Fact> Facts);

/// <summary>A fact of the input that takes part in a conflict.</summary>
/// <param name="Id">Stable name of the fact, for example <c>J1/surface.etch</c> or <c>slots</c>.</param>
/// <param name="Place">Joint or place; null = the whole repair.</param>
/// <param name="Reason">The fact in words.</param>
public sealed record Fact(string Id, PlaceId? Place, Reason Reason);
