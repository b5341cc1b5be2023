using System.Collections.Immutable;
using Seamwright.Materials;

namespace Seamwright.Quantities;

/// <summary>
/// Who gets which nozzle. A pack's own first, then loose ones made for the ratio, then those that lie with packs of the same ratio and are
/// not needed there, and those that fit any ratio last: in this order as few as possible are missing.
/// </summary>
internal static class NozzleSharing
{
    private sealed record Need(PackService Service, PackId? Pack, string? Ratio, int Count);

    internal static (ImmutableArray<NozzleTake> Takes, ImmutableArray<NozzleShortage> Shortages) Share(
        ImmutableArray<PackService> services,
        ImmutableArray<OrderedPack> shelf,
        ImmutableArray<NozzleStock> loose,
        IReadOnlyDictionary<MaterialId, DataSheet> sheets)
    {
        var withPack = shelf
            .Where(item => sheets.ContainsKey(item.Pack.Material) && Nozzles.Takes(sheets[item.Pack.Material]))
            .ToDictionary(item => item.Pack.Id, item => PackUsability.NozzlesWith(item.Pack, sheets[item.Pack.Material]));
        var drawer = loose.Select(stock => stock.Count).ToArray();
        var open = Needs(services, sheets).ToList();
        var takes = new List<NozzleTake>();

        Pass((need, wanted) => need.Pack is { } own && withPack.TryGetValue(own, out int there) ? FromPack(need, own, Math.Min(wanted, there)) : 0);
        Pass((need, wanted) => FromDrawer(need, wanted, ratio => ratio is not null && ratio == need.Ratio));
        Pass(FromOtherPacks);
        Pass((need, wanted) => FromDrawer(need, wanted, ratio => ratio is null));

        ImmutableArray<NozzleShortage> shortages =
        [
            .. open.Where(need => need.Count > 0)
                .GroupBy(need => need.Service)
                .Select(group => new NozzleShortage(
                    group.Key.Demand.Id, group.Key.Demand.Material, group.Key.Demand.PlannedUse, group.First().Ratio, group.Sum(need => need.Count))),
        ];
        var order = services.Select((service, index) => (service.Demand.Id, index)).DistinctBy(pair => pair.Id).ToDictionary(pair => pair.Id, pair => pair.index);
        return ([.. takes.OrderBy(take => order[take.Demand])], shortages);

        void Pass(Func<Need, int, int> give)
        {
            for (int i = 0; i < open.Count; i++)
            {
                if (open[i].Count > 0)
                    open[i] = open[i] with { Count = open[i].Count - give(open[i], open[i].Count) };
            }
        }

        int FromPack(Need need, PackId pack, int count)
        {
            if (count <= 0)
                return 0;
            withPack[pack] -= count;
            takes.Add(new NozzleTake(need.Service.Demand.Id, pack, need.Ratio, count));
            return count;
        }

        int FromDrawer(Need need, int wanted, Func<string?, bool> fits)
        {
            int given = 0;
            for (int i = 0; i < drawer.Length && given < wanted; i++)
            {
                int count = fits(loose[i].FitsRatio) && !(loose[i].Arrives > need.Service.Demand.PlannedUse) ? Math.Min(wanted - given, drawer[i]) : 0;
                if (count <= 0)
                    continue;
                drawer[i] -= count;
                given += count;
                takes.Add(new NozzleTake(need.Service.Demand.Id, null, loose[i].FitsRatio, count));
            }
            return given;
        }

        int FromOtherPacks(Need need, int wanted)
        {
            int given = 0;
            foreach (var item in shelf)
            {
                if (given == wanted)
                    break;
                bool fits = item.Arrives <= need.Service.Demand.PlannedUse
                    && withPack.ContainsKey(item.Pack.Id)
                    && need.Ratio is not null
                    && Nozzles.RatioOf(sheets[item.Pack.Material]) == need.Ratio;
                if (fits)
                    given += FromPack(need, item.Pack.Id, Math.Min(wanted - given, withPack[item.Pack.Id]));
            }
            return given;
        }
    }

    private static IEnumerable<Need> Needs(ImmutableArray<PackService> services, IReadOnlyDictionary<MaterialId, DataSheet> sheets)
    {
        foreach (var service in services)
        {
            string? ratio = Nozzles.RatioOf(sheets[service.Demand.Material]);
            foreach (var take in service.Takes)
            {
                if (take.NozzleCount > 0)
                    yield return new Need(service, take.Pack, ratio, take.NozzleCount);
            }
            if (service.NozzlesForOrdered > 0)
                yield return new Need(service, null, ratio, service.NozzlesForOrdered);
        }
    }
}
