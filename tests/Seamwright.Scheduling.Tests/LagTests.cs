using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class LagTests
{
    private static readonly Goal LastEarly = Goal.Earliest(new ActivityId("last"));

    private static Project Pair(Lag lag, params Window[] firstStarts) => new()
    {
        Horizon = 200,
        Activities = [Activity("first", Alone("m", 10, 0, null, firstStarts)), Activity("last", Alone("m", 0))],
        Lags = [lag],
    };

    [Fact]
    public void A_minimum_lag_keeps_its_distance_from_the_end() =>
        Assert.Equal(40, Solved(Pair(Lag(EndOf("first"), StartOf("last"), 30)), Goals(LastEarly)).Of("last").Start);    // 0 + 10 + 30

    [Fact]
    public void A_negative_minimum_lag_allows_an_overlap() =>
        Assert.Equal(5, Solved(Pair(Lag(EndOf("first"), StartOf("last"), -8)), Goals(LastEarly)).Of("last").Start);     // 2, rounded up to the grid

    [Fact]
    public void A_maximum_lag_draws_the_first_along()
    {
        // first must start at 100 or later for another reason; last (end of first + at most 20) cannot be pushed past 130.
        Project project = Pair(Lag(EndOf("first"), StartOf("last"), 20, LagKind.Maximum), new Window(0, 101));
        Project late = project with { Activities = [project.Activities[0], Activity("last", Alone("m", 0, 0, null, new Window(130, 200)))] };

        Outcome.Optimal outcome = Solved(late, Goals(LastEarly));

        Assert.Equal(130, outcome.Of("last").Start);
        Assert.Equal(100, outcome.Of("first").Start);
        Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(late with { Activities = [project.Activities[0], Activity("last", Alone("m", 0, 0, null, new Window(135, 200)))] }));
    }

    [Fact]
    public void A_lag_binds_only_in_its_modes()
    {
        // Cured mode: cost 0 and 50 minutes of waiting (charge 50). Dry mode: cost 7 and none.
        var project = new Project
        {
            Horizon = 200,
            Activities = [Activity("first", Alone("cured", 0), Alone("dry", 0, 7)), Activity("last", Alone("m", 0))],
            Lags = [Lag(EndOf("first"), StartOf("last"), 50) with { FromModes = Modes("cured") }],
            Charges = [PerMinute("last", Edge.Start, 200)],
        };

        Assert.Equal(7, Solved(project).Schedule.Cost);
    }

    [Fact]
    public void A_delay_by_time_is_exact_to_the_minute_when_slopes_and_plateaus_alternate()
    {
        // Begun before 50: ready 37 minutes later, but not before 70; begun later: ready at double speed. End of first is start + 10.
        TimeFunction ready = TimeFunction.Of(t => t < 50 ? Math.Max(t + 37, 70) : 87 + ((t - 50) / 2));
        for (int start = 0; start <= 120; start += 5)
        {
            Project project = Pair(Lag(EndOf("first"), StartOf("last"), ready), new Window(start, start + 1));
            int exact = (ready.At(start + 10) + 4) / 5 * 5;
            Assert.Equal(exact, Solved(project, Goals(LastEarly)).Of("last").Start);
        }
    }

    [Fact]
    public void A_latest_time_by_function_is_exact_too()
    {
        // last must come within a time that shrinks from 60 to 20 minutes; pushing last late is bounded by it exactly.
        TimeFunction limit = TimeFunction.Of(t => t < 60 ? 60 : t < 100 ? t + 7 : 107 + ((t - 100) / 3));
        for (int start = 0; start <= 100; start += 5)
        {
            int latest = limit.At(start + 10) / 5 * 5;
            Project project = Pair(Lag(EndOf("first"), StartOf("last"), limit, LagKind.Maximum), new Window(start, start + 1));
            Project At(int minute) => project with { Activities = [project.Activities[0], Activity("last", Alone("m", 0, 0, null, new Window(minute, minute + 1)))] };

            Solved(At(latest));
            Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(At(latest + 5)));
        }
    }

    [Fact]
    public void A_value_beyond_the_horizon_means_never()
    {
        // Ready only if begun before 20; first starts at 25 or later.
        Project project = Pair(Lag(StartOf("first"), StartOf("last"), TimeFunction.Of(t => t < 20 ? t : 1_000_000)), new Window(25, 100));

        Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(project));
    }

    [Fact]
    public void A_tolerance_never_allows_what_the_true_delay_forbids()
    {
        TimeFunction ready = TimeFunction.Of(t => t + 20 + (t / 7));
        Project project = Pair(Lag(EndOf("first"), StartOf("last"), ready), new Window(40, 100));

        Outcome outcome = ProjectSolver.Solve(project, Goals(LastEarly) with { DelayTolerance = 10 });

        Assert.Empty(ScheduleChecker.Check(project, outcome.Plan!));
        Assert.InRange(outcome.Plan![new ActivityId("last")].Start, 80, 90);     // true: 50 + 20 + 7 = 77
    }

    [Fact]
    public void A_tolerance_never_makes_a_project_infeasible()
    {
        // One end, one slot: 50 + 20 + 7 = 77 fits the slot at 80 exactly, tightened by 10 it might not.
        TimeFunction ready = TimeFunction.Of(t => t + 20 + (t / 7));
        Project project = Pair(Lag(EndOf("first"), StartOf("last"), ready), new Window(0, 41)) with { Horizon = 80 };
        Project slot = project with { Activities = [Activity("first", Alone("m", 10, 0, null, new Window(40, 41))), Activity("last", Alone("m", 0, 0, null, new Window(80, 81)))] };

        Outcome outcome = ProjectSolver.Solve(slot, Goals(Goal.Cost) with { DelayTolerance = 30 });

        Assert.NotNull(outcome.Plan);
    }
}
