using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class BatchTests
{
    private static readonly Resource Person = Resource("person", new Window(0, 60), new Window(90, 150));

    private static Batch Batch(string id, int setup = 10, long cost = 100, params Crew[] crews) =>
        new() { Id = new BatchId(id), Setup = setup, Cost = cost, Crews = crews.Length == 0 ? [Crew("one", "person")] : [.. crews] };

    [Fact]
    public void Members_start_and_end_with_their_batch_and_share_its_set_up()
    {
        // 10 + 20 + 25 = 55 minutes fit into 0-60; one set-up for both costs 100.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x")],
            Activities = [Activity("a", In("x", 20)), Activity("b", In("x", 25))],
        };

        Outcome.Optimal outcome = Solved(project, Goals(Goal.Cost, Goal.Earliest(new ActivityId("a"))));

        Assert.Equal(100, outcome.Schedule.Cost);
        Assert.Equal((0, 55), (outcome.Of("a").Start, outcome.Of("b").End));
    }

    [Fact]
    public void A_batch_too_long_for_any_window_is_split_into_two()
    {
        // 10 + 30 + 35 = 75 > 60, so two batches: 200.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x"), Batch("y")],
            Activities = [Activity("a", In("x", 30), In("y", 30)), Activity("b", In("x", 35), In("y", 35))],
        };

        Assert.Equal(200, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void The_most_work_limits_a_batch()
    {
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { MaxWork = 10 }, Batch("y") with { MaxWork = 10 }],
            Activities = [Activity("a", In("x", 6), In("y", 6)), Activity("b", In("x", 6), In("y", 6))],
        };

        Assert.Equal(200, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void A_container_too_small_for_both_divides_them()
    {
        // Loads 6 + 6 do not go into one batch of 10, so both batches are paid: 100 + 100.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { MaxLoad = 10 }, Batch("y") with { MaxLoad = 10 }],
            Activities = [Activity("a", In("x", 6) with { Load = 6 }, In("y", 6) with { Load = 6 }), Activity("b", In("x", 6) with { Load = 6 }, In("y", 6) with { Load = 6 })],
        };

        Assert.Equal(200, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void The_latest_end_depends_on_the_start()
    {
        // Length 10 + 20 = 30. Before 40 only 25 minutes are allowed, later 35: the first start that works is 90 (40 + 30 > 60).
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { LatestEnd = TimeFunction.Of(t => t < 40 ? t + 25 : t + 35) }],
            Activities = [Activity("a", In("x", 20))],
        };

        Assert.Equal(90, Solved(project, Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);
    }

    [Fact]
    public void The_cheaper_crew_does_the_batch_if_it_can()
    {
        // Length 30. Cheap crew: 2 x 30 + 5 = 65; dear crew: 3 x 30 = 90. Together with the batch's 100: 165 and 190.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person, Resource("other", new Window(0, 100))],
            Batches = [Batch("x", 10, 100, Crew("cheap", "person", 2, 5), Crew("dear", "other", 3))],
            Activities = [Activity("a", In("x", 20))],
        };
        Project busy = project with { Resources = [Person with { Open = [new Window(0, 20)] }, project.Resources[1]] };

        Assert.Equal(165, Solved(project).Schedule.Cost);
        Assert.Equal(190, Solved(busy).Schedule.Cost);
    }

    [Fact]
    public void Start_windows_of_a_member_and_of_the_batch_both_count()
    {
        // Batch: 20-100. Member: 0-30 and 95-120. Window of the person: 0-60, 90-150. Length 30: 20, 25 or 95. With 100 as the earliest charge-free... 20.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { Starts = [new Window(20, 101)] }],
            Activities = [Activity("a", In("x", 20) with { Starts = [new Window(0, 15), new Window(95, 121)] })],
        };

        Assert.Equal(95, Solved(project, Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);
    }

    [Fact]
    public void Two_batches_of_one_person_do_not_overlap()
    {
        // x: 30, y: 30, both in 0-60; last comes after both: 60.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x"), Batch("y")],
            Activities = [Activity("a", In("x", 20)), Activity("b", In("y", 20)), Activity("last", Alone("m", 0))],
            Lags = [Lag(TimePoint.EndOf(new BatchId("x")), StartOf("last"), 0), Lag(EndOf("b"), StartOf("last"), 0)],
        };

        Assert.Equal(60, Solved(project, Goals(Goal.Earliest(new ActivityId("last")))).Of("last").Start);
    }

    [Fact]
    public void A_batch_makes_an_activity_present()
    {
        // Batch x would be free but brings the primer for 9; batch y costs 5.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x", 10, 0), Batch("y", 10, 5)],
            Activities =
            [
                Activity("a", In("x", 20), In("y", 20)),
                Activity("primer", Alone("m", 5, 9)) with { PresentWhen = [new Trigger.BatchUsed(new BatchId("x"))] },
            ],
        };

        Assert.Equal(5, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void Identical_members_are_counted_and_told_apart_again()
    {
        // Three times 20 minutes: 10 + 40 fits into a window, 10 + 60 does not. Two batches.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { SymmetryGroup = "g" }, Batch("y") with { SymmetryGroup = "g", SymmetryIndex = 1 }],
            Activities = [.. Enumerable.Range(0, 3).Select(i => Activity($"a{i}", In("x", 20), In("y", 20)))],
        };

        Outcome.Optimal outcome = Solved(project);

        Assert.Equal(200, outcome.Schedule.Cost);
        Assert.Equal(3, outcome.Schedule.Activities.Count(a => a.Present));
    }

    [Fact]
    public void Batches_that_are_not_interchangeable_cannot_be_called_so()
    {
        var project = new Project
        {
            Horizon = 200,
            Resources = [Person],
            Batches = [Batch("x") with { SymmetryGroup = "g" }, Batch("y") with { SymmetryGroup = "g", SymmetryIndex = 1 }],
            Activities = [Activity("a", In("x", 20), In("y", 20)), Activity("last", Alone("m", 0))],
            Lags = [Lag(EndOf("a"), StartOf("last"), 0) with { FromModes = Modes("x") }],
        };

        Assert.Contains("not interchangeable", Assert.Throws<InvalidProjectException>(() => ProjectSolver.Solve(project)).Message, StringComparison.Ordinal);
    }
}
