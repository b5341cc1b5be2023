using System.Collections.Immutable;

namespace Seamwright.Planning.WholeShop;

/// <summary>Which vehicles are taken out and put back together: one that pays much for sharing, and those that stand in its way.</summary>
internal static class Neighbourhood
{
    /// <summary>Vehicles to move, the one that has most to gain first or last by chance; empty where nobody can gain.</summary>
    public static ImmutableArray<int> Choose(ShopState state, ImmutableArray<VehicleSearch> vehicles, Random random, int most)
    {
        var regrets = Enumerable.Range(0, vehicles.Length)
            .Where(i => vehicles[i].MayHavePlan)
            .Select(i => (Vehicle: i, Regret: state.Vehicles[i] is { } placed ? Math.Max(0, placed.Cost - vehicles[i].Bound) : vehicles[i].Bound + 1))
            .ToList();
        long all = regrets.Sum(item => item.Regret);
        if (all == 0)
            return [];

        long at = random.NextInt64(all);
        int seed = regrets.First(item => (at -= item.Regret) < 0).Vehicle;
        if (most == 1)
            return [seed];
        var inTheWay = InTheWay(state, vehicles, seed).ToList();
        int wanted = Math.Min(inTheWay.Count, 1 + random.Next(most - 1));
        var chosen = new List<int>();
        while (chosen.Count < wanted)
        {
            // Those that are in the way most are likelier: the smaller of two draws.
            int index = Math.Min(random.Next(inTheWay.Count), random.Next(inTheWay.Count));
            chosen.Add(inTheWay[index]);
            inTheWay.RemoveAt(index);
        }
        var order = chosen.OrderBy(_ => random.Next()).ToList();
        order.Insert(random.Next(3) == 0 ? order.Count : 0, seed);
        return [.. order];
    }

    /// <summary>Vehicles that take people, booth or bays which this one would use if it were alone; the ones that overlap longest first.</summary>
    private static IEnumerable<int> InTheWay(ShopState state, ImmutableArray<VehicleSearch> vehicles, int seed)
    {
        if (vehicles[seed].Alone is not { } alone)
            return Enumerable.Range(0, vehicles.Length).Where(i => i != seed && state.Vehicles[i] is not null);
        var wished = Placed.Of(vehicles[seed].Case, alone);
        return Enumerable.Range(0, vehicles.Length)
            .Where(i => i != seed && state.Vehicles[i] is not null)
            .Select(i => (Vehicle: i, Overlap: Overlap(wished, state.Vehicles[i]!)))
            .Where(item => item.Overlap > 0)
            .OrderByDescending(item => item.Overlap)
            .Select(item => item.Vehicle);
    }

    private static int Overlap(Placed a, Placed b)
    {
        int minutes = 0;
        foreach (var (person, time) in a.People)
            minutes += b.People.Where(other => other.Person == person).Sum(other => Math.Max(0, Math.Min(time.To, other.Time.To) - Math.Max(time.From, other.Time.From)));
        foreach (var time in a.Booth)
            minutes += b.Booth.Sum(other => Math.Max(0, Math.Min(time.To, other.To) - Math.Max(time.From, other.From)));
        return minutes;
    }
}
