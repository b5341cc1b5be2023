using Seamwright.Scheduling.Makespan.Bounds;
using Seamwright.Scheduling.Makespan.Reducing;
using Seamwright.Scheduling.Makespan.Starting;
using Xunit;

namespace Seamwright.Scheduling.Tests.Makespan;

/// <summary>The makespan solver and its parts, held against every schedule of small problems.</summary>
public class MakespanSolverTests
{
    private const int Horizon = 14;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Problems_with_precedences_are_solved_to_the_true_optimum(int seed) =>
        AssertSolved(RandomMakespanProblems.WithPrecedences(seed, 5, longest: 3), new MakespanOptions { Seed = seed });

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Problems_with_modes_and_a_stock_are_solved_to_the_true_optimum(int seed) =>
        AssertSolved(RandomMakespanProblems.WithModes(seed, 4), new MakespanOptions { Seed = seed });

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Problems_with_maximum_lags_are_solved_or_proven_to_have_no_schedule(int seed) =>
        AssertSolved(RandomMakespanProblems.WithTimeLags(seed, 5), new MakespanOptions { Seed = seed });

    [Fact]
    public void Some_of_the_problems_with_maximum_lags_have_no_schedule()
    {
        var answers = Seeds.Select(seed => MakespanSolver.Solve(RandomMakespanProblems.WithTimeLags(seed.Data, 5)));

        Assert.Contains(answers, a => a.Infeasible);
        Assert.Contains(answers, a => !a.Infeasible);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Bounds_without_search_never_exceed_the_optimum(int seed)
    {
        MakespanProblem[] problems = [RandomMakespanProblems.WithPrecedences(seed, 9), RandomMakespanProblems.WithModes(seed, 7), RandomMakespanProblems.WithTimeLags(seed, 7)];

        Assert.All(problems, problem =>
        {
            MakespanAnswer answer = MakespanSolver.Solve(problem, new MakespanOptions { TimeLimit = TimeSpan.FromMinutes(1) });
            Assert.True(answer.Proven);
            if (ReducedProblem.Of(problem) is { } reduced && answer.Schedule is { } shortest)
                Assert.InRange(LowerBounds.Of(reduced), 1, shortest.Makespan);
        });
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Schedules_from_lists_keep_the_problem_and_get_no_longer(int seed)
    {
        MakespanProblem problem = RandomMakespanProblems.WithPrecedences(seed, 40, longest: 9);
        ReducedProblem reduced = ReducedProblem.Of(problem)!;
        var lists = new ListEvolution(reduced, new int[reduced.Count], new Random(seed));

        int shortest = int.MaxValue;
        for (int n = 0; n < 300; n++)
        {
            if (!lists.Step())
                continue;
            MakespanSchedule schedule = reduced.Schedule(lists.Best!.Value.Starts, lists.Best.Value.Modes);
            Assert.Empty(MakespanChecker.Check(problem, schedule));
            Assert.True(schedule.Makespan < shortest);
            shortest = schedule.Makespan;
        }

        Assert.True(shortest < int.MaxValue);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Justification_never_lengthens_a_schedule(int seed)
    {
        MakespanProblem problem = RandomMakespanProblems.WithPrecedences(seed, 30, longest: 9);
        ReducedProblem reduced = ReducedProblem.Of(problem)!;
        var scheduler = new SerialScheduler(reduced, new int[reduced.Count]);
        int[] list = [.. Enumerable.Range(0, reduced.Count)];
        int[] starts = new int[reduced.Count];
        int before = scheduler.Forward(list, starts);

        int after = new Justification(scheduler, reduced.Count).Once(list, starts, before);

        Assert.True(after <= before);
        Assert.Empty(MakespanChecker.Check(problem, reduced.Schedule(starts, new int[reduced.Count])));
    }

    // By hand: mode 1 is as mode 0 but longer, mode 2 needs 4 of 3 units; the second activity's dear mode overdraws the stock of 5
    // together with the 2 that the first takes at least.
    [Fact]
    public void Modes_that_cannot_be_chosen_or_need_not_be_are_left_out()
    {
        var problem = new MakespanProblem
        {
            Capacities = [3],
            Stocks = [5],
            Activities =
            [
                new MakespanActivity([new MakespanMode(2, [1], [2]), new MakespanMode(3, [1], [2]), new MakespanMode(1, [4], [0]), new MakespanMode(1, [1], [3])]),
                new MakespanActivity([new MakespanMode(1, [1], [4]), new MakespanMode(2, [1], [3])]),
            ],
        };

        Assert.Equal([[0], [1]], ModeReduction.Kept(problem)!.Select(k => k.ToArray()));
    }

    [Fact]
    public void Lags_that_contradict_each_other_leave_no_schedule()
    {
        var problem = new MakespanProblem
        {
            Capacities = [],
            Activities = [.. Enumerable.Repeat(new MakespanActivity([new MakespanMode(1, [], [])]), 2)],
            Lags = [new MakespanLag(0, Edge.Start, 1, 5), new MakespanLag(1, Edge.Start, 0, -4)],
        };

        Assert.True(MakespanSolver.Solve(problem).Infeasible);
    }

    [Fact]
    public void The_same_seed_gives_the_same_schedule()
    {
        MakespanProblem problem = RandomMakespanProblems.WithPrecedences(3, 40, longest: 9);
        var options = new MakespanOptions { Deterministic = true, Seed = 5, TimeLimit = TimeSpan.FromSeconds(0.5) };

        MakespanAnswer[] answers = [.. Enumerable.Range(0, 2).Select(_ => MakespanSolver.Solve(problem, options))];

        Assert.Equal(answers[0].Schedule!.Starts, answers[1].Schedule!.Starts);
        Assert.Equal(answers[0].LowerBound, answers[1].LowerBound);
    }

    [Fact]
    public void A_cancelled_search_ends_with_the_exception()
    {
        using var cancel = new CancellationTokenSource(TimeSpan.FromMilliseconds(200));
        var options = new MakespanOptions { TimeLimit = TimeSpan.FromMinutes(10), Cancellation = cancel.Token };

        Assert.ThrowsAny<OperationCanceledException>(() => MakespanSolver.Solve(HardProblem(), options));
    }

    [Fact]
    public void Mistakes_are_told_before_anything_is_solved()
    {
        var problem = new MakespanProblem { Capacities = [1], Activities = [new MakespanActivity([])], Lags = [MakespanLag.Precedence(0, 3)] };

        var mistakes = Assert.Throws<InvalidProjectException>(() => MakespanSolver.Solve(problem, new MakespanOptions { Workers = 0 })).Mistakes;

        Assert.Equal(["Activity 0 has no mode.", "A lag from 0 to 3 names an activity that is not there.", "There must be 1 to 64 workers."], mistakes);
    }

    /// <summary>Many activities of all lengths and sizes on scarce resources: nobody proves its optimum in 10 s.</summary>
    private static MakespanProblem HardProblem()
    {
        var random = new Random(1);
        return new MakespanProblem
        {
            Capacities = [17, 19, 23],
            Activities = [.. Enumerable.Range(0, 150).Select(_ => new MakespanActivity([new MakespanMode(random.Next(1, 30), [random.Next(1, 11), random.Next(1, 11), random.Next(1, 11)], [])]))],
            Lags = [.. Enumerable.Range(0, 150).SelectMany(i => Enumerable.Range(0, 2).Select(_ => random.Next(i + 1, i + 20)).Where(j => j < 150).Select(j => MakespanLag.Precedence(i, j)))],
        };
    }

    private static void AssertSolved(MakespanProblem problem, MakespanOptions options)
    {
        int? shortest = RandomMakespanProblems.Shortest(problem, Horizon);

        MakespanAnswer answer = MakespanSolver.Solve(problem, options with { TimeLimit = TimeSpan.FromMinutes(1) });

        Assert.True(answer.Proven);
        Assert.Equal(shortest, answer.Schedule?.Makespan);
        if (answer.Schedule is { } schedule)
            Assert.Empty(MakespanChecker.Check(problem, schedule));
    }
}
