using System.Diagnostics;
using System.Globalization;
using Seamwright.Scheduling.Solving;
using Xunit;

namespace Seamwright.Scheduling.Tests;

/// <summary>
/// Prints solve times of the sample projects; runs only when asked for (option -explicit on). SOLVER_EXTRA holds further
/// solver parameters to compare, separated by semicolons. Processor time is printed beside wall time: it says more on a busy machine.
/// </summary>
public sealed class SolveTimes(ITestOutputHelper output)
{
    [Fact(Explicit = true)]
    public async Task Solve_times_of_usual_projects_are_printed()
    {
        var clock = Stopwatch.StartNew();
        if (Environment.GetEnvironmentVariable("SOLVER_WARM") is not null)
        {
            await SolverWarmUp.Start();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"warm-up: {clock.Elapsed.TotalMilliseconds:F0} ms"));
            clock.Restart();
        }

        ProjectSolver.Solve(SampleProjects.Joints(99));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"first solve of the process: {clock.Elapsed.TotalMilliseconds:F0} ms"));

        Goal[] cost = [Goal.Cost];
        Goal[] both = [Goal.Cost, Goal.Earliest(new ActivityId("hand over"))];
        foreach (string extra in (Environment.GetEnvironmentVariable("SOLVER_EXTRA") ?? "").Split(';'))
        {
            foreach ((bool alike, int people, int days, Goal[] goals) in new[]
                     {
                         (false, 1, 4, cost), (false, 2, 4, cost), (true, 1, 4, cost), (false, 1, 6, cost), (false, 1, 4, both), (true, 1, 4, both),
                     })
            {
                var wall = new List<double>();
                var processor = new List<double>();
                for (int seed = 0; seed < 8; seed++)
                {
                    Project project = SampleProjects.Joints(seed, people: people, days: days, alike: alike);
                    TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
                    clock.Restart();
                    Outcome outcome = new GoalRun(project, Tiny.Goals(goals)) { Extra = extra }.Run();
                    wall.Add(clock.Elapsed.TotalMilliseconds);
                    processor.Add((Process.GetCurrentProcess().TotalProcessorTime - before).TotalMilliseconds);
                    Assert.IsType<Outcome.Optimal>(outcome);
                }

                wall.Sort();
                processor.Sort();
                output.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{(alike ? "alike" : "different")} joints, {people} people, {days} days, {goals.Length} goals {extra}: wall {wall[4]:F0} (worst {wall[7]:F0}), processor {processor[4]:F0} (worst {processor[7]:F0}) ms"));
            }
        }
    }
}
