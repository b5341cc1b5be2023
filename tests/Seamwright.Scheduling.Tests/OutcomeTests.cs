using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class OutcomeTests
{
    private static readonly Project Simple = new()
    {
        Horizon = 100,
        Activities = [Activity("a", Alone("slow", 60, 10), Alone("quick", 30, 15))],
    };

    [Fact]
    public void Every_mistake_is_listed_at_once()
    {
        Project project = Simple with
        {
            Horizon = 0,
            Resources = [Resource("r", new Window(5, 5))],
            Activities = [Activity("a", Alone("m", -1, needs: "nobody"))],
            Lags = [Lag(EndOf("a"), StartOf("ghost"), 0)],
        };

        Assert.Equal(5, Assert.Throws<InvalidProjectException>(() => ProjectSolver.Solve(project)).Mistakes.Length);
    }

    [Fact]
    public void A_cost_limit_below_the_optimum_is_infeasible()
    {
        Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(Simple, Goals(Goal.Cost) with { CostAtMost = 9 }));
        Assert.Equal(10, Solved(Simple, Goals(Goal.Cost) with { CostAtMost = 10 }).Schedule.Cost);
    }

    [Fact]
    public void A_mode_that_never_fits_makes_its_activity_infeasible() =>
        Assert.IsType<Outcome.Infeasible>(ProjectSolver.Solve(Simple with { Activities = [Activity("a", Alone("m", 101))] }));

    [Fact]
    public void A_request_to_stop_is_an_exception()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();

        Assert.Throws<OperationCanceledException>(() => ProjectSolver.Solve(Simple, new SolveOptions { Cancellation = stop.Token }));
    }

    [Fact]
    public void No_time_at_all_is_not_infeasible()
    {
        Outcome outcome = ProjectSolver.Solve(SampleProjects.Joints(0), new SolveOptions { TimeLimit = TimeSpan.FromTicks(1) });

        Assert.IsType<Outcome.TimeLimit>(outcome);
    }

    [Fact]
    public void A_deterministic_run_gives_the_same_schedule_twice()
    {
        Project project = SampleProjects.Joints(3);
        SolveOptions options = Goals(Goal.Cost) with { Deterministic = true };

        Outcome.Optimal first = Solved(project, options);
        Outcome.Optimal second = Solved(project, options);

        Assert.Equal(first.Schedule.Activities.AsEnumerable(), second.Schedule.Activities.AsEnumerable());
    }

    [Fact]
    public void The_own_answer_as_a_hint_is_a_complete_solution_of_the_model()
    {
        // All variables fixed to the hint: a wrong or missing hint value would make this infeasible or dearer.
        foreach (bool alike in new[] { false, true })
        {
            Project project = SampleProjects.Joints(5, alike: alike);
            Outcome.Optimal best = Solved(project);

            Outcome fixedRun = new Solving.GoalRun(project, Goals(Goal.Cost) with { Hint = best.Schedule }) { Extra = "fix_variables_to_their_hinted_value:true" }.Run();

            Assert.Equal(best.Schedule.Cost, Assert.IsType<Outcome.Optimal>(fixedRun).Schedule.Cost);
        }
    }

    [Fact]
    public void A_hint_from_another_project_does_no_harm()
    {
        Outcome.Optimal other = Solved(SampleProjects.Joints(1, joints: 12));

        Project project = SampleProjects.Joints(2);
        Assert.Equal(Solved(project).Schedule.Cost, Solved(project, Goals(Goal.Cost) with { Hint = other.Schedule }).Schedule.Cost);
    }
}
