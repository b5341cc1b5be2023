using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;

namespace Seamwright.Planning.Mapping;

/// <summary>People, their hours and the shop's equipment as renewable resources.</summary>
internal sealed partial class ProjectBuilder
{
    private static readonly ResourceId LampId = new("lamp");
    private static readonly ResourceId BoothId = new("booth");

    private static ResourceId PersonId(Person person) => new($"person:{person.Id}");

    /// <summary>
    /// People with a skill whose training for a sheet is current. People who differ only by name are kept up to two: more hands of the
    /// same kind never finish one car's seams sooner than two, as its sessions follow each other.
    /// </summary>
    private IEnumerable<Person> PeopleFor(Skill skill, DataSheet? sheet)
    {
        var today = _case.Repair.Now.InZone(_shop.Zone).Date;
        return _shop.People
            .Where(person => person.Skills.Contains(skill) || _variation.IsSetAside(FactIds.Skill(skill.ToString())))
            .Where(person => sheet is null || _variation.IsSetAside(FactIds.Skill(sheet.Id.Value)) || Verdicts.MayBeUsed(PersonRules.Judge(person, sheet, today)))
            .GroupBy(person => (person.PerHour, Key(person)))
            .SelectMany(alike => alike.Take(2));

        static string Key(Person person) =>
            string.Join(',', person.Skills.Order()) + "|" + string.Join(';', person.Shifts.Select(shift => $"{string.Join(',', shift.Days.Order())} {shift.From} {shift.To}"));
    }

    private ImmutableArray<Resource> Resources()
    {
        var resources = ImmutableArray.CreateBuilder<Resource>();
        foreach (var person in _shop.People)
            resources.Add(new Resource { Id = PersonId(person), Capacity = 1, Open = _hours.Of(person) });
        if (_shop.Lamps is { } lamps)
            resources.Add(new Resource { Id = LampId, Capacity = lamps.Count, Open = LampHours(lamps) });
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
        return windows.Count > 0 ? windows.ToImmutable() : [new Window(0, 1)];
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
