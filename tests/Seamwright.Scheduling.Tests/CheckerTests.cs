using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

/// <summary>The checker is trusted by every other test, so each kind of violation is shown to it once.</summary>
public sealed class CheckerTests
{
    private static readonly ConsumableId Paste = new("paste");
    private static readonly BatchId X = new("x");

    private static readonly Project Small = new()
    {
        Horizon = 200,
        Resources = [Resource("person", new Window(0, 60), new Window(90, 200))],
        Consumables = [new Consumable(Paste)],
        Unlocks = [new Unlock(new UnlockId("delivery"), 7)],
        Lots = [new Lot { Id = new LotId("lot"), Serves = [Paste], Amount = 5, Usable = new Window(0, 100), Unlock = new UnlockId("delivery"), Cost = 2 }],
        Batches = [new Batch { Id = X, Setup = 5, Cost = 10, Crews = [Crew("one", "person", 1)], MaxWork = 20, LatestEnd = TimeFunction.Shift(25) }],
        Activities =
        [
            Activity("a", In("x", 15, 1) with { Consumes = [new Consumption(Paste, 5)] }),
            Activity("b", Alone("m", 10, 3, "person", new Window(20, 100)), Alone("n", 20, 9, "person")),
            Activity("c", Alone("m", 0)) with { PresentWhen = [new Trigger.InMode(new ActivityId("b"), Modes("n"))] },
        ],
        Lags = [Lag(EndOf("a"), StartOf("b"), 10), Lag(EndOf("a"), StartOf("b"), 80, LagKind.Maximum)],
        Charges = [new Charge { Activity = new ActivityId("b"), Edge = Edge.Start, Amount = new StepFunction([new Step(25, 4), new Step(150, 6)]) }],
    };

    // a in batch x 0-20, b 30-40. Cost: a 1, b 3, batch 10 + 20 minutes, lot 2, delivery 7, charge 4.
    private static readonly Schedule Good = new(
        [
            new PlannedActivity(new ActivityId("a"), true, new ModeId("x"), 0, 20, X),
            new PlannedActivity(new ActivityId("b"), true, new ModeId("m"), 30, 40, null),
            new PlannedActivity(new ActivityId("c"), false, null, -1, -1, null),
        ],
        [new PlannedBatch(X, true, new CrewId("one"), 0, 20)],
        [new Cover(new LotId("lot"), Paste, new ActivityId("a"), null, 5)],
        [new UnlockId("delivery")],
        47);

    [Fact]
    public void A_good_schedule_has_no_violations() => Assert.Empty(ScheduleChecker.Check(Small, Good));

    [Theory]
    [InlineData(31, 41, "multiple of 5")]
    [InlineData(25, 35, "must be at 30 or later")]
    [InlineData(105, 115, "must be at 100 or sooner")]
    [InlineData(55, 65, "one open window")]
    [InlineData(195, 205, "0..200")]
    [InlineData(30, 45, "lasts 15 minutes")]
    [InlineData(100, 110, "outside the starts")]
    public void A_wrong_time_of_an_activity_is_found(int start, int end, string expected)
    {
        // Mode m may start in 20-100; for the bounds on later starts the window is lifted.
        Project project = start == 105
            ? Small with { Activities = Small.Activities.SetItem(1, Activity("b", Alone("m", 10, 3, "person"), Small.Activities[1].Modes[1])) }
            : Small;

        AssertFound(project, WithB(Good.Activities[1] with { Start = start, End = end }), expected);
    }

    [Fact]
    public void Two_things_at_a_time_for_one_person_are_found() =>
        AssertFound(
            Small with { Activities = Small.Activities.SetItem(1, Activity("b", Alone("m", 10, 3, "person"), Small.Activities[1].Modes[1])) },
            WithB(Good.Activities[1] with { Start = 15, End = 25 }),
            "demanded 2 times at minute 15");

    [Fact]
    public void An_unknown_mode_is_found() => AssertFound(Small, WithB(Good.Activities[1] with { Mode = new ModeId("z") }), "no mode z");

    [Fact]
    public void A_missing_triggered_activity_is_found() =>
        AssertFound(Small, WithB(Good.Activities[1] with { Mode = new ModeId("n"), End = 50 }), "Activity c is absent");

    [Theory]
    [InlineData(0, 25, "set-up and work are 20")]
    [InlineData(5, 25, "does not lie on its batch")]
    public void A_wrong_time_of_a_batch_is_found(int start, int end, string expected) =>
        AssertFound(Small, new Schedule(Good.Activities, [Good.Batches[0] with { Start = start, End = end }], Good.Covers, Good.Unlocked, Good.Cost), expected);

    [Fact]
    public void A_batch_that_is_too_full_or_too_long_is_found()
    {
        Batch tight = Small.Batches[0] with { MaxWork = 14, LatestEnd = TimeFunction.Shift(19) };

        AssertFound(Small with { Batches = [tight] }, Good, "14 fit");
        AssertFound(Small with { Batches = [tight] }, Good, "must end by 19");
    }

    [Fact]
    public void An_unused_batch_with_members_and_an_unknown_crew_are_found()
    {
        AssertFound(Small, new Schedule(Good.Activities, [Good.Batches[0] with { Used = false }], Good.Covers, Good.Unlocked, Good.Cost), "unused with 1 members");
        AssertFound(Small, new Schedule(Good.Activities, [Good.Batches[0] with { Crew = new CrewId("two") }], Good.Covers, Good.Unlocked, Good.Cost), "no crew two");
    }

    [Theory]
    [InlineData(4, 5, 0, 100, "lots cover 4")]
    [InlineData(5, 4, 0, 100, "holds 4; 5 are taken")]
    [InlineData(5, 5, 10, 100, "usable in [10, 100)")]
    public void A_wrong_use_of_a_lot_is_found(int covered, int amount, int from, int to, string expected)
    {
        Project project = Small with { Lots = [Small.Lots[0] with { Amount = amount, Usable = new Window(from, to) }] };

        AssertFound(project, new Schedule(Good.Activities, Good.Batches, [Good.Covers[0] with { Amount = covered }], Good.Unlocked, Good.Cost), expected);
    }

    [Fact]
    public void An_unpaid_delivery_and_a_wrong_cost_are_found()
    {
        AssertFound(Small, new Schedule(Good.Activities, Good.Batches, Good.Covers, [], 40), "not paid for");
        AssertFound(Small, new Schedule(Good.Activities, Good.Batches, Good.Covers, Good.Unlocked, 46), "it costs 47");
    }

    [Fact]
    public void A_start_outside_a_conditional_window_is_found()
    {
        var window = new ConditionalWindow { Activity = new ActivityId("b"), Windows = [new Window(40, 50)], WhenActivity = new ActivityId("a"), WhenModes = Modes("x") };

        AssertFound(Small with { ConditionalWindows = [window] }, Good, "outside its windows while a");
    }

    [Fact]
    public void A_missing_entry_is_found() =>
        AssertFound(Small, new Schedule(Good.Activities.RemoveAt(0), Good.Batches, Good.Covers, Good.Unlocked, Good.Cost), "exactly one entry");

    private static void AssertFound(Project project, Schedule schedule, string expected) =>
        Assert.Contains(ScheduleChecker.Check(project, schedule), v => v.Contains(expected, StringComparison.Ordinal));

    private static Schedule WithB(PlannedActivity b) =>
        new(Good.Activities.SetItem(1, b), Good.Batches, Good.Covers, Good.Unlocked, Good.Cost);
}
