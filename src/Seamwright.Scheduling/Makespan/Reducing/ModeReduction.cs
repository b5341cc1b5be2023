using System.Collections.Immutable;

namespace Seamwright.Scheduling.Makespan.Reducing;

/// <summary>
/// Leaves out modes that cannot be chosen or need not be, and stocks that cannot run short, until nothing changes.
/// Source: Sprecher, Hartmann, Drexl (1997), An exact algorithm for project scheduling with multiple modes, OR Spektrum 19, 195-203.
/// </summary>
internal static class ModeReduction
{
    /// <returns>Per activity the numbers of the modes that stay; null if some activity has none left.</returns>
    public static int[][]? Kept(MakespanProblem problem)
    {
        int[][] kept = [.. problem.Activities.Select((a, i) => Enumerable.Range(0, a.Modes.Length)
            .Where(k => !a.Modes[k].Demands.Where((d, r) => d > problem.Capacities[r] && a.Modes[k].Duration > 0).Any()).ToArray())];
        for (int before = -1, left = Total(kept); left != before; before = left, left = Total(kept))
        {
            if (kept.Any(k => k.Length == 0))
                return null;
            kept = Affordable(problem, kept);
            if (kept.Any(k => k.Length == 0))
                return null;
            kept = Efficient(problem, kept);
        }

        return kept;
    }

    /// <summary>Stocks that can run short with the modes that stayed.</summary>
    public static int[] Scarce(MakespanProblem problem, int[][] kept) =>
        [.. Enumerable.Range(0, problem.Stocks.Length).Where(s => kept.Select((modes, i) => modes.Max(k => (long)problem.Activities[i].Modes[k].Consumes[s])).Sum() > problem.Stocks[s])];

    private static int Total(int[][] kept) => kept.Sum(k => k.Length);

    /// <summary>Without modes that overdraw a stock even if every other activity takes as little as it can.</summary>
    private static int[][] Affordable(MakespanProblem problem, int[][] kept)
    {
        long[][] least = [.. kept.Select((modes, i) => problem.Stocks.Select((_, s) => modes.Min(k => (long)problem.Activities[i].Modes[k].Consumes[s])).ToArray())];
        long[] total = [.. problem.Stocks.Select((_, s) => least.Sum(l => l[s]))];
        return [.. kept.Select((modes, i) => modes.Where(k =>
        {
            ImmutableArray<int> consumes = problem.Activities[i].Modes[k].Consumes;
            return Enumerable.Range(0, consumes.Length).All(s => total[s] - least[i][s] + consumes[s] <= problem.Stocks[s]);
        }).ToArray())];
    }

    /// <summary>Without modes that another one of the activity matches in everything: it is no longer and takes no more.</summary>
    private static int[][] Efficient(MakespanProblem problem, int[][] kept)
    {
        int[] scarce = Scarce(problem, kept);
        return [.. kept.Select((modes, i) => modes.Where(k => !modes.Any(other => other != k && Covers(problem, i, other, k, scarce) && (other < k || !Covers(problem, i, k, other, scarce)))).ToArray())];
    }

    private static bool Covers(MakespanProblem problem, int activity, int better, int worse, int[] scarce)
    {
        (MakespanMode b, MakespanMode w) = (problem.Activities[activity].Modes[better], problem.Activities[activity].Modes[worse]);
        return b.Duration <= w.Duration && Enumerable.Range(0, b.Demands.Length).All(r => b.Demands[r] <= w.Demands[r]) && scarce.All(s => b.Consumes[s] <= w.Consumes[s]);
    }
}
