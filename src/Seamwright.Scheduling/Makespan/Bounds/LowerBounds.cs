using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Bounds;

/// <summary>How long a project takes at least, without any search.</summary>
internal static class LowerBounds
{
    public static int Of(ReducedProblem problem) => Math.Max(problem.Network.CriticalPath, Energy(problem));

    /// <summary>
    /// Activities that cannot start before h and have at least q to follow after their end do their work on a resource in between:
    /// h + work / capacity + q, for every h and q. The capacity-based bound of the literature, with heads and tails
    /// (Klein and Scholl 1999, Computing lower bounds by destructive improvement, EJOR 112, 322-346).
    /// </summary>
    public static int Energy(ReducedProblem problem)
    {
        int best = 0;
        for (int r = 0; r < problem.Resources; r++)
        {
            int capacity = problem.Source.Capacities[r];
            var work = Enumerable.Range(0, problem.Count)
                .Select(i => (Head: problem.Network.Heads[i], After: problem.Network.Tails[i] - problem.ShortestDuration(i), Work: problem.Modes[i].Min(m => (long)m.Duration * m.Demands[r])))
                .Where(w => w.Work > 0)
                .OrderByDescending(w => w.After)
                .ToArray();
            foreach (int head in work.Select(w => w.Head).Distinct())
            {
                long sum = 0;
                foreach (var (from, after, amount) in work)
                {
                    if (from < head)
                        continue;
                    sum += amount;
                    best = Math.Max(best, head + (int)((sum + capacity - 1) / capacity) + after);
                }
            }
        }

        return best;
    }
}
