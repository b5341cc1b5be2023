using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;
using Seamwright.Shops;

namespace Seamwright.Planning.WholeShop;

/// <summary>Who has which place in the shop. Immutable: a neighbouring state shares what has not moved.</summary>
internal sealed record ShopState(Shop Shop, SharedStock Stock, ImmutableArray<Placed?> Vehicles)
{
    /// <summary>Solver money of the vehicles that have a place.</summary>
    public long Cost => Vehicles.Sum(placed => placed?.Cost ?? 0);

    public int PlacedCount => Vehicles.Count(placed => placed is not null);

    public ShopState With(int vehicle, Placed? placed) => this with { Vehicles = Vehicles.SetItem(vehicle, placed) };

    /// <summary>What all vehicles but one take.</summary>
    public Others Others(int vehicle)
    {
        var people = new Dictionary<string, List<Window>>();
        var (lamps, booth, bays) = (new List<Window>(), new List<Window>(), new List<Window>());
        var others = new List<Placed>();
        for (int i = 0; i < Vehicles.Length; i++)
        {
            if (i == vehicle || Vehicles[i] is not { } placed)
                continue;
            others.Add(placed);
            foreach (var (person, time) in placed.People)
            {
                if (!people.TryGetValue(person, out var busy))
                    people.Add(person, busy = []);
                busy.Add(time);
            }
            lamps.AddRange(placed.Lamps);
            booth.AddRange(placed.Booth);
            bays.AddRange(placed.Bays);
        }
        return new Others
        {
            People = people.ToImmutableDictionary(entry => entry.Key, entry => Windows.Union(entry.Value)),
            Lamps = [.. lamps.OrderBy(run => run.From)],
            Booth = Windows.Union(booth),
            FullBays = Shop.Bays is { } count ? Windows.CoveredBy(count, bays) : [],
            LazyStock = new(() => Stock.Without(others.Select(placed => placed.Packs))),
        };
    }

    /// <summary>Whether a schedule fits beside what the others take.</summary>
    public static bool Fits(Placed placed, Others others, int lampCount) =>
        placed.People.All(item => !others.Of(item.Person).Meets(item.Time.From, item.Time.To))
        && placed.Booth.All(time => !others.Booth.Meets(time.From, time.To))
        && placed.Bays.All(time => !others.FullBays.Meets(time.From, time.To))
        && Windows.CoveredBy(lampCount + 1, others.Lamps.Concat(placed.Lamps)).IsEmpty
        && SharedStock.Holds(others.Stock, placed.Packs);
}
