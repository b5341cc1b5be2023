using System.Collections.Immutable;
using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class StartingTests
{
    [Fact]
    public void A_schedule_from_cheap_choices_keeps_every_rule_of_its_project()
    {
        int placed = 0;
        for (int seed = 1; seed <= 300; seed++)
        {
            var project = RandomProjects.Small(seed);
            if (CheapestChoices.Of(project) is not { } choices || ListScheduler.For(project, choices)?.Place(new Dictionary<ResourceId, ImmutableArray<Window>>()) is not { } schedule)
                continue;
            placed++;
            Assert.Empty(ScheduleChecker.Check(project, schedule));
        }
        // Most random projects have a schedule; the list may miss one, but a list that misses nearly all would be of no use.
        Assert.InRange(placed, 50, 300);
    }

    [Fact]
    public void Two_who_share_a_set_up_change_over_together_although_neither_would_alone()
    {
        // By themselves a joins A and b joins B (1 each); together in C they cost 2 · 3 and save both set-ups of 10, together 6 + 10 against 2 + 20.
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("a", In("A", 5, 1), In("C", 5, 3)), Activity("b", In("B", 5, 1), In("C", 5, 3))],
            Batches = [Priced("A"), Priced("B"), Priced("C")],
        };

        var choices = CheapestChoices.Of(project)!;

        Assert.All(choices.Activities, activity => Assert.Equal(new BatchId("C"), activity.Batch));

        static Batch Priced(string id) => new() { Id = new BatchId(id), Cost = 10 };
    }

    [Fact]
    public void What_could_not_be_followed_in_time_is_not_chosen_however_cheap()
    {
        var slow = new Mode { Id = new ModeId("slow"), Duration = 5 };
        var quick = new Mode { Id = new ModeId("quick"), Duration = 5, Cost = 100 };
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("seal", slow, quick), Activity("paint", Alone("slot", 10, 0, null, new Window(40, 41)))],
            Lags =
            [
                Lag(EndOf("seal"), StartOf("paint"), 60) with { FromModes = Modes("slow") },
                Lag(EndOf("seal"), StartOf("paint"), 20) with { FromModes = Modes("quick") },
            ],
        };

        Assert.Equal(new ModeId("quick"), CheapestChoices.Of(project)![new ActivityId("seal")].Mode);
        Assert.Null(CheapestChoices.Of(project, spare: 30));
    }

    [Fact]
    public void Lags_alone_tell_the_earliest_start()
    {
        var project = new Project
        {
            Horizon = 100,
            Activities = [Activity("seal", Alone("m", 10)), Activity("paint", Alone("slot", 10))],
            Lags = [Lag(EndOf("seal"), StartOf("paint"), 25)],
        };
        var schedule = new Schedule(
            [new PlannedActivity(new ActivityId("seal"), true, new ModeId("m"), 5, 15, null), new PlannedActivity(new ActivityId("paint"), true, new ModeId("slot"), 90, 100, null)],
            [], [], [], 0);

        Assert.Equal(40, LagTimes.EarliestStart(project, schedule, new ActivityId("paint")));
        Assert.Equal(0, LagTimes.EarliestStart(project, schedule, new ActivityId("seal")));
    }
}
