using Google.OrTools.Graph;

namespace Seamwright.Planning.WholeShop;

/// <summary>
/// A lower bound of the whole shop's cost that sees the booth: every vehicle needs a paint slot of its own, so the cheapest assignment of
/// vehicles to slots costs no more than any plan. Each vehicle's cost in a slot is a bound of its own.
/// </summary>
/// <remarks>Linear sum assignment, solved exactly (Burkard, Dell'Amico and Martello, Assignment Problems, SIAM 2009; solver of OR-Tools).</remarks>
internal static class SlotBound
{
    /// <param name="vehicles">Per vehicle its slots by start, with a lower bound each; a vehicle without slots is left out.</param>
    /// <returns>Bound for all of them. [solver money]</returns>
    public static long Of(IReadOnlyList<IReadOnlyList<(int Start, long Bound)>> vehicles)
    {
        var wanting = vehicles.Where(slots => slots.Count > 0).ToList();
        var starts = wanting.SelectMany(slots => slots.Select(slot => slot.Start)).Distinct().Order().ToList();
        if (wanting.Count == 0)
            return 0;

        // As many further slots as vehicles, free of charge for those that fill the square and at the vehicle's own bound otherwise:
        // a vehicle without a slot of its own is at least as dear.
        var place = starts.Select((start, index) => (start, index)).ToDictionary(pair => pair.start, pair => pair.index);
        int size = starts.Count + wanting.Count;
        var problem = new LinearSumAssignment();
        for (int v = 0; v < size; v++)
        {
            if (v >= wanting.Count)
            {
                for (int s = 0; s < size; s++)
                    problem.AddArcWithCost(v, s, 0);
                continue;
            }
            foreach (var (start, bound) in wanting[v])
                problem.AddArcWithCost(v, place[start], bound);
            long most = wanting[v].Max(slot => slot.Bound);
            for (int s = starts.Count; s < size; s++)
                problem.AddArcWithCost(v, s, most);
        }
        return problem.Solve() == LinearSumAssignment.Status.OPTIMAL ? problem.OptimalCost() : wanting.Sum(slots => slots.Min(slot => slot.Bound));
    }
}
