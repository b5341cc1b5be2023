using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class ActivityTests
{
    [Fact]
    public void Labour_stays_inside_the_calendar()
    {
        // 40 minutes do not fit into 0-30, nor across the break; the next window opens at 60.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Resource("person", new Window(0, 30), new Window(60, 120))],
            Activities = [Activity("a", Alone("m", 40, needs: "person"))],
        };

        Assert.Equal(60, Solved(project, Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);
    }

    [Fact]
    public void Work_is_not_split_between_two_windows_that_touch()
    {
        // 0-30 and 30-60 are two shifts; 40 minutes fit into neither, so the work waits for 90.
        var project = new Project
        {
            Horizon = 200,
            Resources = [Resource("person", new Window(0, 30), new Window(30, 60), new Window(90, 150))],
            Activities = [Activity("a", Alone("m", 40, needs: "person"))],
        };

        Assert.Equal(90, Solved(project, Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);
    }

    [Fact]
    public void One_person_does_one_thing_at_a_time()
    {
        // 20 + 30 minutes one after the other, then the last: 50.
        var project = new Project
        {
            Horizon = 100,
            Resources = [Resource("person", new Window(0, 100))],
            Activities = [Activity("a", Alone("m", 20, needs: "person")), Activity("b", Alone("m", 30, needs: "person")), Activity("last", Alone("m", 0))],
            Lags = [Lag(EndOf("a"), StartOf("last"), 0), Lag(EndOf("b"), StartOf("last"), 0)],
        };

        Assert.Equal(50, Solved(project, Goals(Goal.Earliest(new ActivityId("last")))).Of("last").Start);
    }

    [Fact]
    public void Two_people_do_two_of_three_things_at_a_time()
    {
        // 30, 20, 10 on two people: 30 beside 20 + 10, so all is done at 30.
        var project = new Project
        {
            Horizon = 100,
            Resources = [Resource("people", new Window(0, 100)) with { Capacity = 2 }],
            Activities =
            [
                Activity("a", Alone("m", 30, needs: "people")), Activity("b", Alone("m", 20, needs: "people")),
                Activity("c", Alone("m", 10, needs: "people")), Activity("last", Alone("m", 0)),
            ],
            Lags = [Lag(EndOf("a"), StartOf("last"), 0), Lag(EndOf("b"), StartOf("last"), 0), Lag(EndOf("c"), StartOf("last"), 0)],
        };

        Assert.Equal(30, Solved(project, Goals(Goal.Earliest(new ActivityId("last")))).Of("last").Start);
    }

    [Fact]
    public void The_cheaper_mode_wins_until_lateness_eats_its_advantage()
    {
        // Slow: 10 + charge at 60 minutes (8) = 18. Quick: 15 + charge at 30 (0) = 15.
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("a", Alone("slow", 60, 10), Alone("quick", 30, 15))],
            Charges = [new Charge { Activity = new ActivityId("a"), Edge = Edge.End, Amount = new StepFunction([new Step(40, 8)]) }],
        };

        Outcome.Optimal outcome = Solved(project);

        Assert.Equal(15, outcome.Schedule.Cost);
        Assert.Equal(new ModeId("quick"), outcome.Of("a").Mode);
    }

    [Fact]
    public void Fixed_slots_pay_the_charge_of_their_own_time()
    {
        // Slot 20 costs 9 + 0, slot 60 costs 1 + 5 = 6.
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("a", Alone("early", 10, 9, null, new Window(20, 21)), Alone("late", 10, 1, null, new Window(60, 61)))],
            Charges = [new Charge { Activity = new ActivityId("a"), Edge = Edge.Start, Amount = new StepFunction([new Step(30, 5)]) }],
        };

        Assert.Equal(6, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void Starts_are_multiples_of_the_step_and_inside_their_windows()
    {
        // The window begins at 12; the next multiple of 5 is 15.
        var project = new Project { Horizon = 100, Activities = [Activity("a", Alone("m", 7, 0, null, new Window(12, 40)))] };

        Assert.Equal(15, Solved(project, Goals(Goal.Earliest(new ActivityId("a")))).Of("a").Start);
    }

    [Fact]
    public void An_activity_is_present_exactly_when_a_trigger_holds()
    {
        // With primer: mode 5 + primer 2 = 7. Without: 6. Absent primers cost nothing.
        Activity primer = Activity("primer", Alone("m", 10, 2)) with { PresentWhen = [new Trigger.InMode(new ActivityId("a"), Modes("primed"))] };
        var project = new Project { Horizon = 100, Activities = [Activity("a", Alone("primed", 10, 5), Alone("bare", 10, 6)), primer] };

        Outcome.Optimal outcome = Solved(project);

        Assert.Equal(6, outcome.Schedule.Cost);
        Assert.False(outcome.Of("primer").Present);
        Assert.True(Solved(project with { Activities = [Activity("a", Alone("primed", 10, 5), Alone("bare", 10, 8)), primer] }).Of("primer").Present);
    }

    [Fact]
    public void A_conditional_window_binds_only_in_the_listed_modes()
    {
        // Mode x (cost 0) forces b to start in 50-60; mode y (cost 3) leaves it free. Lateness of b is 1 a minute: 50 against 3.
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("a", Alone("x", 0), Alone("y", 0, 3)), Activity("b", Alone("m", 0))],
            ConditionalWindows = [new ConditionalWindow { Activity = new ActivityId("b"), Windows = [new Window(50, 61)], WhenActivity = new ActivityId("a"), WhenModes = Modes("x") }],
            Charges = [PerMinute("b", Edge.Start, 100)],
        };

        Assert.Equal(3, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void The_second_goal_is_reached_without_giving_up_the_first()
    {
        // Cheapest is the slow mode (60 minutes); within it, last starts at 60 at the earliest.
        var project = new Project
        {
            Horizon = 300,
            Activities = [Activity("a", Alone("slow", 60, 1), Alone("quick", 30, 2)), Activity("last", Alone("m", 0))],
            Lags = [Lag(EndOf("a"), StartOf("last"), 0)],
        };

        Outcome.Optimal outcome = Solved(project, Goals(Goal.Cost, Goal.Earliest(new ActivityId("last"))));
        Outcome.Optimal other = Solved(project, Goals(Goal.Earliest(new ActivityId("last")), Goal.Cost));

        Assert.Equal([1L, 60L], outcome.Goals.Select(g => g.Value!.Value));
        Assert.Equal([30L, 2L], other.Goals.Select(g => g.Value!.Value));
    }
}
