using System.Collections.Immutable;
using System.Numerics;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>What one demand got.</summary>
/// <param name="Demand">The demand.</param>
/// <param name="Takes">From which packs.</param>
/// <param name="Shortage">What is missing; null = nothing.</param>
/// <param name="NozzlesForOrdered">Nozzles that the packs to be ordered will need beyond what they bring.</param>
internal sealed record PackService(PackDemand Demand, ImmutableArray<PackTake> Takes, PackShortage? Shortage, int NozzlesForOrdered);

/// <summary>Serves the demands of one material from its packs.</summary>
internal static class PackSelection
{
    /// <summary>A nanolitre: below this two volumes are the same, so that sums of millilitres do not open another pack.</summary>
    private static readonly Volume Speck = Volume.FromMillilitres(1e-6);

    /// <summary>A micrometre, likewise for strips.</summary>
    private static readonly Length Hair = Length.FromMicrometres(1);

    internal static ImmutableArray<PackService> Serve(
        ImmutableArray<PackDemand> demands, ImmutableArray<OrderedPack> shelf, DataSheet sheet, DateTimeZone zone, Volume wastePerNozzle)
    {
        ImmutableArray<OrderedPack> packs = [.. shelf.Where(item => demands.Any(demand => MayServe(item, demand, sheet, zone)))];
        var waste = Nozzles.Takes(sheet) ? wastePerNozzle : Volume.Zero;

        var best = InOrder(demands, packs, sheet, zone, waste);
        double least = LeastMissing(demands, packs, sheet, zone, waste);
        if (Missing(best) <= least + Speck.Millilitres)
            return best;

        // The order of use can spend or open a pack that a later session needs: other selections are tried before a shortage is reported.
        foreach (var selection in OtherSelections(packs, demands))
        {
            var other = InOrder(demands, selection, sheet, zone, waste);
            if (Missing(other) < Missing(best) - Speck.Millilitres)
                best = other;
            if (Missing(best) <= least + Speck.Millilitres)
                break;
        }
        return best;
    }

    /// <summary>The pack after a take.</summary>
    internal static Pack Less(Pack pack, PackTake take, DataSheet sheet, DateTimeZone zone, Instant use) =>
        PackUsability.Begun(pack, sheet, zone, use) with
        {
            Left = take.Volume >= pack.Left ? Volume.Zero : pack.Left - take.Volume,
            StripLeft = take.Strip >= pack.StripLeft ? Length.Zero : pack.StripLeft - take.Strip,
        };

    private static bool MayServe(OrderedPack item, PackDemand demand, DataSheet sheet, DateTimeZone zone) =>
        item.Arrives <= demand.PlannedUse && PackUsability.MayBeUsed(item.Pack, sheet, demand.PlannedUse, zone);

    /// <summary>
    /// The packs with one of them kept for a later session (as if it arrived then), or some left out; nearly all first. With few packs
    /// every set is tried, so that another pack on the shelf can only help.
    /// </summary>
    private static IEnumerable<ImmutableArray<OrderedPack>> OtherSelections(ImmutableArray<OrderedPack> packs, ImmutableArray<PackDemand> demands)
    {
        ImmutableArray<Instant> later = [.. demands.Select(demand => demand.PlannedUse).Distinct().Skip(1)];
        var sets = packs.Length > PackAllocation.PacksTriedInFull
            ? [packs, .. packs.Select(packs.Remove)]
            : Enumerable.Range(0, 1 << packs.Length)
                .OrderByDescending(set => BitOperations.PopCount((uint)set))
                .Select(set => packs.Where((_, index) => (set >> index & 1) == 1).ToImmutableArray());

        foreach (var set in sets)
        {
            yield return set;
            foreach (var pack in set)
            {
                foreach (var moment in later.Where(moment => moment > pack.Arrives))
                    yield return set.Replace(pack, pack with { Arrives = moment });
            }
        }
    }

    /// <summary>What is missing however the packs are used: sessions that no pack can serve, and what all packs together hold too little.</summary>
    private static double LeastMissing(
        ImmutableArray<PackDemand> demands, ImmutableArray<OrderedPack> packs, DataSheet sheet, DateTimeZone zone, Volume waste)
    {
        double hopeless = 0, wanted = 0;
        foreach (var demand in demands)
        {
            double all = demand.Pieces.IsEmpty
                ? demand.Volume > Speck ? (demand.Volume + waste * demand.Runs).Millilitres : 0
                : demand.Pieces.Sum(piece => piece.Millimetres);
            if (packs.Any(item => MayServe(item, demand, sheet, zone)))
                wanted += all;
            else
                hopeless += all;
        }
        double held = packs.Sum(item => item.Pack.Left.Millilitres + item.Pack.StripLeft.Millimetres);
        return hopeless + Math.Max(0, wanted - held);
    }

    private static double Missing(ImmutableArray<PackService> services) => services.Sum(service =>
        service.Shortage is { } shortage ? shortage.Volume.Millilitres + shortage.Pieces.Sum(piece => piece.Millimetres) : 0);

    private static ImmutableArray<PackService> InOrder(
        ImmutableArray<PackDemand> demands, ImmutableArray<OrderedPack> packs, DataSheet sheet, DateTimeZone zone, Volume waste)
    {
        var services = ImmutableArray.CreateBuilder<PackService>(demands.Length);
        var standing = packs;
        foreach (var demand in demands)
        {
            PackService service;
            (service, standing) = demand.Pieces.IsEmpty
                ? Paste(demand, standing, sheet, zone, waste)
                : Strip(demand, standing, sheet, zone);
            services.Add(service);
        }
        return services.MoveToImmutable();
    }

