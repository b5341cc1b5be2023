using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Shops;

namespace Seamwright.Quantities;

/// <summary>Packs to buy of one material.</summary>
/// <param name="Material">Material.</param>
/// <param name="Packs">How many; null = no pack of its size closes the gap.</param>
/// <param name="NeededAt">First use that needs them.</param>
/// <param name="LatestOrder">Latest moment to order; null = the supplier cannot deliver it.</param>
public sealed record PackOrder(MaterialId Material, int? Packs, Instant NeededAt, Instant? LatestOrder);

/// <summary>Nozzles to buy.</summary>
/// <param name="Ratio">Ratio they must fit; null = not stated.</param>
/// <param name="Count">How many.</param>
/// <param name="NeededAt">First use that needs them.</param>
/// <param name="LatestOrder">Latest moment to order; null = no supplier.</param>
public sealed record NozzleOrder(string? Ratio, int Count, Instant NeededAt, Instant? LatestOrder);

/// <summary>What has to be bought, and by when it must be ordered.</summary>
/// <param name="Packs">One line a material, the most urgent first.</param>
/// <param name="Nozzles">One line a ratio, the most urgent first.</param>
public sealed record OrderList(ImmutableArray<PackOrder> Packs, ImmutableArray<NozzleOrder> Nozzles)
{
    /// <summary>The list that closes an allocation's gaps.</summary>
    /// <param name="allocation">Allocation.</param>
    /// <param name="sheets">Data sheets by material.</param>
    /// <param name="supplier">Supplier; null = none.</param>
    /// <param name="zone">The shop's zone, in which the supplier's hours are told.</param>
    public static OrderList For(
        PackAllocation allocation, IReadOnlyDictionary<MaterialId, DataSheet> sheets, Supplier? supplier, DateTimeZone zone)
    {
        ImmutableArray<PackOrder> packs =
        [
            .. allocation.Shortages
                .GroupBy(shortage => shortage.Material)
                .Select(group =>
                {
                    var neededAt = group.Min(shortage => shortage.NeededAt);
                    bool delivers = supplier is not null && !supplier.Lacks.Contains(group.Key.Value);
                    return new PackOrder(
                        group.Key, Together([.. group], sheets[group.Key]), neededAt, delivers ? SupplierHours.LatestOrder(supplier!, zone, neededAt) : null);
                })
                .OrderBy(order => order.NeededAt),
        ];
        ImmutableArray<NozzleOrder> nozzles =
        [
            .. allocation.NozzleShortages
                .GroupBy(shortage => shortage.Ratio)
                .Select(group =>
                {
                    var neededAt = group.Min(shortage => shortage.NeededAt);
                    return new NozzleOrder(
                        group.Key, group.Sum(shortage => shortage.Count), neededAt,
                        supplier is null ? null : SupplierHours.LatestOrder(supplier, zone, neededAt));
                })
                .OrderBy(order => order.NeededAt),
        ];
        return new OrderList(packs, nozzles);
    }

    /// <summary>Packs for several gaps of one material: a new pack may serve more than one session, but never more than its content.</summary>
    private static int? Together(ImmutableArray<PackShortage> shortages, DataSheet sheet)
    {
        if (shortages.Any(shortage => shortage.PacksToOrder is null))
            return null;
        if (shortages.Length == 1 || sheet.Pack.SingleUse || shortages.Any(shortage => !shortage.Pieces.IsEmpty))
            return shortages.Sum(shortage => shortage.PacksToOrder);

        double contents = shortages.Sum(shortage => shortage.Volume.Millilitres) / sheet.Pack.Content.Millilitres;
        return Math.Max(shortages.Max(shortage => shortage.PacksToOrder!.Value), (int)Math.Ceiling(contents - 1e-9));
    }
}

/// <summary>When a supplier can be reached, and when its goods arrive.</summary>
public static class SupplierHours
{
    /// <summary>Days searched before giving up: a supplier open on any weekday is found within a week.</summary>
    private const int DaysSearched = 14;

    /// <summary>Latest order whose goods arrive by a moment: that moment less the delivery time, or the last earlier hour in which the supplier takes orders.</summary>
    /// <returns>The moment, or null where the supplier is open on no day.</returns>
    public static Instant? LatestOrder(Supplier supplier, DateTimeZone zone, Instant neededAt)
    {
        var latest = neededAt - supplier.DeliveryTime;
        var day = latest.InZone(zone).Date;
        for (int back = 0; back <= DaysSearched; back++)
        {
            if (OpenOn(supplier, zone, day.PlusDays(-back)) is not { } open || latest < open.From)
                continue;
            var order = Instant.Min(latest, open.To);
            return supplier.ClosedUntil > order ? null : order;
        }
        return null;
    }

    /// <summary>When goods arrive that are wanted from a moment on: the order goes out then, or when the supplier next opens.</summary>
    /// <returns>The moment, or null where the supplier is open on no day.</returns>
    public static Instant? Arrival(Supplier supplier, DateTimeZone zone, Instant orderedFrom)
    {
        orderedFrom = Instant.Max(orderedFrom, supplier.ClosedUntil ?? orderedFrom);
        var day = orderedFrom.InZone(zone).Date;
        for (int ahead = 0; ahead <= DaysSearched; ahead++)
        {
            if (OpenOn(supplier, zone, day.PlusDays(ahead)) is not { } open || orderedFrom > open.To)
                continue;
            return Instant.Max(orderedFrom, open.From) + supplier.DeliveryTime;
        }
        return null;
    }

    private static (Instant From, Instant To)? OpenOn(Supplier supplier, DateTimeZone zone, LocalDate day) =>
        supplier.Days.Contains(day.DayOfWeek)
            ? (zone.AtLeniently(day + supplier.From).ToInstant(), zone.AtLeniently(day + supplier.To).ToInstant())
            : null;
}
