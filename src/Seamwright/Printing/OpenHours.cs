using NodaTime;
using NodaTime.TimeZones;
using Seamwright.Shops;

namespace Seamwright.Program.Printing;

/// <summary>When the shop is open, for the picture; what may be planned when is the planner's matter.</summary>
internal static class OpenHours
{
    /// <summary>Opening hours that touch a span, ascending.</summary>
    public static IEnumerable<Interval> Within(Shop shop, Instant from, Instant to)
    {
        var last = to.InZone(shop.Zone).Date;
        for (var date = from.InZone(shop.Zone).Date; date <= last; date = date.PlusDays(1))
        {
            if (shop.Holidays.Contains(date))
                continue;
            foreach (var shift in shop.Hours.Where(shift => shift.Days.Contains(date.DayOfWeek)).OrderBy(shift => shift.From))
            {
                var start = At(shop.Zone, date, shift.From);
                var end = At(shop.Zone, date, shift.To);
                if (start < to && end > from && start < end)
                    yield return new Interval(start, end);
            }
        }
    }

    private static Instant At(DateTimeZone zone, LocalDate date, LocalTime time) =>
        date.At(time).InZone(zone, Resolvers.LenientResolver).ToInstant();
}
