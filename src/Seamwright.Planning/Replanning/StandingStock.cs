using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>The shelf after what the log says was taken, ordered, late, lost or found; and what that has cost.</summary>
internal sealed class StandingStock
{
    private readonly RepairInput _input;
    private readonly AnnouncedPlan _plan;
    private readonly List<Pack> _packs;
    private readonly List<NozzleStock> _nozzles;
    private readonly List<Reason> _problems = [];
    private readonly List<OrderLine> _placed = [];
    private readonly Dictionary<LoggedWork, ImmutableArray<Taken>> _taken = [];
    private readonly HashSet<Instant> _deliveries = [];
    private readonly ImmutableDictionary<MaterialId, DataSheet> _sheets;

    private StandingStock(RepairInput input, AnnouncedPlan plan)
    {
        (_input, _plan) = (input, plan);
        _packs = [.. input.Stock.Packs];
        _nozzles = [.. input.Stock.Nozzles];
        _sheets = input.Sheets.ToImmutableDictionary(sheet => sheet.Id);
        Spent = new Money(0, input.Shop.Currency);
    }

    public Stock Stock => new() { Packs = [.. _packs], Nozzles = [.. _nozzles.Where(nozzles => nozzles.Count > 0)] };

    /// <summary>Material, nozzles and deliveries so far.</summary>
    public Money Spent { get; private set; }

    public IReadOnlyList<Reason> Problems => _problems;

    /// <summary>Announced orders that were placed.</summary>
    public ImmutableArray<OrderLine> Placed => [.. _placed];

    /// <summary>What a work took from the shelf.</summary>
    public ImmutableArray<Taken> TakenBy(LoggedWork work) => _taken.GetValueOrDefault(work, []);

    public static StandingStock Of(RepairInput input, AnnouncedPlan plan, LogReading reading, IReadOnlyCollection<LogEntry> entries)
    {
        var stock = new StandingStock(input, plan);
        foreach (var entry in entries)
            stock.Take(entry);
        foreach (var work in reading.Works.Where(work => !work.Shares))
            stock.Take(work);
        if (input.Shop.Supplier is { } supplier)
            stock.Spent += supplier.PerOrder * stock._deliveries.Count;
        return stock;
    }

    private void Take(LogEntry entry)
    {
        switch (entry)
        {
            case LogEntry.AsAnnounced:
                foreach (var line in _plan.Orders.Where(line => line.OrderBy <= entry.At))
                {
                    Order(line.What, line.Count, line.Arrives);
                    if (!_placed.Contains(line))
                        _placed.Add(line);
                }
                break;
            case LogEntry.Ordered ordered when ordered.Material is not { } material || Sheet(ordered, material):
                Order(ordered.Material, ordered.Count, ordered.Arrives);
                break;
            case LogEntry.Late late when Sheet(late, late.Material):
                Delay(late);
                break;
            case LogEntry.Gone gone:
                int at = _packs.FindIndex(pack => pack.Id == gone.Pack);
                if (at < 0)
                    _problems.Add(Reason.Of("log-no-such-pack", gone.Id, gone.Pack));
                else
                    _packs[at] = _packs[at] with { OnHold = gone.Why };
                break;
            case LogEntry.Found found when Sheet(found, found.Pack.Material):
                _packs.RemoveAll(pack => pack.Id == found.Pack.Id);
                _packs.Add(found.Pack);
                break;
        }
    }

    private bool Sheet(LogEntry entry, MaterialId material)
    {
        if (_sheets.ContainsKey(material))
            return true;
        _problems.Add(Reason.Of("log-no-such-material", entry.Id, material));
        return false;
    }

    private static bool IsOrderOf(Pack pack, MaterialId material) => pack.Material == material && pack.Arrives is not null;

