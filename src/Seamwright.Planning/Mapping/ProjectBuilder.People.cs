using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>People, their hours and the shop's equipment as renewable resources.</summary>
internal sealed partial class ProjectBuilder
{
    /// <summary>Prefix of lamp runs that belong to other vehicles.</summary>
    public const string OthersLamp = "lamp-of-others:";

    private static readonly ResourceId LampId = new("lamp");
    private static readonly ResourceId BoothId = new("booth");

    private const string PersonPrefix = "person:";

    private readonly Dictionary<(Skill, MaterialId?), ImmutableArray<Person>> _people = [];

    private static ResourceId PersonId(Person person) => new(PersonPrefix + person.Id);

    /// <summary>A person as a resource.</summary>
    public static ResourceId PersonResource(string person) => new(PersonPrefix + person);

    /// <summary>Lamps as a resource.</summary>
    public static ResourceId Lamp => LampId;

    /// <summary>The booth as a resource.</summary>
    public static ResourceId Booth => BoothId;

    /// <summary>The person that a resource stands for; null where it is equipment.</summary>
    public static string? PersonOf(ResourceId resource) =>
        resource.Value.StartsWith(PersonPrefix, StringComparison.Ordinal) ? resource.Value[PersonPrefix.Length..] : null;

    /// <summary>
    /// People with a skill whose training for a sheet is current. People who differ only by name are kept up to two: more hands of the
    /// same kind never finish one car's seams sooner than two, as its sessions follow each other.
    /// </summary>
    private ImmutableArray<Person> PeopleFor(Skill skill, DataSheet? sheet)
    {
        if (!_people.TryGetValue((skill, sheet?.Id), out var people))
            _people.Add((skill, sheet?.Id), people = [.. Able(skill, sheet)]);
        return people;
    }

    private IEnumerable<Person> Able(Skill skill, DataSheet? sheet)
    {
        var today = _case.Repair.Now.InZone(_shop.Zone).Date;
        return _shop.People
            .Where(person => person.Skills.Contains(skill) || _variation.IsSetAside(FactIds.Skill(skill.ToString())))
            .Where(person => sheet is null || _variation.IsSetAside(FactIds.Skill(sheet.Id.Value)) || Verdicts.MayBeUsed(PersonRules.Judge(person, sheet, today)))
            .GroupBy(person => (person.PerHour, Key(person)))
            .SelectMany(alike => _variation.Others is null ? alike.Take(2) : alike);

        static string Key(Person person) =>
            string.Join(',', person.Skills.Order()) + "|" + string.Join(';', person.Shifts.Select(shift => $"{string.Join(',', shift.Days.Order())} {shift.From} {shift.To}"))
            + "|" + string.Join(';', person.Absences);
    }

    private ImmutableArray<Resource> Resources()
    {
        var resources = ImmutableArray.CreateBuilder<Resource>();
        foreach (var person in _shop.People)
            resources.Add(new Resource { Id = PersonId(person), Capacity = 1, Open = FreeHours(_hours.Of(person), Windows.Union((_variation.Others?.Of(person.Id) ?? []).Concat(RunningOf(person)))) });
        if (_shop.Lamps is { } lamps)
            resources.Add(new Resource { Id = LampId, Capacity = lamps.Count, Open = LampHours(lamps) });
        AddLampsOfOthers();
        if (_shop.Booth is not null)
            resources.Add(new Resource { Id = BoothId, Capacity = 1, Open = BoothHours() });
        return resources.ToImmutable();
    }

    private ImmutableArray<Window> LampHours(LampPark lamps)
    {
        int from = Math.Max(_time.Now, lamps.BusyUntil is { } busy ? _time.Ceiling(busy) : 0);
        int to = Math.Min(_time.Horizon, lamps.FreeUntil is { } free ? _time.Floor(free) : _time.Horizon);
        return from < to ? [new Window(from, to)] : [new Window(0, 1)];
    }

    private ImmutableArray<Window> BoothHours()
    {
        var windows = ImmutableArray.CreateBuilder<Window>();
        foreach (var day in _hours.DaysFor(null).Where(day => day.From >= 0))
        {
            var date = _time.At(day.From).InZone(_shop.Zone).Date;
            int from = Math.Max(_time.Now, _time.Ceiling(date.At(_shop.Booth!.From).InZoneLeniently(_shop.Zone).ToInstant()));
            int to = Math.Min(_time.Horizon, _time.Floor(date.At(_shop.Booth.To).InZoneLeniently(_shop.Zone).ToInstant()));
            if (from < to)
                windows.Add(new Window(from, to));
        }
        return FreeHours(windows.ToImmutable(), Windows.Union((_variation.Others?.Booth ?? []).Concat(RunningBooth())));
    }

    /// <summary>Hours that are left when other vehicles, the time before this one comes in, and full bays are taken off.</summary>
    private ImmutableArray<Window> FreeHours(ImmutableArray<Window> open, ImmutableArray<Window> taken)
    {
        var free = open.Without(taken);
        if (_case.Repair.Arrives is { } arrival && _time.Ceiling(arrival) is var from && from > 0)
            free = free.Without([new Window(int.MinValue, from)]);
        if (_variation.Others is { FullBays.IsEmpty: false } others && PaintModes is [var (_, _, slot)])
            free = free.Without(Bays.Outside(others.FullBays, slot, slot + Minutes(_shop.Times.Paint), _time.Horizon));
        // An empty list would mean "always".
        return free.IsEmpty ? [new Window(0, 1)] : free;
    }

    /// <summary>Lamps that run on other vehicles are taken for that time.</summary>
    private void AddLampsOfOthers()
    {
        int index = 0;
        foreach (var run in (_variation.Others?.Lamps ?? []).Concat(RunningLamps()))
        {
            int from = run.From / PlanTime.Grid * PlanTime.Grid;
            var mode = new Mode { Id = new ModeId("on"), Duration = run.To - from, Demands = [new Demand(LampId, 1)], Starts = [new Window(from, from + 1)] };
            Add(new Activity { Id = new ActivityId($"{OthersLamp}{++index}"), Modes = [mode] }, new ActivityMeaning(null, []));
        }
    }

    /// <summary>Start windows of work before paint: not on a weekend that is opened only for a slot.</summary>
    private ImmutableArray<Window> BeforePaintDays => _hours.HasSlotWeekends ? _hours.DaysFor(null) : [];

    private static ImmutableArray<Window> Intersect(ImmutableArray<Window> a, ImmutableArray<Window> b)
    {
        if (a.IsDefaultOrEmpty)
            return b.IsDefault ? [] : b;
        if (b.IsDefaultOrEmpty)
            return a;
        var both = ImmutableArray.CreateBuilder<Window>();
        foreach (var one in a)
        {
            foreach (var other in b)
            {
                int from = Math.Max(one.From, other.From);
                int to = Math.Min(one.To, other.To);
                if (from < to)
                    both.Add(new Window(from, to));
            }
        }
        // An empty list would mean "any": a window that no start fits into says "none".
        return both.Count > 0 ? both.ToImmutable() : [Never];
    }

    private static readonly Window Never = new(-1, 0);
}
