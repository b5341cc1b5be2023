using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Repairing;

/// <summary>Which activities may be planned anew; the others keep their modes and their order among each other.</summary>
internal static class Neighbourhood
{
    /// <summary>About so many activities that lie together in time, or around a random activity.</summary>
    public static bool[] Choose(ReducedProblem problem, int[] starts, int[] modes, int size, Random random)
    {
        int count = problem.Count;
        var free = new bool[count];
        int End(int i) => starts[i] + problem.Modes[i][modes[i]].Duration;
        int makespan = Enumerable.Range(0, count).Max(End);
        double at = random.NextDouble() * makespan;
        double spread = random.Next(3) == 0 ? makespan : 0;

        // Distance in time from a random moment, blurred in one case of three.
        int[] order = [.. Enumerable.Range(0, count).Select(i => (i, Key: Math.Abs(((starts[i] + End(i)) / 2.0) - at) + (spread * random.NextDouble()))).OrderBy(k => k.Key).Select(k => k.i)];
        foreach (int i in order.Take(size))
            free[i] = true;
        return free;
    }

    /// <summary>
    /// Pairs of fixed activities that share a resource and follow each other in the schedule, without those that follow from others.
    /// </summary>
    public static IEnumerable<(int First, int Second)> Orders(ReducedProblem problem, int[] starts, int[] modes, bool[] free)
    {
        int[] kept = [.. Enumerable.Range(0, problem.Count).Where(i => !free[i] && Mode(i).Duration > 0 && Mode(i).Demands.Any(d => d > 0)).OrderBy(i => starts[i])];
        var follows = new bool[kept.Length, kept.Length];
        ReducedMode Mode(int i) => problem.Modes[i][modes[i]];
        for (int a = 0; a < kept.Length; a++)
        {
            int end = starts[kept[a]] + Mode(kept[a]).Duration;
            for (int b = a + 1; b < kept.Length; b++)
                follows[a, b] = starts[kept[b]] >= end && Share(Mode(kept[a]), Mode(kept[b]));
        }

        for (int a = 0; a < kept.Length; a++)
        {
            for (int b = a + 1; b < kept.Length; b++)
            {
                if (!follows[a, b])
                    continue;
                bool implied = false;
                for (int c = a + 1; c < b && !implied; c++)
                    implied = follows[a, c] && follows[c, b];
                if (!implied)
                    yield return (kept[a], kept[b]);
            }
        }
    }

    private static bool Share(ReducedMode one, ReducedMode other)
    {
        for (int r = 0; r < one.Demands.Length; r++)
        {
            if (one.Demands[r] > 0 && other.Demands[r] > 0)
                return true;
        }

        return false;
    }
}
