using System.Collections.Immutable;
using Seamwright.Scheduling;

namespace Seamwright.Planning.Mapping;

/// <summary>When a vehicle can stand in the shop, where other vehicles fill the bays at times.</summary>
internal static class Bays
{
    /// <summary>
    /// A vehicle stands in one bay from the first work on it until it goes to the booth, and from the end of paint until it is handed over:
    /// so nothing is done on it before the last full hour ahead of the slot ends, nor after the first full hour behind paint begins.
    /// </summary>
    /// <param name="full">Minutes at which no bay is free, ascending.</param>
    /// <param name="slot">Begin of paint.</param>
    /// <param name="painted">End of paint.</param>
    /// <param name="horizon">Last minute of the plan.</param>
    public static ImmutableArray<Window> Outside(ImmutableArray<Window> full, int slot, int painted, int horizon)
    {
        int from = full.Where(window => window.From < slot).Select(window => window.To).DefaultIfEmpty(0).Max();
        int to = full.Where(window => window.To > painted).Select(window => window.From).DefaultIfEmpty(horizon).Min();
        return Windows.Union([new(-1, Math.Min(from, slot)), new(Math.Max(to, painted), horizon + 1)]);
    }
}
