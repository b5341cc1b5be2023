using NodaTime;
using NodaTime.TimeZones;
using Seamwright.Shops;

namespace Seamwright.Documents.Timelines;

/// <summary>When the shop is open, for the picture; what may be planned when is the planner's matter.</summary>
internal static class ShopHours
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
                var start = date.At(shift.From).InZone(shop.Zone, Resolvers.LenientResolver).ToInstant();
                var end = date.At(shift.To).InZone(shop.Zone, Resolvers.LenientResolver).ToInstant();
                if (start < to && end > from && start < end)
                    yield return new Interval(start, end);
            }
        }
    }
}
