using CsCheck;
using Xunit;
using static Seamwright.Scheduling.Tests.Tiny;

namespace Seamwright.Scheduling.Tests;

/// <summary>Counting identical activities and ordering interchangeable batches must only save time.</summary>
public sealed class SymmetryTests
{
    private static readonly SolveOptions Options = Goals(Goal.Cost) with { Deterministic = true };

    [Fact]
    public void Telling_identical_things_apart_does_not_change_the_optimum() =>
        Gen.Int[0, 100_000].Sample(
            seed =>
            {
                Project counted = Alike(new Random(seed));

                // A charge of nothing keeps an activity from being counted with others; without a group, batches keep no order.
                Project apart = counted with
                {
                    Batches = [.. counted.Batches.Select(b => b with { SymmetryGroup = null })],
                    Charges = [.. counted.Charges, .. counted.Activities.Select(a => new Charge { Activity = a.Id, Edge = Edge.Start, Amount = new StepFunction([]) })],
                };

                Outcome one = ProjectSolver.Solve(counted, Options);
                Outcome other = ProjectSolver.Solve(apart, Options);

                Assert.Equal(other.GetType(), one.GetType());
                Assert.Equal(other.Plan?.Cost, one.Plan?.Cost);
                if (one.Plan is { } plan)
                    Assert.Empty(ScheduleChecker.Check(counted, plan));
            },
            seed: "0N0XIzNsQ0O2", iter: 60, threads: 1, print: seed => $"seed {seed}");

    [Fact]
    public void Batches_with_different_latest_ends_are_not_interchangeable()
    {
        Project project = Alike(new Random(1));
        project = project with { Batches = project.Batches.SetItem(1, project.Batches[1] with { LatestEnd = TimeFunction.Shift(17) }) };

        Assert.Contains(ProblemValidator.Mistakes(project), m => m.Contains("not interchangeable", StringComparison.Ordinal));
    }

    [Fact]
    public void Modes_may_be_named_differently_in_interchangeable_batches()
    {
        Project project = Alike(new Random(1));

        Assert.Empty(ProblemValidator.Mistakes(project));
    }

    private static Project Alike(Random random)
    {
        int kinds = random.Next(1, 3);
        TimeFunction ready = TimeFunction.Of(t => t + 20 + (t / 4));
        Batch[] batches =
        [
            .. Enumerable.Range(0, 3).Select(b => new Batch
            {
                Id = new BatchId($"b{b}"),
                Setup = 6,
                Cost = 10,
                Crews = [Crew("one", "person", 1)],
                LatestEnd = TimeFunction.Shift(30),
                SymmetryGroup = "g",
                SymmetryIndex = b,
            }),
        ];
        var activities = new List<Activity>();
        var lags = new List<Lag>();
        int[] work = [.. Enumerable.Range(0, kinds).Select(_ => random.Next(3, 12))];
        int[] apartFrom = [.. Enumerable.Range(0, kinds).Select(_ => random.Next(0, 40))];
        bool somewhereElse = random.Next(2) == 0;
        for (int i = 0; i < 5; i++)
        {
            int kind = i % kinds;
            string id = $"a{i}";
            List<Mode> modes = [.. batches.Select(b => In(b.Id.Value, work[kind], 2) with { Id = new ModeId($"{id} in {b.Id}") })];
            if (somewhereElse)
                modes.Add(In("other", work[kind], 5));
            activities.Add(Activity(id, [.. modes]));
            lags.Add(Lag(StartOf("first"), StartOf(id), apartFrom[kind]));
            lags.Add(Lag(EndOf(id), StartOf("last"), ready) with { FromModes = [.. modes.Take(3).Select(m => m.Id)] });
        }

        return new Project
        {
            Horizon = 300,
            Resources = [Resource("person", new Window(0, random.Next(30, 60)), new Window(70, 120), new Window(130, 300)) with { Capacity = random.Next(1, 3) }],
            Batches = [.. batches, new Batch { Id = new BatchId("other"), Setup = 2, Cost = random.Next(0, 20), Crews = [Crew("one", "person", 1)], MaxWork = 20 }],
            Activities = [.. activities, Activity("first", Alone("m", 5, needs: "person")), Activity("last", Alone("m", 5, needs: "person"))],
            Lags = [.. lags],
            Charges = [PerMinute("last", Edge.Start, 300, 15, random.Next(1, 6))],
        };
    }
}
