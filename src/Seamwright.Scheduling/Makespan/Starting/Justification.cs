namespace Seamwright.Scheduling.Makespan.Starting;

/// <summary>
/// Double justification (forward-backward improvement): everything to the right, latest end first, then everything to the left again,
/// earliest start first. The schedule never gets longer. Source: Valls, Ballestín, Quintanilla (2005), Justification and RCPSP: a
/// technique that pays, EJOR 165, 375-386.
/// </summary>
internal sealed class Justification(SerialScheduler scheduler, int count)
{
    private readonly int[] keys = new int[count];
    private readonly int[] late = new int[count];

    /// <summary>Repeats until the makespan stays the same.</summary>
    /// <param name="list">An order that <paramref name="starts"/> came from; afterwards the order of the new starts.</param>
    /// <param name="starts">A feasible schedule; afterwards the improved one.</param>
    /// <param name="makespan">Its makespan.</param>
    /// <returns>The new makespan.</returns>
    public int Improve(int[] list, int[] starts, int makespan)
    {
        while (true)
        {
            int now = Once(list, starts, makespan);
            if (now >= makespan)
                return now;
            makespan = now;
        }
    }

    /// <summary>Once to the right and once to the left.</summary>
    public int Once(int[] list, int[] starts, int makespan)
    {
        // Equal keys stay in their order from list to list, so activities without length never overtake what they wait for.
        for (int p = 0; p < list.Length; p++)
            keys[p] = -(starts[list[p]] + scheduler.Duration(list[p]));
        Array.Reverse(list);
        Array.Reverse(keys);
        StableSort(keys, list);
        scheduler.Backward(list, late, makespan);

        for (int p = 0; p < list.Length; p++)
            keys[p] = late[list[p]];
        Array.Reverse(list);
        Array.Reverse(keys);
        StableSort(keys, list);
        int shorter = scheduler.Forward(list, starts);
        for (int p = 0; p < list.Length; p++)
            keys[p] = starts[list[p]];
        StableSort(keys, list);
        return shorter;
    }

    /// <summary>Insertion sort: the lists are short and nearly sorted already.</summary>
    private static void StableSort(int[] keys, int[] items)
    {
        for (int p = 1; p < keys.Length; p++)
        {
            (int key, int item) = (keys[p], items[p]);
            int q = p;
            for (; q > 0 && keys[q - 1] > key; q--)
                (keys[q], items[q]) = (keys[q - 1], items[q - 1]);
            (keys[q], items[q]) = (key, item);
        }
    }
}
