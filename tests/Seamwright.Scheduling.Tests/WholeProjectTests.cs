using Xunit;

namespace Seamwright.Scheduling.Tests;

public sealed class WholeProjectTests
{
    [Theory]
    [InlineData(0, 1, false)]
    [InlineData(1, 2, false)]
    [InlineData(2, 1, true)]
    public void A_project_of_usual_size_is_proven_optimal_and_passes_the_checker(int seed, int people, bool alike)
    {
        Project project = SampleProjects.Joints(seed, people: people, alike: alike);

        Outcome outcome = ProjectSolver.Solve(project, new SolveOptions { Goals = [Goal.Cost, Goal.Earliest(new ActivityId("hand over"))], TimeLimit = TimeSpan.FromSeconds(60) });

        var optimal = Assert.IsType<Outcome.Optimal>(outcome);
        Assert.Empty(ScheduleChecker.Check(project, optimal.Schedule));
        Assert.Equal(optimal.Schedule.Cost, optimal.Goals[0].Value);
    }
}
