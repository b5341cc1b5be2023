using System.Collections.Immutable;
using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class LotTests
{
    private static readonly ConsumableId Paste = new("paste");

    private static Lot Lot(string id, int amount, Window usable, long cost = 0, string? unlock = null) => new()
    {
        Id = new LotId(id),
        Serves = [Paste],
        Amount = amount,
        Usable = usable,
        Cost = cost,
        Unlock = unlock is null ? null : new UnlockId(unlock),
    };

    private static Project Project(ImmutableArray<Lot> lots, params Activity[] activities) => new()
    {
        Horizon = 200,
        Consumables = [new Consumable(Paste)],
        Unlocks = [new Unlock(new UnlockId("delivery"), 30)],
        Lots = lots,
        Activities = [.. activities],
    };

    private static Activity Uses(string id, int amount) => Activity(id, Alone("m", 10) with { Consumes = [new Consumption(Paste, amount)] });

    [Fact]
    public void A_lot_serves_only_while_it_is_usable() =>
        Assert.Equal(50, Solved(Project([Lot("late", 10, new Window(48, 300))], Uses("a", 5)), Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);

    [Fact]
    public void Too_little_is_infeasible() =>
        Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(Project([Lot("small", 9, new Window(0, 300))], Uses("a", 5), Uses("b", 5))));

    [Fact]
    public void Several_lots_cover_one_consumption_together()
    {
        Outcome.Optimal outcome = Solved(Project([Lot("x", 3, new Window(0, 300)), Lot("y", 4, new Window(0, 300))], Uses("a", 6)));

        Assert.Equal(6, outcome.Schedule.Covers.Sum(c => c.Amount));
    }

    [Fact]
    public void A_delivery_is_paid_once_for_all_its_lots()
    {
        // 5 are free, 10 are needed: delivery 30 + the cheaper lot that suffices (4).
        Project project = Project(
            [Lot("free", 5, new Window(0, 300)), Lot("big", 20, new Window(0, 300), 9, "delivery"), Lot("small", 5, new Window(0, 300), 4, "delivery")],
            Uses("a", 5), Uses("b", 5));

        Outcome.Optimal outcome = Solved(project);

        Assert.Equal(34, outcome.Schedule.Cost);
        Assert.Equal([new UnlockId("delivery")], outcome.Schedule.Unlocked);
    }

    [Fact]
    public void Waiting_for_a_free_lot_is_weighed_against_paying()
    {
        // Free from 100 on; a charge of 20 falls due at 50. Paying costs 30 + 1, waiting 20.
        Project project = Project([Lot("free", 5, new Window(100, 300)), Lot("paid", 5, new Window(0, 300), 1, "delivery")], Uses("a", 5)) with
        {
            Charges = [new Charge { Activity = new ActivityId("a"), Edge = Edge.Start, Amount = new StepFunction([new Step(50, 20)]) }],
        };

        Assert.Equal(20, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void A_lot_that_serves_two_things_is_kept_for_the_one_without_another()
    {
        // The first lot serves both, the second only paste; glue needs all of the first.
        ConsumableId glue = new("glue");
        Project project = Project([Lot("both", 5, new Window(0, 300)) with { Serves = [Paste, glue] }, Lot("paste", 5, new Window(0, 300))], Uses("a", 5)) with
        {
            Consumables = [new Consumable(Paste), new Consumable(glue)],
            Activities = [Uses("a", 5), Activity("b", Alone("m", 10) with { Consumes = [new Consumption(glue, 5)] })],
        };

        Assert.Equal(new LotId("both"), Solved(project).Schedule.Covers.Single(c => c.Consumable == glue).Lot);
    }
}
