using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Seamwright.Air;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>How everything stands at a moment: the input as it is then, works done, what they cost, and announced work that is still open.</summary>
internal sealed record Standing(RepairInput Input, ImmutableArray<StandingWork> Works, ImmutableArray<OrderLine> Placed, Money Spent, Announcement Announced, ImmutableArray<Reason> Problems)
{
    public static Standing Of(RepairInput input, AnnouncedPlan plan, string logHash, IReadOnlyCollection<LogEntry> entries, Instant now)
    {
        var reading = LogReading.Of(input, plan, entries, now);
        var stock = StandingStock.Of(input, plan, reading, entries);
        var repair = StandingPlaces.Of(input, reading);
        if (entries.OfType<LogEntry.Slots>().LastOrDefault() is { } slots)
            repair = repair with { PaintSlots = slots.Offered, FirstSlotOffered = input.Repair.MeantSlot };
        var (shop, unknown) = ShopOf(input.Shop, entries);
        var standing = input with
        {
            Repair = repair,
            Shop = shop,
            Stock = stock.Stock,
            Climate = entries.OfType<LogEntry.NewAir>().Aggregate(input.Climate, (air, entry) => new SplicedClimate(air, entry.At, entry.Air)),
            ContentHash = entries.Count == 0 && now == input.Repair.Now ? input.ContentHash : Hash($"{input.ContentHash}|{plan.Id}|{logHash}|{string.Join(',', entries.Select(entry => entry.Id))}|{now}"),
        };
        var works = reading.Works.Select((work, index) => new StandingWork(
            work.IsLost ? WorkState.Lost : work.Step.End > now || work.IsOpen ? WorkState.Running : WorkState.Done,
            work.Step with { Id = string.Create(CultureInfo.InvariantCulture, $"D{index + 1:00}") }, work.Announced, stock.TakenBy(work))).ToImmutableArray();
        return new Standing(
            standing, works, stock.Placed, stock.Spent + Labour(input.Shop, reading) + Lamps(input.Shop, reading), Open(plan, works),
            [.. reading.Problems, .. stock.Problems, .. unknown, .. PaintedTooSoon(standing)]);
    }

    private static (Shop Shop, ImmutableArray<Reason> Unknown) ShopOf(Shop shop, IReadOnlyCollection<LogEntry> entries)
    {
        var away = entries.OfType<LogEntry.Away>().ToList();
        var people = shop.People.Select(person => person with
        {
            Absences = [.. person.Absences.Concat(away.Where(entry => entry.Person == person.Id).Select(entry => new Interval(entry.From, entry.To))).OrderBy(time => time.Start)],
        });
        return (shop with { People = away.Count == 0 ? shop.People : [.. people], Supplier = SupplierOf(shop.Supplier, entries) },
            [.. away.Where(entry => !shop.People.Any(person => person.Id == entry.Person)).Select(entry => Reason.Of("log-no-such-person", entry.Id, entry.Person))]);
    }

    /// <summary>Whoever is late is no quicker with another order, and what does not come is not to be had.</summary>
    private static Supplier? SupplierOf(Supplier? supplier, IReadOnlyCollection<LogEntry> entries)
    {
        foreach (var late in supplier is null ? [] : entries.OfType<LogEntry.Late>())
        {
            supplier = late.Arrives is { } arrives
                ? supplier! with { ClosedUntil = Instant.Max(supplier.ClosedUntil ?? Instant.MinValue, arrives - supplier.DeliveryTime) }
                : supplier! with { Lacks = supplier.Lacks.Add(late.Material.Value) };
        }
        return supplier;
    }

    /// <summary>Announced work that no entry of the log has done, begun or lost.</summary>
    private static Announcement Open(AnnouncedPlan plan, ImmutableArray<StandingWork> works)
    {
        var open = ImmutableArray.CreateBuilder<Step>();
        foreach (var step in plan.Steps.Where(step => step.Person is not null && step.Kind != StepKind.Paint))
        {
            var touched = works.Where(work => work.Step.Kind == step.Kind && (work.Announced == step || (work.State != WorkState.Lost && (work.Step.Places.Intersect(step.Places).Any() || step.Places.IsEmpty)))).ToList();
            if (touched.Count == 0)
                open.Add(step);
            else if (step.Places.Where(place => !touched.Exists(work => work.Step.Places.Contains(place))).ToImmutableArray() is { IsEmpty: false } rest)
                open.Add(step with { Places = rest });
        }
        return new Announcement(open.ToImmutable(), plan.Slot, plan.HandOver);
    }

    private static Money Labour(Shop shop, LogReading reading) => reading.Works.Where(work => !work.Shares).Aggregate(new Money(0, shop.Currency), (sum, work) =>
        shop.People.FirstOrDefault(person => person.Id == work.Step.Person) is { } person ? sum + (person.PerHour * ((decimal)work.Step.Labour.TotalMinutes / 60)) : sum);

    private static Money Lamps(Shop shop, LogReading reading) => shop.Lamps is not { } lamps ? new Money(0, shop.Currency)
        : lamps.PerStartedHour * reading.Works.Where(work => work.Step.Kind == StepKind.Lamp && !work.Shares)
            .Sum(work => (int)Math.Ceiling((work.Step.End - work.Step.Start + lamps.Cooling).TotalHours - 1e-9));

    /// <summary>A painted car has its seams: where one is missing, an entry is missing.</summary>
    private static IEnumerable<Reason> PaintedTooSoon(RepairInput input)
    {
        var repair = input.Repair;
        if (repair.DoneOn(null, StepKind.Paint) is null)
            return repair.Done.Where(step => step.Kind is StepKind.Wax or StepKind.Refit or StepKind.FinalCheck).Select(step => Reason.Of("log-before-paint", step.Kind));
        var seams = repair.Joints.Where(joint => !joint.IsBare && joint.Function is JointFunction.Seal or JointFunction.AntiFlutter && joint.Stage != Stage.AfterPaintHeat && repair.DoneOn(joint.Id, StepKind.Seal) is null).Select(joint => joint.Id);
        var areas = repair.BareAreas.Where(area => (area.Surface.IsBareMetal || area.StoneChip) && repair.DoneOn(area.Id, StepKind.StoneChip) is null && (area.StoneChip || area.Surface.IsBareMetal)).Select(area => area.Id);
        var bonds = repair.Bonds.Where(bond => repair.DoneOn(bond.Id, StepKind.CleanBond) is null).Select(bond => bond.Id);
        var foams = repair.Cavities.Where(cavity => cavity.Stage != Stage.AfterPaintHeat && cavity.Treatment is CavityTreatment.FlexibleFoam or CavityTreatment.RigidFoam && repair.DoneOn(cavity.Id, StepKind.Foam) is null).Select(cavity => cavity.Id);
        var works = repair.Operations.Where(operation => operation.Stage != Stage.AfterPaintHeat && repair.DoneOn(operation.Id, StepKind.Operation) is null).Select(operation => operation.Id);
        return seams.Concat(areas).Concat(bonds).Concat(foams).Concat(works).Select(place => Reason.Of("log-painted-too-soon", place));
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
