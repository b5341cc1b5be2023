namespace Seamwright.Scheduling.Solving;

/// <summary>Fills demands from supplies where allowed: a small maximum flow by repeated augmenting paths.</summary>
internal static class Transport
{
    /// <returns>Amounts by [demand, supply], or null if some demand cannot be met.</returns>
    public static int[,]? Fill(int[] demands, int[] supplies, Func<int, int, bool> allowed)
    {
        var flow = new int[demands.Length, supplies.Length];
        int[] left = [.. supplies];
        for (int d = 0; d < demands.Length; d++)
        {
            int missing = demands[d];
            while (missing > 0)
            {
                int moved = Augment(d, missing, flow, left, allowed);
                if (moved == 0)
                    return null;
                missing -= moved;
            }
        }

        return flow;
    }

    /// <summary>Finds one path demand → supply (→ other demand → supply …) to a supply with something left, and moves along it.</summary>
    private static int Augment(int from, int wanted, int[,] flow, int[] left, Func<int, int, bool> allowed)
    {
        int demands = flow.GetLength(0);
        int supplies = flow.GetLength(1);
        var giver = new int[supplies];
        Array.Fill(giver, -1);
        var taken = new int[demands];
        Array.Fill(taken, -1);
        var queue = new Queue<int>([from]);
        var seen = new HashSet<int> { from };
        while (queue.TryDequeue(out int d))
        {
            for (int s = 0; s < supplies; s++)
            {
                if (giver[s] >= 0 || !allowed(d, s))
                    continue;
                giver[s] = d;
                if (left[s] > 0)
                    return Move(from, s, wanted, flow, left, giver, taken);
                for (int other = 0; other < demands; other++)
                {
                    if (flow[other, s] > 0 && seen.Add(other))
                    {
                        taken[other] = s;
                        queue.Enqueue(other);
                    }
                }
            }
        }

        return 0;
    }

    private static int Move(int from, int supply, int wanted, int[,] flow, int[] left, int[] giver, int[] taken)
    {
        int amount = Math.Min(wanted, left[supply]);
        for (int d = giver[supply]; d != from; d = giver[taken[d]])
            amount = Math.Min(amount, flow[d, taken[d]]);
        left[supply] -= amount;
        for (int s = supply; ;)
        {
            int d = giver[s];
            flow[d, s] += amount;
            if (d == from)
                return amount;
            s = taken[d];
            flow[d, s] -= amount;
        }
    }
}
