using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Starting;

/// <summary>
/// Priority values of activities, the highest first. Source: Kolisch (1996), Serial and parallel resource-constrained project
/// scheduling methods revisited, EJOR 90, 320-333.
/// </summary>
internal static class PriorityRules
{
    /// <returns>One entry per rule, each with one value per activity, scaled to 0..1.</returns>
    public static double[][] Of(ReducedProblem problem, int[] modes)
    {
        int count = problem.Count;
        int[] all = [.. Enumerable.Range(0, count)];
        int Duration(int i) => problem.Modes[i][modes[i]].Duration;
        int Followers(int i) => all.Count(j => j != i && problem.Network.Distance(i, j) >= 0);
        double Work(int i) => Duration(i) * problem.Modes[i][modes[i]].Demands.Select((d, r) => d / (double)Math.Max(1, problem.Source.Capacities[r])).Sum();
        return
        [
            Scaled([.. all.Select(i => (double)problem.Network.Tails[i])]),                                                      // latest start
            Scaled([.. all.Select(i => (double)problem.Network.Tails[i] - Duration(i))]),                                        // latest finish
            Scaled([.. all.Select(i => (double)Followers(i))]),                                                                  // most total successors
            Scaled([.. all.Select(i => (double)Duration(i) + all.Where(j => j != i && problem.Network.Distance(i, j) >= 0).Sum(Duration))]),   // greatest rank positional weight
            Scaled([.. all.Select(i => Work(i) + all.Where(j => j != i && problem.Network.Distance(i, j) >= 0).Sum(Work))]),      // the same, counted in work
        ];
    }

    private static double[] Scaled(double[] values)
    {
        (double least, double most) = (values.Min(), values.Max());
        return [.. values.Select(v => most > least ? (v - least) / (most - least) : 0.5)];
    }
}