    private void Order(MaterialId? what, int count, Instant arrives)
    {
        if (what is not { } material)
        {
            if (!_nozzles.Exists(nozzles => nozzles.Arrives == arrives))
                _nozzles.Add(new NozzleStock(count, null) { Arrives = arrives });
        }
        else if (!_packs.Exists(pack => IsOrderOf(pack, material)))
        {
            var content = _sheets[material].Pack;
            for (int i = 1; i <= count; i++)
                _packs.Add(new Pack { Id = new PackId(count == 1 ? $"ordered {material}" : $"ordered {material} {i}"), Material = material, Left = content.Content, StripLeft = content.StripLength, Arrives = arrives });
        }
        _deliveries.Add(arrives);
    }

    /// <summary>Everything that comes with the same delivery is late with it.</summary>
    private void Delay(LogEntry.Late late)
    {
        if (!_packs.Exists(pack => IsOrderOf(pack, late.Material)))
        {
            if (_plan.Orders.FirstOrDefault(line => line.What == late.Material) is not { } line)
            {
                _problems.Add(Reason.Of("log-nothing-ordered", late.Id, late.Material));
                return;
            }
            foreach (var together in _plan.Orders.Where(other => other.Arrives == line.Arrives))
                Order(together.What, together.Count, together.Arrives);
        }
        var promised = _packs.First(pack => IsOrderOf(pack, late.Material)).Arrives;
        _nozzles.RemoveAll(nozzles => late.Arrives is null && nozzles.Arrives == promised);
        for (int i = 0; i < _nozzles.Count; i++)
        {
            if (_nozzles[i].Arrives == promised)
                _nozzles[i] = _nozzles[i] with { Arrives = late.Arrives };
        }
        if (late.Arrives is not { } arrives)
        {
            _packs.RemoveAll(pack => IsOrderOf(pack, late.Material));
            return;
        }
        for (int i = 0; i < _packs.Count; i++)
        {
            if (IsOrderOf(_packs[i], late.Material))
                _packs[i] = _packs[i] with { Arrives = arrives };
        }
    }

    /// <summary>What a work took: as the log says, else as the plan said.</summary>
    private void Take(LoggedWork work)
    {
        var taken = !work.Packs.IsEmpty ? work.Packs
            : work.Announced is { } announced && announced.Material == work.Step.Material
                ? [.. _plan.PackUses.Where(use => use.StepId == announced.Id).Select(use => new Taken(use.Pack, use.Amount, use.StripLength, use.Nozzles))]
            : ImmutableArray<Taken>.Empty;
        _taken[work] = taken;
        foreach (var take in taken)
        {
            int at = _packs.FindIndex(pack => pack.Id == take.Pack);
            if (at < 0)
            {
                if (!work.Packs.IsEmpty)
                    _problems.Add(Reason.Of("log-no-such-pack", work.Entry, take.Pack));
                continue;
            }
            Take(at, take, work.Step.Start);
        }
    }

    private void Take(int at, Taken take, Instant when)
    {
        var pack = _packs[at];
        if (!_sheets.TryGetValue(pack.Material, out var sheet))
            return;
        var volume = take.Amount < pack.Left ? take.Amount : pack.Left;
        var strip = take.Strip < pack.StripLeft ? take.Strip : pack.StripLeft;
        Spent += sheet.Pack.SingleUse ? MaterialCharge.ShareOfPack(sheet, pack.Left, pack.StripLeft) : MaterialCharge.ShareOfPack(sheet, volume, strip);
        Spent += _input.Shop.Amounts.NozzlePrice * take.Nozzles;
        int own = PackUsability.NozzlesWith(pack, sheet);
        Drawer(take.Nozzles - own);
        _packs[at] = PackUsability.Begun(pack, sheet, _input.Shop.Zone, when) with
        {
            Left = pack.Left - volume,
            StripLeft = pack.StripLeft - strip,
            Nozzles = Math.Max(0, own - take.Nozzles),
        };
    }

    private void Drawer(int nozzles)
    {
        for (int i = 0; i < _nozzles.Count && nozzles > 0; i++)
        {
            int taken = Math.Min(nozzles, _nozzles[i].Count);
            _nozzles[i] = _nozzles[i] with { Count = _nozzles[i].Count - taken };
            nozzles -= taken;
        }
    }
}
