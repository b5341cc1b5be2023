using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>Materials, nozzles and deliveries as consumables with dated lots; amounts in tenths of a millilitre and whole millimetres.</summary>
internal sealed partial class ProjectBuilder
{
    private const string Nozzle = "nozzle";
    private static readonly UnlockId DeliveryId = new("delivery");

    /// <summary>A supplier nearby takes about an hour. (common practice; only for the question what a supplier would change) [min]</summary>
    private const int UsualDelivery = 60;

    private readonly HashSet<ConsumableId> _used = [];

    private Materials.Stock Stock => _variation.Others?.Stock ?? _case.Input.Stock;

    private static ConsumableId MaterialConsumable(DataSheet sheet) => new($"material:{sheet.Id}");

    private static ConsumableId NozzleConsumable(string ratio) => new($"{Nozzle}:{ratio}");

    private static int Units(Volume volume) => (int)Math.Ceiling(volume.Millilitres * 10 - 1e-6);

    private static int Units(Length strip) => (int)Math.Ceiling(strip.Millimetres - 1e-6);

    private ImmutableArray<Consumption> Consumes(DataSheet sheet, Volume amount, Length strip)
    {
        int units = Units(amount) + Units(strip);
        if (units == 0)
            return [];
        var id = MaterialConsumable(sheet);
        _used.Add(id);
        return [new Consumption(id, units)];
    }

    private ImmutableArray<Consumption> SessionConsumes(DataSheet sheet, int nozzles)
    {
        if (nozzles == 0 || Nozzles.RatioOf(sheet) is not { } ratio)
            return [];
        var id = NozzleConsumable(ratio);
        _used.Add(id);
        return [.. Consumes(sheet, Nozzles.Waste(_shop.Amounts) * nozzles, Length.Zero), new Consumption(id, nozzles)];
    }

    /// <summary>Material and nozzles of work that is a session of its own.</summary>
    private ImmutableArray<Consumption> OwnSessionConsumes(DataSheet sheet, Volume amount)
    {
        var all = Consumes(sheet, amount, Length.Zero).Concat(SessionConsumes(sheet, Nozzles.Takes(sheet) ? 1 : 0));
        return [.. all.GroupBy(consumption => consumption.Consumable).Select(group => new Consumption(group.Key, group.Sum(consumption => consumption.Amount)))];
    }

    /// <summary>What using material costs the shop: nothing where a pack in stock that holds enough for everything is about to expire.</summary>
    private Money CostOf(DataSheet sheet, Volume amount, Length strip) =>
        _case.ExpiringSoon.Contains(sheet.Id) ? Money.Zero : MaterialCost(sheet, amount, strip);

    /// <summary>Used share of the pack; a pack whose rest cannot be kept is paid whole.</summary>
    private static Money MaterialCost(DataSheet sheet, Volume amount, Length strip)
    {
        var pack = sheet.Pack;
        if (amount <= Volume.Zero && strip <= Length.Zero)
            return Money.Zero;
        double share = pack.Content > Volume.Zero ? amount / pack.Content : strip / pack.StripLength;
        return pack.Price * (pack.SingleUse ? (decimal)Math.Ceiling(share) : (decimal)share);
    }

    private Money NozzleCost(DataSheet sheet, int nozzles) =>
        nozzles == 0 ? Money.Zero
        : (_shop.Amounts.NozzlePrice * nozzles) + (sheet.Pack.SingleUse ? Money.Zero : CostOf(sheet, Nozzles.Waste(_shop.Amounts) * nozzles, Length.Zero));

    private static Volume PrimerAmount(DataSheet primer, Joint joint) => Coatings.Primer(primer, Coatings.PrimedLength(joint), Area.Zero) ?? Volume.Zero;

    private static Volume PrimerAmount(DataSheet primer, BareArea area) => Coatings.Primer(primer, Length.Zero, area.Area) ?? Volume.Zero;

    private static Volume SpotAmount(DataSheet primer, Bond bond) => Coatings.Primer(primer, bond.Length, Area.Zero) ?? Volume.Zero;

    private static Volume AdhesiveAmount(DataSheet sheet, Bond bond) => Coatings.Adhesive(sheet, bond) ?? Volume.Zero;

    private static Volume StoneChipAmount(DataSheet sheet, BareArea area) => Coatings.StoneChip(sheet, area.Area) ?? Volume.Zero;

    private Volume WaxAmount(IEnumerable<Cavity> waxed) =>
        _case.WaxSheet is { } sheet ? waxed.Aggregate(Volume.Zero, (sum, cavity) => sum + (Coatings.Wax(sheet, cavity) ?? Volume.Zero)) : Volume.Zero;

    private long WaxCost(IReadOnlyCollection<Cavity> waxed) => _case.WaxSheet is { } sheet ? SolverMoney.From(CostOf(sheet, WaxAmount(waxed), Length.Zero)) : 0;

    private ImmutableArray<Consumption> WaxConsumes(IReadOnlyCollection<Cavity> waxed) => _case.WaxSheet is { } sheet ? Consumes(sheet, WaxAmount(waxed), Length.Zero) : [];

    private (ImmutableArray<Consumable> Consumables, ImmutableArray<Lot> Lots, ImmutableArray<Unlock> Unlocks, ImmutableDictionary<LotId, LotMeaning> Meanings) StockLots()
    {
        var lots = ImmutableArray.CreateBuilder<Lot>();
        var meanings = ImmutableDictionary.CreateBuilder<LotId, LotMeaning>();
        foreach (var pack in Stock.Packs)
            AddPack(pack, lots, meanings);
        AddNozzles(lots, meanings);
        bool delivers = AddOrders(lots, meanings);
        var unlocks = delivers ? ImmutableArray.Create(new Unlock(DeliveryId, SolverMoney.From(_shop.Supplier!.PerOrder))) : [];
        return ([.. _used.OrderBy(id => id.Value, StringComparer.Ordinal).Select(id => new Consumable(id))], lots.ToImmutable(), unlocks, meanings.ToImmutable());
    }

