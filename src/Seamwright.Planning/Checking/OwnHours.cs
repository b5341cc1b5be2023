using NodaTime;
using Seamwright.Shops;

namespace Seamwright.Planning.Checking;

/// <summary>Working hours told day by day from the shop's records.</summary>
internal static class OwnHours
{
    /// <summary>Stretches of a day in which a person works without a break.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="person">The person; null = the shop itself.</param>
    /// <param name="day">Day in the shop's zone.</param>
    /// <param name="slots">Paint slots that open a weekend day.</param>
    public static IEnumerable<(Instant From, Instant To)> Of(CheckedPlan plan, Person? person, LocalDate day, IEnumerable<Instant> slots)
    {
        var shop = plan.Shop;
        var own = person is null || person.Shifts.IsDefaultOrEmpty ? shop.Hours : person.Shifts;
        var shifts = shop.Holidays.Contains(day) ? [] : own.Where(shift => shift.Days.Contains(day.DayOfWeek)).ToList();
        if (shifts.Count == 0 && shop.WeekendWithSlot is { } weekend && weekend.Days.Contains(day.DayOfWeek) && slots.Any(slot => slot.InZone(shop.Zone).Date == day))
            shifts.Add(weekend);
        foreach (var shift in shifts)
        {
            var from = shift.From;
            foreach (var pause in shift.Breaks.OrderBy(pause => pause.From))
            {
                yield return (At(day, from), At(day, pause.From));
                from = pause.To;
            }
            yield return (At(day, from), At(day, shift.To));
        }

        Instant At(LocalDate date, LocalTime time) => (date + time).InZoneLeniently(shop.Zone).ToInstant();
    }

    /// <summary>A day on which somebody of the body shop works anyway.</summary>
    public static bool IsOrdinary(CheckedPlan plan, LocalDate day) =>
        !plan.Shop.Holidays.Contains(day)
        && plan.Shop.Hours.Concat(plan.Shop.People.Where(person => person.Skills.Any(skill => skill != Skill.Paint)).SelectMany(person => person.Shifts))
            .Any(shift => shift.Days.Contains(day.DayOfWeek));

    /// <summary>Open shop minutes between two moments, weekend days with an offered slot included.</summary>
    public static double OpenMinutes(CheckedPlan plan, Instant from, Instant to)
    {
        double open = 0;
        var last = to.InZone(plan.Shop.Zone).Date;
        for (var day = from.InZone(plan.Shop.Zone).Date; day <= last; day = day.PlusDays(1))
        {
            foreach (var (start, end) in Of(plan, null, day, plan.Repair.PaintSlots))
                open += Math.Max(0, (Instant.Min(end, to) - Instant.Max(start, from)).TotalMinutes);
        }
        return open;
    }
}
