using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Program.Web.Desk;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Seamwright.Units;

namespace Seamwright.Program.Web.Shelf;

/// <summary>The shelf as it stands now: packs judged by the planner's own rules, with what the present plan wants of them.</summary>
internal sealed class PackShelf(ShopStore store, SheetShelf sheets, ShopDesk desk, IClock clock)
{
    /// <summary>Packs kept read before all are let go.</summary>
    private const int MostKept = 10_000;

    // Read again where the pack was saved anew, or its sheet, of which an untouched pack is full.
    private readonly ConcurrentDictionary<(string Id, long Version, string Zone), (DataSheet? Sheet, Pack? Pack)> _read = new();

    /// <summary>Every pack that is in the shop; what needs a hand first, then what ends first.</summary>
    public async Task<ImmutableArray<ShelfPack>> All(CancellationToken stop)
    {
        var lines = await store.PacksInTheShop(stop);
        var moment = await Moment(stop);
        var known = (await sheets.All(stop)).ToDictionary(sheet => sheet.Id.Value);
        var wishes = Wishes().ToLookup(item => item.Pack, item => item.Wish);
        return
        [
            .. lines.Select(line => Judge(line, known.GetValueOrDefault(line.Material), wishes, moment))
                .OrderBy(pack => pack.State).ThenBy(pack => pack.Usable.Until ?? Instant.MaxValue).ThenBy(pack => pack.Id, StringComparer.Ordinal),
        ];
    }

    /// <summary>One pack, also one that is gone; null where there never was one of this name.</summary>
    public async Task<ShelfPack?> Find(string id, CancellationToken stop) => await store.Pack(id, stop) is { } line
        ? Judge(line, await sheets.Find(line.Material, stop), Wishes().ToLookup(item => item.Pack, item => item.Wish), await Moment(stop))
        : null;

    /// <summary>What the shelf is judged against.</summary>
    public async Task<ShelfMoment> Moment(CancellationToken stop)
    {
        var shelf = await store.ShopDocumentOf(ShopDocument.Shelf, stop);
        return new(
            await Now(stop),
            await Zone(stop),
            shelf is null ? [] : Drafts.NozzlesOf(shelf.Json),
            desk.State.Vehicles.Select(vehicle => vehicle.Plan?.ReadyForDelivery).Max());
    }

    /// <summary>The shop's zone; UTC where there is no shop yet.</summary>
    public async Task<DateTimeZone> Zone(CancellationToken stop) => StoredShop.ZoneOf((await store.ShopDocumentOf(ShopDocument.Shop, stop))?.Json);

    /// <summary>The present; a demonstration lives at its own moment.</summary>
    public async Task<Instant> Now(CancellationToken stop) =>
        (await store.Settings(stop)).ContainsKey(ShopDesk.DemoSetting) && desk.State.AsOf > Instant.MinValue ? desk.State.AsOf : clock.GetCurrentInstant();

    private ShelfPack Judge(PackLine line, DataSheet? sheet, ILookup<string, PackWish> wishes, ShelfMoment moment) =>
        ShelfPack.Of(line, Read(line, sheet, moment.Zone), sheet, [.. wishes[line.Document.Id].OrderBy(wish => wish.From)], moment);

    private Pack? Read(PackLine line, DataSheet? sheet, DateTimeZone zone)
    {
        var key = (line.Document.Id, line.Document.Version, zone.Id);
        if (_read.TryGetValue(key, out var kept) && ReferenceEquals(kept.Sheet, sheet))
            return kept.Pack;
        if (_read.Count > MostKept)
            _read.Clear();
        var pack = Drafts.PackOf(line.Document.Json, sheet, zone);
        _read[key] = (sheet, pack);
        return pack;
    }

    private IEnumerable<(string Pack, PackWish Wish)> Wishes() => desk.State.Vehicles
        .Where(vehicle => vehicle.Plan is not null)
        .SelectMany(vehicle => vehicle.Plan!.PackUses.Where(use => !use.Ordered).GroupBy(use => use.Pack.Value).Select(uses =>
        {
            var steps = uses.Select(use => vehicle.Plan.Steps.First(step => step.Id == use.StepId)).ToList();
            return (uses.Key, new PackWish(
                vehicle, steps.Min(step => step.Start), steps.Max(step => step.End),
                uses.Aggregate(Volume.Zero, (sum, use) => sum + use.Amount), uses.Aggregate(Length.Zero, (sum, use) => sum + use.StripLength)));
        }));
}
