using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Quantities;

/// <summary>
/// Which pack serves which session. First what may be used at all at the planned time, then opened before sealed, then the earliest end
/// of use, and among equals the pack that leaves least; but a session that one pack can serve is not split over two where that takes a
/// further mixing nozzle (common practice, no source). Source: first-expired-first-out as in WHO good distribution practices, Annex 5;
/// opened packs first is common practice.
/// </summary>
/// <param name="Takes">What is taken, in the order of use.</param>
/// <param name="NozzleTakes">Nozzles taken, in the order of use.</param>
/// <param name="Packs">Every pack of the stock and of the orders, in file order, touched or not.</param>
/// <param name="Shortages">What is missing, in the order of use; at most one a demand.</param>
/// <param name="NozzleShortages">Nozzles that are missing, in the order of use; at most one a demand.</param>
public sealed record PackAllocation(
    ImmutableArray<PackTake> Takes,
    ImmutableArray<NozzleTake> NozzleTakes,
    ImmutableArray<PackRest> Packs,
    ImmutableArray<PackShortage> Shortages,
    ImmutableArray<NozzleShortage> NozzleShortages)
{
    /// <summary>Up to this many usable packs of a material every set of them is tried before a shortage is reported. [5: at most 32 sets]</summary>
    public const int PacksTriedInFull = 5;

    /// <summary>True where nothing is missing.</summary>
    public bool IsComplete => Shortages.IsEmpty && NozzleShortages.IsEmpty;

    /// <summary>Serves all demands, earliest use first.</summary>
    /// <param name="demands">Demands, in any order; equal times in the order given.</param>
    /// <param name="stock">Packs and nozzles on the shelf.</param>
    /// <param name="sheets">Data sheets by material; every material demanded must be there.</param>
    /// <param name="zone">The shop's zone.</param>
    /// <param name="amounts">What a nozzle holds back and purges.</param>
    /// <param name="ordered">Packs on their way; null = none.</param>
    /// <returns>Takes, nozzles, rests and shortages. Adding a pack never increases what is missing of a material with up to
    /// <see cref="PacksTriedInFull"/> usable packs.</returns>
    /// <exception cref="KeyNotFoundException">A demand names a material without a sheet.</exception>
    public static PackAllocation Allocate(
        IEnumerable<PackDemand> demands,
        Stock stock,
        IReadOnlyDictionary<MaterialId, DataSheet> sheets,
        DateTimeZone zone,
        Amounts amounts,
        IEnumerable<OrderedPack>? ordered = null)
    {
        ImmutableArray<PackDemand> inOrder = [.. demands.OrderBy(demand => demand.PlannedUse)];
        ImmutableArray<OrderedPack> shelf = [.. stock.Packs.Select(pack => new OrderedPack(pack, pack.Arrives ?? Instant.MinValue)), .. ordered ?? []];
        var waste = Nozzles.Waste(amounts);

        var served = inOrder
            .GroupBy(demand => demand.Material)
            .SelectMany(group => PackSelection.Serve([.. group], shelf, sheets[group.Key], zone, waste))
            .ToDictionary(service => service.Demand);
        ImmutableArray<PackService> services = [.. inOrder.Select(demand => served[demand])];

        var (nozzleTakes, nozzleShortages) = NozzleSharing.Share(services, shelf, stock.Nozzles, sheets);
        return new PackAllocation(
            [.. services.SelectMany(service => service.Takes)],
            nozzleTakes,
            [.. shelf.Select(item => Rest(item.Pack, services, sheets, zone))],
            [.. services.Where(service => service.Shortage is not null).Select(service => service.Shortage!)],
            nozzleShortages);
    }

    private static PackRest Rest(
        Pack before, ImmutableArray<PackService> services, IReadOnlyDictionary<MaterialId, DataSheet> sheets, DateTimeZone zone)
    {
        var after = before;
        bool touched = false;
        foreach (var service in services)
        {
            foreach (var take in service.Takes)
            {
                if (take.Pack != before.Id)
                    continue;
                after = PackSelection.Less(after, take, sheets[before.Material], zone, service.Demand.PlannedUse);
                touched = true;
            }
        }

        if (!sheets.TryGetValue(before.Material, out var sheet))
            return new PackRest(before, after, new UsableTime(null, PackLimit.None), null, touched, false);

        var usable = PackUsability.Window(after, sheet, zone);
        bool restIsWaste = touched && sheet.Pack.SingleUse && (after.Left > Volume.Zero || after.StripLeft > Length.Zero);
        return new PackRest(before, after, usable, usable.LastDay(zone), touched, restIsWaste);
    }
}
