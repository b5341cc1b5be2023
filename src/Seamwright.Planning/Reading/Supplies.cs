using System.Collections.Immutable;
using NodaTime;
using Seamwright.Costs;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>Packs, orders and mixes of a plan's steps, and what the material costs.</summary>
internal sealed record Supplies(
    ImmutableArray<PackUse> Uses,
    ImmutableArray<OrderLine> Orders,
    ImmutableArray<Mix> Mixes,
    MaterialCharge Charge,
    Money SavedFromExpiry,
    Money Delivery,
    ImmutableArray<PackShortage> StillMissing,
    ImmutableArray<NozzleShortage> NozzlesMissing)
{
    /// <summary>True where shelf and orders give everything that the steps take.</summary>
    public bool IsComplete => StillMissing.IsEmpty && NozzlesMissing.IsEmpty;

    public static Supplies For(PlanningCase planning, ImmutableArray<Step> steps, Others? others)
    {
        var demands = steps.Select(step => Demand(planning, step)).OfType<PackDemand>().ToList();
        var input = planning.Input;
        var shelf = others?.Stock ?? input.Stock;
        var zone = planning.Shop.Zone;
        var amounts = planning.Shop.Amounts;
        var first = PackAllocation.Allocate(demands, shelf, planning.Sheets, zone, amounts);
        var orders = OrderList.For(first, planning.Sheets, planning.Shop.Supplier, zone);
        var arrival = planning.Shop.Supplier is { } supplier ? SupplierHours.Arrival(supplier, zone, planning.Repair.Now) : null;
        var ordered = arrival is { } arrives ? Ordered(planning, orders, arrives) : [];
        var stock = shelf with { Nozzles = shelf.Nozzles.AddRange(orders.Nozzles.Select(order => new NozzleStock(order.Count, order.Ratio))) };
        var allocation = ordered.IsEmpty && orders.Nozzles.IsEmpty ? first : PackAllocation.Allocate(demands, stock, planning.Sheets, zone, amounts, ordered);
        var isOrdered = ordered.Select(order => order.Pack.Id).ToHashSet();

        var lines = arrival is { } at ? Lines(planning, orders, steps, at) : [];
        return new Supplies(
            ReadUses(allocation, steps, isOrdered),
            lines,
            ReadMixes(planning, steps),
            ChargeOf(planning, allocation),
            Saved(planning, allocation),
            lines.IsEmpty ? Money.Zero : planning.Shop.Supplier!.PerOrder,
            allocation.Shortages,
            allocation.NozzleShortages);
    }

    private static PackDemand? Demand(PlanningCase planning, Step step)
    {
        bool consumes = step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond or StepKind.Foam or StepKind.Wax or StepKind.StoneChip;
        var material = step.Material ?? (step.Kind == StepKind.Wax ? planning.WaxSheet?.Id : null);
        if (!consumes || material is not { } id || (step.Amount <= Volume.Zero && step.StripLength <= Length.Zero))
            return null;
        var pieces = step.StripLength > Length.Zero
            ? step.Places.SelectMany(place => Beads.StripPieces(planning.Repair.Joints.First(joint => joint.Id == place), planning.Shop.Amounts)).ToImmutableArray()
            : [];
        return new PackDemand { Id = step.Id, Material = id, PlannedUse = step.Start, Volume = step.Amount, Pieces = pieces, Runs = Math.Max(1, step.Nozzles) };
    }

    private static ImmutableArray<OrderedPack> Ordered(PlanningCase planning, OrderList orders, Instant arrives)
    {
        var packs = ImmutableArray.CreateBuilder<OrderedPack>();
        foreach (var order in orders.Packs)
        {
            var sheet = planning.Sheets[order.Material];
            for (int i = 1; i <= (order.Packs ?? 0); i++)
            {
                var id = new PackId(order.Packs == 1 ? $"new {order.Material}" : $"new {order.Material} {i}");
                packs.Add(new OrderedPack(new Pack { Id = id, Material = order.Material, Left = sheet.Pack.Content, StripLeft = sheet.Pack.StripLength }, arrives));
            }
        }
        return packs.ToImmutable();
    }

    private static ImmutableArray<PackUse> ReadUses(PackAllocation allocation, ImmutableArray<Step> steps, HashSet<PackId> isOrdered)
    {
        var left = allocation.Packs.ToDictionary(rest => rest.Before.Id, rest => (rest.Before.Left, rest.Before.StripLeft, rest.Usable.Until));
        var uses = ImmutableArray.CreateBuilder<PackUse>();
        foreach (var take in allocation.Takes)
        {
            var (volume, strip, until) = left[take.Pack];
            (volume, strip) = (volume - take.Volume, strip - take.Strip);
            left[take.Pack] = (volume, strip, until);
            uses.Add(new PackUse(take.Demand, take.Pack, take.Material, take.Lot, take.Volume, take.Strip, take.NozzleCount, volume, strip, isOrdered.Contains(take.Pack), until));
        }
        return uses.ToImmutable();
    }

    private static ImmutableArray<OrderLine> Lines(PlanningCase planning, OrderList orders, ImmutableArray<Step> steps, Instant arrives)
    {
        var lines = ImmutableArray.CreateBuilder<OrderLine>();
        foreach (var order in orders.Packs.Where(order => order.Packs is not null))
        {
            var sheet = planning.Sheets[order.Material];
            lines.Add(new OrderLine(order.Material, order.Packs!.Value, sheet.Pack.Price * order.Packs.Value, order.LatestOrder ?? planning.Repair.Now, arrives, PlacesOf(steps, order.Material)));
        }
        foreach (var order in orders.Nozzles)
            lines.Add(new OrderLine(null, order.Count, planning.Shop.Amounts.NozzlePrice * order.Count, order.LatestOrder ?? planning.Repair.Now, arrives, []));
        return [.. lines.OrderBy(line => line.OrderBy)];
    }

    private static ImmutableArray<PlaceId> PlacesOf(ImmutableArray<Step> steps, MaterialId material) =>
        [.. steps.Where(step => step.Material == material && step.Person is not null).SelectMany(step => step.Places).Distinct()];

    private static ImmutableArray<Mix> ReadMixes(PlanningCase planning, ImmutableArray<Step> steps)
    {
        var mixes = ImmutableArray.CreateBuilder<Mix>();
        foreach (var step in steps.Where(step => step.Kind is StepKind.Prime or StepKind.StoneChip && step.Amount > Volume.Zero))
        {
            var sheet = planning.Sheets[step.Material!.Value];
            if (sheet.Pack.Ratio is not { } ratio || sheet.Method != ApplicationMethod.SprayGun)
                continue;
            var total = Mixing.RoundedUp(step.Amount);
            var volume = Mixing.ByVolume(ratio, total);
            var mass = Mixing.ByWeight(ratio, total);
            var useBy = sheet.Milestone(Curing.MilestoneKind.WorkEnd) is { } pot ? planning.Cures.Finish(pot.Law, pot.Needed, step.Start) : null;
            mixes.Add(new Mix(step.Id, sheet.Id, total, volume.Base, volume.Hardener, mass?.Base, mass?.Hardener, useBy));
        }
        return mixes.ToImmutable();
    }

    private static MaterialCharge ChargeOf(PlanningCase planning, PackAllocation allocation)
    {
        var rests = allocation.Packs.ToDictionary(rest => rest.Before.Id);
        var charge = default(MaterialCharge);
        foreach (var take in allocation.Takes)
            charge += MaterialCharge.Of(take, rests[take.Pack], planning.Sheets[take.Material], planning.Shop.Amounts.NozzlePrice);
        return charge;
    }

    /// <summary>Share of the price of what comes from packs that are about to expire, as a deduction.</summary>
    private static Money Saved(PlanningCase planning, PackAllocation allocation)
    {
        var rests = allocation.Packs.ToDictionary(rest => rest.Before.Id);
        var saved = Money.Zero;
        foreach (var take in allocation.Takes.Where(take => planning.ExpiringSoon.Contains(take.Material) && ExpiringStock.IsExpiring(planning, rests[take.Pack].Before)))
            saved -= MaterialCharge.ShareOfPack(planning.Sheets[take.Material], take.Volume, take.Strip);
        return saved;
    }
}
