using CsCheck;
using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

public sealed class PropertyTests
{
    private const string Seed = "0N0XIzNsQ0O2";

    private static readonly SolveOptions Options = Goals(Goal.Cost) with { Deterministic = true };

    [Fact]
    public void The_optimum_of_tiny_projects_is_that_of_brute_force() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Project project = RandomProjects.Tiny(seed);
                long? expected = BruteForce.LowestCost(project);
                Outcome outcome = ProjectSolver.Solve(project, Options);

                Assert.Equal(expected is null ? typeof(Outcome.Infeasible) : typeof(Outcome.Optimal), outcome.GetType());
                Assert.Equal(expected, outcome.Plan?.Cost);
            },
            seed: Seed, iter: Iterations(120), threads: 1, print: seed => $"seed {seed}");

    [Fact]
    public void Every_answer_passes_the_checker() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Project project = RandomProjects.Small(seed);
                Outcome outcome = ProjectSolver.Solve(project, Options);

                Assert.True(outcome is Outcome.Optimal or Outcome.Infeasible);
                if (outcome.Plan is { } plan)
                {
                    Assert.Empty(ScheduleChecker.Check(project, plan));
                    Assert.Equal(plan.Cost, outcome.Goals[0].LowerBound);
                }
            },
            seed: Seed, iter: Iterations(100), threads: 1, print: seed => $"seed {seed}");

    [Fact]
    public void The_order_of_activities_and_batches_does_not_change_the_optimum() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Project project = RandomProjects.Small(seed);
                Project turned = project with { Activities = [.. project.Activities.Reverse()], Batches = [.. project.Batches.Reverse()], Lags = [.. project.Lags.Reverse()] };

                Assert.Equal(ProjectSolver.Solve(project, Options).Plan?.Cost, ProjectSolver.Solve(turned, Options).Plan?.Cost);
            },
            seed: Seed, iter: Iterations(40), threads: 1, print: seed => $"seed {seed}");

    [Fact]
    public void A_further_mode_never_makes_the_optimum_dearer() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                // Lags, triggers and windows that name no modes would bind the new mode too, so it is named out of them.
                Project project = Named(RandomProjects.Small(seed));
                Activity changed = project.Activities[0];
                Mode more = Alone("further", 10, 2, "r");
                Project richer = project with { Activities = project.Activities.SetItem(0, changed with { Modes = changed.Modes.Add(more) }) };

                Outcome before = ProjectSolver.Solve(project, Options);
                Outcome after = ProjectSolver.Solve(richer, Options);

                if (before.Plan is { } plan)
                    Assert.True(after.Plan!.Cost <= plan.Cost);
            },
            seed: Seed, iter: Iterations(40), threads: 1, print: seed => $"seed {seed}");

    [Fact]
    public void A_hint_never_changes_the_optimum() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Project project = RandomProjects.Small(seed);
                Outcome cold = ProjectSolver.Solve(project, Options);
                Outcome warm = ProjectSolver.Solve(project, Options with { Hint = cold.Plan });

                Assert.Equal(cold.Plan?.Cost, warm.Plan?.Cost);
            },
            seed: Seed, iter: Iterations(40), threads: 1, print: seed => $"seed {seed}");

    /// <summary>More iterations for a long run at night: PROPERTY_FACTOR multiplies them.</summary>
    private static int Iterations(int usual) =>
        usual * (int.TryParse(Environment.GetEnvironmentVariable("PROPERTY_FACTOR"), System.Globalization.CultureInfo.InvariantCulture, out int factor) ? factor : 1);

    private static Project Named(Project project)
    {
        ActivityId first = project.Activities[0].Id;
        System.Collections.Immutable.ImmutableArray<ModeId> all = [.. project.Activities[0].Modes.Select(m => m.Id)];
        return project with
        {
            Lags =
            [
                .. project.Lags.Select(l => l with
                {
                    FromModes = l.From.Activity == first && l.FromModes.IsEmpty ? all : l.FromModes,
                    ToModes = l.To.Activity == first && l.ToModes.IsEmpty ? all : l.ToModes,
                }),
            ],
        };
    }
}