    private static (PackService Service, ImmutableArray<OrderedPack> Standing) Paste(
        PackDemand demand, ImmutableArray<OrderedPack> standing, DataSheet sheet, DateTimeZone zone, Volume waste)
    {
        if (demand.Volume <= Speck)
            return (new PackService(demand, [], null, 0), standing);

        var alone = demand.Volume + waste * demand.Runs;
        ImmutableArray<OrderedPack> usable =
        [
            .. standing
            .Where(item => MayServe(item, demand, sheet, zone) && item.Pack.Left > waste + Speck)
            .OrderBy(item => !PackUsability.IsBegun(item.Pack))
            .ThenBy(item => PackUsability.Window(item.Pack, sheet, zone).Until ?? Instant.MaxValue)
            .ThenBy(item => item.Pack.Left + Speck < alone)
            .ThenBy(item => item.Pack.Left + Speck < alone ? -item.Pack.Left.Millilitres : item.Pack.Left.Millilitres),
        ];

        var filling = Filling.Of([], demand.Volume, demand.Runs, waste);
        foreach (var item in usable)
        {
            filling = Filling.Of(filling.Packs.Add(item.Pack), demand.Volume, demand.Runs, waste);
            if (filling.Missing <= Speck)
                break;
        }
        // A second cartridge takes a second nozzle, with what that holds back: a rest is not emptied at that price where one pack holds all.
        if (filling.NozzleCounts.Sum() > demand.Runs && usable.FirstOrDefault(item => item.Pack.Left + Speck >= alone) is { } whole)
            filling = Filling.Of([whole.Pack], demand.Volume, demand.Runs, waste);

        PackShortage? shortage = null;
        int nozzlesForOrdered = 0;
        if (filling.Missing > Speck)
        {
            int? toOrder = PacksToOrder(filling.Packs, demand, sheet, waste);
            shortage = new PackShortage(demand.Id, demand.Material, demand.PlannedUse, filling.Missing, [], toOrder);
            if (toOrder is { } ordered)
            {
                // What is ordered takes its share of the runs, so the shelf's packs need fewer nozzles.
                filling = Filling.Of(filling.Packs, demand.Volume, demand.Runs - ordered, waste);
                nozzlesForOrdered = waste > Volume.Zero ? Math.Max(0, ordered + filling.Unplaced - ordered * sheet.Pack.NozzlesIncluded) : 0;
            }
        }

        var takes = filling.Takes(demand);
        return (new PackService(demand, takes, shortage, nozzlesForOrdered), AfterTakes(standing, takes, sheet, zone, demand.PlannedUse));
    }

    private static int? PacksToOrder(ImmutableArray<Pack> taken, PackDemand demand, DataSheet sheet, Volume waste)
    {
        if (sheet.Pack.Content <= waste + Speck)
            return null;

        int packs = 1;
        while (sheet.Pack.Content * packs + Speck < Filling.Of(taken, demand.Volume, demand.Runs - packs, waste).Missing + waste * packs)
            packs++;
        return packs;
    }

    private static (PackService Service, ImmutableArray<OrderedPack> Standing) Strip(
        PackDemand demand, ImmutableArray<OrderedPack> standing, DataSheet sheet, DateTimeZone zone)
    {
        var takes = new List<PackTake>();
        var missing = new List<Length>();
        foreach (var piece in demand.Pieces.OrderByDescending(piece => piece))
        {
            var roll = standing
                .Where(item => MayServe(item, demand, sheet, zone) && item.Pack.StripLeft + Hair >= piece)
                .OrderBy(item => !PackUsability.IsBegun(item.Pack))
                .ThenBy(item => PackUsability.Window(item.Pack, sheet, zone).Until ?? Instant.MaxValue)
                .ThenBy(item => item.Pack.StripLeft)
                .FirstOrDefault();
            if (roll is null)
            {
                missing.Add(piece);
                continue;
            }

            var take = new PackTake(
                demand.Id, demand.Material, roll.Pack.Id, roll.Pack.Lot, Volume.Zero, Volume.Zero, [piece], 0, !PackUsability.IsBegun(roll.Pack));
            standing = AfterTakes(standing, [take], sheet, zone, demand.PlannedUse);
            int earlier = takes.FindIndex(t => t.Pack == take.Pack);
            if (earlier < 0)
                takes.Add(take);
            else
                takes[earlier] = takes[earlier] with { Pieces = takes[earlier].Pieces.Add(piece) };
        }

        var shortage = missing.Count == 0
            ? null
            : new PackShortage(demand.Id, demand.Material, demand.PlannedUse, Volume.Zero, [.. missing], RollsFor(missing, sheet.Pack.StripLength));
        return (new PackService(demand, [.. takes], shortage, 0), standing);
    }

    /// <summary>New rolls for pieces, longest piece first, each on the first roll that has room; null where a piece is longer than a roll.</summary>
    private static int? RollsFor(List<Length> longestFirst, Length roll)
    {
        var rests = new List<Length>();
        foreach (var piece in longestFirst)
        {
            if (piece > roll + Hair)
                return null;
            int at = rests.FindIndex(rest => rest + Hair >= piece);
            if (at < 0)
            {
                rests.Add(roll);
                at = rests.Count - 1;
            }
            rests[at] -= piece;
        }
        return rests.Count;
    }

    private static ImmutableArray<OrderedPack> AfterTakes(
        ImmutableArray<OrderedPack> standing, ImmutableArray<PackTake> takes, DataSheet sheet, DateTimeZone zone, Instant use) =>
    [
        .. standing.Select(item =>
            takes.FirstOrDefault(take => take.Pack == item.Pack.Id) is { } taken
                ? item with { Pack = Less(item.Pack, taken, sheet, zone, use) }
                : item),
    ];
}
