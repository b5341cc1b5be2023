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
        if (Missing(best) <= 0)
            return best;

        // The order of use can spend a pack that a later session needs. Before a shortage is reported, other selections are tried.
        foreach (var selection in OtherSelections(packs))
        {
            var other = InOrder(demands, selection, sheet, zone, waste);
            if (Missing(other) < Missing(best))
                best = other;
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

    private static IEnumerable<ImmutableArray<OrderedPack>> OtherSelections(ImmutableArray<OrderedPack> packs)
    {
        if (packs.Length > PackAllocation.PacksTriedInFull)
            return packs.Select(packs.Remove);

        int all = (1 << packs.Length) - 1;
        return Enumerable.Range(0, all)
            .OrderByDescending(selection => BitOperations.PopCount((uint)selection))
            .Select(selection => packs.Where((_, index) => (selection >> index & 1) == 1).ToImmutableArray());
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
        var usable = standing
            .Where(item => MayServe(item, demand, sheet, zone) && item.Pack.Left > waste + Speck)
            .OrderBy(item => !PackUsability.IsBegun(item.Pack))
            .ThenBy(item => PackUsability.Window(item.Pack, sheet, zone).Until ?? Instant.MaxValue)
            .ThenBy(item => item.Pack.Left + Speck < alone)
            .ThenBy(item => item.Pack.Left + Speck < alone ? -item.Pack.Left.Millilitres : item.Pack.Left.Millilitres);

        var chosen = new List<Pack>();
        var sum = Volume.Zero;
        var needed = alone;
        foreach (var item in usable)
        {
            chosen.Add(item.Pack);
            sum += item.Pack.Left;
            needed = demand.Volume + waste * Nozzles.Needed(chosen.Count, demand.Runs);
            if (sum + Speck >= needed)
                break;
        }

        var takes = Draw(demand, chosen, needed, sheet, waste);
        var missing = needed - sum;
        var shortage = missing > Speck ? PasteShortage(demand, sheet, missing, chosen.Count, waste) : null;
        int nozzlesForOrdered = waste > Volume.Zero && shortage?.PacksToOrder is { } packs
            ? Math.Max(0, Nozzles.Needed(chosen.Count + packs, demand.Runs) - chosen.Count - packs * sheet.Pack.NozzlesIncluded)
            : 0;
        return (new PackService(demand, takes, shortage, nozzlesForOrdered), AfterTakes(standing, takes, sheet, zone, demand.PlannedUse));
    }

    /// <summary>Empties the chosen packs in order; the last one gives at least what its own nozzle holds, or nothing would reach the car.</summary>
    private static ImmutableArray<PackTake> Draw(PackDemand demand, List<Pack> chosen, Volume needed, DataSheet sheet, Volume waste)
    {
        var draws = new Volume[chosen.Count];
        var open = needed;
        for (int i = 0; i < draws.Length; i++)
        {
            draws[i] = Smaller(chosen[i].Left, open);
            open -= draws[i];
        }
        if (draws.Length > 1 && draws[^1] < waste + Speck)
        {
            var moved = Smaller(waste + Speck - draws[^1], draws[^2] - waste);
            draws[^1] += moved;
            draws[^2] -= moved;
        }

        bool mixes = waste > Volume.Zero;
        int more = mixes ? Math.Max(0, demand.Runs - draws.Length) : 0;
        int largest = Array.IndexOf(draws, draws.DefaultIfEmpty().Max());
        return
        [
            .. chosen.Select((pack, i) =>
            {
                int nozzles = !mixes ? 0 : i == largest ? 1 + more : 1;
                return new PackTake(
                    demand.Id, pack.Material, pack.Id, pack.Lot, draws[i], Smaller(waste * nozzles, draws[i]), [], nozzles, !PackUsability.IsBegun(pack));
            }),
        ];
    }

    private static PackShortage PasteShortage(PackDemand demand, DataSheet sheet, Volume missing, int packsTaken, Volume waste)
    {
        int? toOrder = null;
        int nozzlesCounted = Nozzles.Needed(packsTaken, demand.Runs);
        if (sheet.Pack.Content > waste + Speck)
        {
            int packs = 1;
            while (sheet.Pack.Content * packs + Speck < missing + waste * Math.Max(0, packsTaken + packs - nozzlesCounted))
                packs++;
            toOrder = packs;
        }
        return new PackShortage(demand.Id, demand.Material, demand.PlannedUse, missing, [], toOrder);
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

    private static Volume Smaller(Volume a, Volume b) => a <= b ? a : b;
}
