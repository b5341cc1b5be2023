namespace Seamwright.Scheduling.Tests.Makespan;

/// <summary>Small random problems: small enough to try every schedule.</summary>
internal static class RandomMakespanProblems
{
    /// <summary>Precedences alone, one mode.</summary>
    public static MakespanProblem WithPrecedences(int seed, int activities, int longest = 4)
    {
        var random = new Random(seed);
        return new MakespanProblem
        {
            Capacities = [3, 2],
            Activities = [.. Enumerable.Range(0, activities).Select(_ => new MakespanActivity([Mode(random, longest, [])]))],
            Lags = [.. Pairs(activities).Where(_ => random.Next(4) == 0).Select(p => MakespanLag.Precedence(p.First, p.Second))],
        };
    }

    /// <summary>Two or three modes that draw on a stock which does not suffice for all.</summary>
    public static MakespanProblem WithModes(int seed, int activities)
    {
        var random = new Random(seed);
        return new MakespanProblem
        {
            Capacities = [3, 2],
            Stocks = [2 * activities],
            Activities = [.. Enumerable.Range(0, activities).Select(_ => new MakespanActivity([.. Enumerable.Range(0, random.Next(2, 4)).Select(_ => Mode(random, 4, [random.Next(0, 5)]))]))],
            Lags = [.. Pairs(activities).Where(_ => random.Next(4) == 0).Select(p => MakespanLag.Precedence(p.First, p.Second))],
        };
    }

    /// <summary>Minimum and maximum lags from start to start; some of these problems have no schedule.</summary>
    public static MakespanProblem WithTimeLags(int seed, int activities)
    {
        var random = new Random(seed);
        var lags = new List<MakespanLag>();
        foreach ((int first, int second) in Pairs(activities).Where(_ => random.Next(3) == 0))
        {
            int least = random.Next(0, 4);
            lags.Add(new MakespanLag(first, Edge.Start, second, least));
            if (random.Next(2) == 0)
                lags.Add(new MakespanLag(second, Edge.Start, first, -least - random.Next(0, 3)));
        }

        return new MakespanProblem
        {
            Capacities = [3, 2],
            Activities = [.. Enumerable.Range(0, activities).Select(_ => new MakespanActivity([Mode(random, 3, [])]))],
            Lags = [.. lags],
        };
    }

    /// <summary>The shortest makespan by trying every mode and every start up to a horizon; null if there is no schedule.</summary>
    public static int? Shortest(MakespanProblem problem, int horizon)
    {
        int count = problem.Activities.Length;
        var (starts, modes) = (new int[count], new int[count]);
        for (int makespan = 0; makespan <= horizon; makespan++)
        {
            if (Place(0, makespan))
                return makespan;
        }

        return null;

        bool Place(int i, int deadline)
        {
            if (i == count)
                return Kept(deadline);
            for (modes[i] = 0; modes[i] < problem.Activities[i].Modes.Length; modes[i]++)
            {
                for (starts[i] = 0; starts[i] + problem.Activities[i].Modes[modes[i]].Duration <= deadline; starts[i]++)
                {
                    if (LagsKept(i) && Place(i + 1, deadline))
                        return true;
                }
            }

            modes[i] = 0;
            return false;
        }

        // Only to spare hopeless branches; the checker looks at everything again.
        bool LagsKept(int placed) => problem.Lags.All(l => l.From > placed || l.To > placed
            || starts[l.To] >= starts[l.From] + l.Length + (l.Edge == Edge.End ? problem.Activities[l.From].Modes[modes[l.From]].Duration : 0));

        bool Kept(int deadline)
        {
            int latest = Enumerable.Range(0, count).Max(i => starts[i] + problem.Activities[i].Modes[modes[i]].Duration);
            return latest <= deadline && MakespanChecker.Check(problem, new MakespanSchedule([.. starts], [.. modes], latest)).IsEmpty;
        }
    }

    private static MakespanMode Mode(Random random, int longest, int[] consumes) =>
        new(random.Next(1, longest + 1), [random.Next(0, 4), random.Next(0, 3)], [.. consumes]);

    private static IEnumerable<(int First, int Second)> Pairs(int activities) =>
        from first in Enumerable.Range(0, activities)
        from second in Enumerable.Range(first + 1, activities - first - 1)
        select (first, second);
}
