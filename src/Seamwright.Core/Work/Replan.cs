using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Work;

/// <summary>A plan that people work by: what is needed of it to say what a new one changes.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Repair">Repair that it is for.</param>
/// <param name="InputHash">Hash of what it was made from.</param>
/// <param name="Slot">Paint slot.</param>
/// <param name="ReadyForPaint">When paint may go on.</param>
/// <param name="HandOver">When the vehicle can be handed over.</param>
/// <param name="Total">Its total.</param>
/// <param name="Steps">Its steps.</param>
/// <param name="PackUses">What it takes from which pack.</param>
/// <param name="Orders">What it orders.</param>
public sealed record AnnouncedPlan(
    string Id,
    string Repair,
    string InputHash,
    Instant Slot,
    Instant ReadyForPaint,
    Instant HandOver,
    Money Total,
    ImmutableArray<Step> Steps,
    ImmutableArray<PackUse> PackUses,
    ImmutableArray<OrderLine> Orders)
{
    /// <summary>A plan as it is announced.</summary>
    public static AnnouncedPlan Of(RepairInput input, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(plan);
        return new(plan.Id, input.Repair.Id, plan.InputHash, plan.Slot, plan.ReadyForPaint, plan.ReadyForDelivery, plan.Cost.Total, plan.Steps, plan.PackUses, plan.Orders);
    }

    /// <summary>A plan made again as it is announced: with what is done, so that a log that is read once more finds it.</summary>
    public static AnnouncedPlan Of(Replan replan)
    {
        ArgumentNullException.ThrowIfNull(replan);
        var plan = replan.Plan ?? throw new ArgumentException("There is no plan to announce.", nameof(replan));
        var next = Of(replan.Input, plan);
        return next with
        {
            Total = replan.SpentSoFar + plan.Cost.Total,
            Steps = [.. replan.Standing.Select(work => work.Step), .. next.Steps],
            PackUses = [.. replan.Standing.SelectMany(Uses), .. next.PackUses],
            Orders = [.. replan.Placed, .. next.Orders],
        };

        static IEnumerable<PackUse> Uses(StandingWork work) => work.Packs.Select(take => new PackUse(
            work.Step.Id, take.Pack, work.Step.Material ?? new MaterialId(""), "", take.Amount, take.Strip, take.Nozzles, Volume.Zero, Length.Zero, Ordered: false, null));
    }
}

/// <summary>Where a piece of work stands.</summary>
public enum WorkState
{
    /// <summary>Done.</summary>
    Done,

    /// <summary>Begun; its end is expected.</summary>
    Running,

    /// <summary>Done, and then lost: a check failed and it is made anew.</summary>
    Lost,
}

/// <summary>Work that the log knows.</summary>
/// <param name="State">Where it stands.</param>
/// <param name="Step">As it happened; the end of running work is expected.</param>
/// <param name="Announced">As it was announced; null = it was not.</param>
/// <param name="Packs">What it took.</param>
public sealed record StandingWork(WorkState State, Step Step, Step? Announced, ImmutableArray<Taken> Packs);

/// <summary>How announced work changes.</summary>
public enum MoveKind
{
    /// <summary>Another time on the same day; costs nothing.</summary>
    OtherTime,

    /// <summary>Another day.</summary>
    OtherDay,

    /// <summary>Another person, on the same day.</summary>
    OtherPerson,

    /// <summary>Another material, at the announced time.</summary>
    OtherMaterial,

    /// <summary>New work.</summary>
    Added,

    /// <summary>No longer done.</summary>
    Dropped,
}

/// <summary>A change of announced work.</summary>
/// <param name="Kind">What changes.</param>
/// <param name="Work">Kind of work.</param>
/// <param name="Places">Places; empty = the whole vehicle.</param>
/// <param name="Before">As announced; null where it is new.</param>
/// <param name="After">As planned now; null where it is no longer done.</param>
/// <param name="Price">Stated price of the move.</param>
/// <param name="Why">Entries of the log without which it would stay, or another reason.</param>
public sealed record Move(MoveKind Kind, StepKind Work, ImmutableArray<PlaceId> Places, Step? Before, Step? After, Money Price, ImmutableArray<Reason> Why);

/// <summary>A promise and what becomes of it.</summary>
/// <param name="IsSlot">True for the paint slot, false for the hand-over.</param>
/// <param name="Before">As announced.</param>
/// <param name="After">As planned now.</param>
/// <param name="Kept">Whether it counts as kept.</param>
/// <param name="Price">Price of moving it; zero where it is kept.</param>
public sealed record PromiseChange(bool IsSlot, Instant Before, Instant After, bool Kept, Money Price);

/// <summary>The answer to facts that changed: what is done, what is planned from now on, what moves and why.</summary>
public sealed record Replan
{
    /// <summary>The plan that people worked by.</summary>
    public required AnnouncedPlan Before { get; init; }

    /// <summary>The repair, shop, stock and air as they are now.</summary>
    public required RepairInput Input { get; init; }

    /// <summary>Work that is done, under way or lost, by start.</summary>
    public required ImmutableArray<StandingWork> Standing { get; init; }

    /// <summary>Orders of the plan before that the log says were placed as announced.</summary>
    public required ImmutableArray<OrderLine> Placed { get; init; }

    /// <summary>What the work so far has cost: labour, material, nozzles, lamps, deliveries.</summary>
    public required Money SpentSoFar { get; init; }

    /// <summary>Plan of everything still to do; null where none is possible.</summary>
    public Plan? Plan { get; init; }

    /// <summary>What changes, by the new start.</summary>
    public ImmutableArray<Move> Moves { get; init; } = [];

    /// <summary>Announced work that stays as it is.</summary>
    public ImmutableArray<Step> Stays { get; init; } = [];

    /// <summary>Slot and hand-over.</summary>
    public ImmutableArray<PromiseChange> Promises { get; init; } = [];

    /// <summary>Price of all moves; part of what was made least, not of the bill.</summary>
    public Money PriceOfMoves { get; init; }

    /// <summary>Where no plan is possible: the facts that clash.</summary>
    public ImmutableArray<Conflict> Conflicts { get; init; } = [];

    /// <summary>What in the log cannot be; nothing is planned then.</summary>
    public ImmutableArray<Reason> Problems { get; init; } = [];
}
