using System.Collections.Immutable;
using NodaTime;
using Seamwright.Scheduling;
using Seamwright.Shops;

namespace Seamwright.Planning.Mapping;

/// <summary>When the shop and each person work, as windows of the plan; a break divides a shift.</summary>
internal sealed class WorkingHours
{
    private readonly PlanTime _time;
    private readonly Shop _shop;
    private readonly ImmutableHashSet<LocalDate> _slotWeekends;

    public WorkingHours(PlanTime time, Shop shop, IEnumerable<Instant> slots, bool roundTheClock)
    {
        _time = time;
        _shop = shop;
        _slotWeekends = shop.WeekendWithSlot is null
            ? []
            : [.. slots.Select(LocalDateOf).Where(date => !IsOrdinary(date) && shop.WeekendWithSlot.Days.Contains(date.DayOfWeek))];
        Shop = roundTheClock ? [new Window(0, time.Horizon)] : Windows(shop.Hours, withSlotWeekends: true);
        Ordinary = roundTheClock ? Shop : Windows(shop.Hours, withSlotWeekends: false);
        RoundTheClock = roundTheClock;
    }

    /// <summary>True where hours are set aside to look for a conflict.</summary>
    public bool RoundTheClock { get; }

    /// <summary>Shop hours, weekend days with a paint slot included.</summary>
    public ImmutableArray<Window> Shop { get; }

    /// <summary>Shop hours without weekend days.</summary>
    public ImmutableArray<Window> Ordinary { get; }

    /// <summary>True where some slot lies on a day that is not ordinary.</summary>
    public bool HasSlotWeekends => _slotWeekends.Count > 0 && !RoundTheClock;

    /// <summary>Working hours of a person, weekend days with a slot included.</summary>
    public ImmutableArray<Window> Of(Person person) =>
        RoundTheClock ? Shop
        : (person.Shifts.IsDefaultOrEmpty ? Shop : Windows(person.Shifts, withSlotWeekends: true)).Without(
            Mapping.Windows.Union(person.Absences.Select(away => new Window(_time.Floor(away.Start), _time.Ceiling(away.End)))));

    /// <summary>Whole days on which work for this car may start: ordinary days, and the day of <paramref name="slot"/> if given.</summary>
    public ImmutableArray<Window> DaysFor(Instant? slot)
    {
        var allowed = slot is { } instant ? LocalDateOf(instant) : (LocalDate?)null;
        return Days(date => IsOrdinary(date) || date == allowed);
    }

    /// <summary>Working days by which the slot moves between two instants, as the shop counts them.</summary>
    public int BayDays(Instant from, Instant to)
    {
        int days = 0;
        for (var date = LocalDateOf(from).PlusDays(1); date <= LocalDateOf(to); date = date.PlusDays(1))
        {
            if (_shop.TimeValue.BayDays.Contains(date.DayOfWeek) && !_shop.Holidays.Contains(date))
                days++;
        }
        return days;
    }

    /// <summary>Minutes at which another hour after the promise has started, ascending, while the plan lasts.</summary>
    public IEnumerable<int> StartedHoursAfter(Instant promise)
    {
        int from = _time.Floor(promise);
        int open = 0;
        foreach (var window in Shop)
        {
            int start = Math.Max(window.From, from);
            if (start >= window.To)
                continue;
            int length = window.To - start;
            // The n-th hour starts with the first minute after n − 1 whole open hours.
            for (int hour = (open + 59) / 60; hour * 60 < open + length; hour++)
                yield return start + hour * 60 - open + 1;
            open += length;
        }
    }

    private LocalDate LocalDateOf(Instant at) => at.InZone(_shop.Zone).Date;

    /// <summary>A day on which the body shop works anyway; a painter's own evenings and weekends do not make one.</summary>
    private bool IsOrdinary(LocalDate date) =>
        !_shop.Holidays.Contains(date)
        && (_shop.Hours.Any(shift => shift.Days.Contains(date.DayOfWeek))
            || _shop.People.Where(person => person.Skills.Any(skill => skill != Skill.Paint)).Any(person => person.Shifts.Any(shift => shift.Days.Contains(date.DayOfWeek))));

    private ImmutableArray<Window> Windows(ImmutableArray<Shift> shifts, bool withSlotWeekends)
    {
        var windows = new List<Window>();
        foreach (var date in Dates())
        {
            var today = _shop.Holidays.Contains(date) ? [] : shifts.Where(shift => shift.Days.Contains(date.DayOfWeek)).ToList();
            if (today.Count == 0 && withSlotWeekends && _slotWeekends.Contains(date))
                today.Add(_shop.WeekendWithSlot!);
            foreach (var shift in today)
                AddFragments(windows, date, shift);
        }
        return [.. windows.OrderBy(window => window.From)];
    }

    private void AddFragments(List<Window> windows, LocalDate date, Shift shift)
    {
        var from = shift.From;
        foreach (var pause in shift.Breaks)
        {
            Add(windows, date, from, pause.From);
            from = pause.To;
        }
        Add(windows, date, from, shift.To);
    }

    private void Add(List<Window> windows, LocalDate date, LocalTime from, LocalTime to)
    {
        int start = Math.Max(_time.Now, Minute(date, from));
        int end = Math.Min(_time.Horizon, Minute(date, to));
        if (start < end)
            windows.Add(new Window(start, end));
    }

    private ImmutableArray<Window> Days(Func<LocalDate, bool> allowed)
    {
        var days = new List<Window>();
        foreach (var date in Dates().Where(allowed))
        {
            int start = Math.Max(0, Minute(date, LocalTime.Midnight));
            int end = Math.Min(_time.Horizon + 1, Minute(date.PlusDays(1), LocalTime.Midnight));
            if (start < end)
                days.Add(new Window(start, end));
        }
        // No day at all must not read as any day.
        return days.Count > 0 ? [.. days] : [new Window(-1, 0)];
    }

    private IEnumerable<LocalDate> Dates()
    {
        var last = LocalDateOf(_time.At(_time.Horizon));
        for (var date = LocalDateOf(_time.Origin); date <= last; date = date.PlusDays(1))
            yield return date;
    }

    private int Minute(LocalDate date, LocalTime at) => _time.Ceiling(date.At(at).InZoneLeniently(_shop.Zone).ToInstant());
}