    private void AddPack(Pack pack, ImmutableArray<Lot>.Builder lots, ImmutableDictionary<LotId, LotMeaning>.Builder meanings)
    {
        if (!_case.Sheets.TryGetValue(pack.Material, out var sheet) || !_used.Contains(MaterialConsumable(sheet)))
            return;
        var verdicts = PackRules.Judge(pack, sheet, _case.Repair.Now, _shop.Zone, looseNozzles: 1);
        int amount = (int)Math.Floor((pack.Left.Millilitres * 10) + pack.StripLeft.Millimetres + 1e-6);
        var until = PackUsability.Window(pack, sheet, _shop.Zone).Until;
        int end = until is { } last ? Math.Min(_time.Horizon + 1, _time.Ceiling(last)) : _time.Horizon + 1;
        int from = pack.Arrives is { } arrives ? Math.Max(0, _time.Ceiling(arrives)) : 0;
        if (!Verdicts.MayBeUsed(verdicts) || amount <= 0 || end <= Math.Max(from, _time.Now))
            return;
        var id = new LotId($"pack:{pack.Id}");
        lots.Add(new Lot { Id = id, Serves = [MaterialConsumable(sheet)], Amount = amount, Usable = new Window(from, end) });
        meanings.Add(id, new LotMeaning(pack, null, null));
        if (Nozzles.RatioOf(sheet) is { } ratio && PackUsability.NozzlesWith(pack, sheet) is var own and > 0 && _used.Contains(NozzleConsumable(ratio)))
        {
            var nozzles = new LotId($"nozzles:{pack.Id}");
            lots.Add(new Lot { Id = nozzles, Serves = [NozzleConsumable(ratio)], Amount = own, Usable = new Window(from, _time.Horizon + 1) });
            meanings.Add(nozzles, new LotMeaning(pack, null, ratio));
        }
    }

    private void AddNozzles(ImmutableArray<Lot>.Builder lots, ImmutableDictionary<LotId, LotMeaning>.Builder meanings)
    {
        var all = _used.Where(id => id.Value.StartsWith(Nozzle + ":", StringComparison.Ordinal)).ToImmutableArray();
        int index = 0;
        foreach (var loose in Stock.Nozzles.Where(nozzles => nozzles.Count > 0))
        {
            var serves = loose.FitsRatio is { } ratio ? all.Where(id => id == NozzleConsumable(ratio)).ToImmutableArray() : all;
            int from = loose.Arrives is { } arrives ? Math.Max(0, _time.Ceiling(arrives)) : 0;
            if (serves.Length == 0 || from > _time.Horizon)
                continue;
            var id = new LotId($"nozzles#{++index}");
            lots.Add(new Lot { Id = id, Serves = serves, Amount = loose.Count, Usable = new Window(from, _time.Horizon + 1) });
            meanings.Add(id, new LotMeaning(null, null, loose.FitsRatio ?? "any"));
        }
    }

    /// <summary>One delivery can bring anything the supplier has: material and nozzles.</summary>
    private bool AddOrders(ImmutableArray<Lot>.Builder lots, ImmutableDictionary<LotId, LotMeaning>.Builder meanings)
    {
        bool any = false;
        foreach (var id in _used.OrderBy(id => id.Value, StringComparer.Ordinal))
        {
            string what = id.Value[(id.Value.IndexOf(':', StringComparison.Ordinal) + 1)..];
            bool nozzle = id.Value.StartsWith(Nozzle + ":", StringComparison.Ordinal);
            if (_variation.IsSetAside(FactIds.Stock(nozzle ? Nozzle : what)))
            {
                lots.Add(new Lot { Id = new LotId($"wished:{id}"), Serves = [id], Amount = 10_000_000, Usable = new Window(0, _time.Horizon + 1) });
                continue;
            }
            if (_variation.IsSetAside(FactIds.Supplier))
            {
                int delivery = _shop.Supplier is { } known ? Minutes(known.DeliveryTime) : UsualDelivery;
                lots.Add(new Lot { Id = new LotId($"wished:{id}"), Serves = [id], Amount = 10_000_000, Usable = new Window(_time.Now + delivery, _time.Horizon + 1) });
                continue;
            }
            if (Delivery(nozzle ? Nozzle : what) is not { } arrival)
                continue;
            var lot = new LotId($"order:{id}");
            lots.Add(new Lot { Id = lot, Serves = [id], Amount = 1_000_000, Usable = new Window(arrival, _time.Horizon + 1), Unlock = DeliveryId });
            meanings.Add(lot, new LotMeaning(null, nozzle ? null : new MaterialId(what), nozzle ? what : null));
            any = true;
        }
        return any;
    }

    /// <summary>When an order placed now arrives; null where the supplier cannot or may not deliver it inside the plan.</summary>
    private int? Delivery(string what)
    {
        if (_shop.Supplier is not { } supplier || supplier.Lacks.Contains(what))
            return null;
        var ordered = _variation.WithoutDeliveryToday ? _case.Tomorrow : _case.Repair.Now;
        var arrival = SupplierHours.Arrival(supplier, _shop.Zone, ordered);
        int minute = arrival is { } at ? _time.Ceiling(at) : _time.Horizon + 1;
        return minute <= _time.Horizon ? minute : null;
    }
}
