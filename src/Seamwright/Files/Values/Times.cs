using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Seamwright.Shops;

namespace Seamwright.Files.Values;

/// <summary>Reads times, dates and weekdays. Each returns null where there is a problem, which has been told.</summary>
internal static class Times
{
    private static readonly ImmutableArray<LocalDateTimePattern> LocalPatterns =
        [.. new[] { "uuuu-MM-dd'T'HH:mm", "uuuu-MM-dd'T'HH:mm:ss", "uuuu-MM-dd HH:mm", "uuuu-MM-dd HH:mm:ss" }
            .Select(LocalDateTimePattern.CreateWithInvariantCulture)];

    private static readonly ImmutableArray<OffsetDateTimePattern> OffsetPatterns =
        [.. new[] { "uuuu-MM-dd'T'HH:mmo<Z+HH:mm>", "uuuu-MM-dd'T'HH:mm:sso<Z+HH:mm>", "uuuu-MM-dd HH:mmo<Z+HH:mm>", "uuuu-MM-dd HH:mm:sso<Z+HH:mm>" }
            .Select(OffsetDateTimePattern.CreateWithInvariantCulture)];

    private static readonly LocalDatePattern DatePattern = LocalDatePattern.CreateWithInvariantCulture("uuuu-MM-dd");
    private static readonly LocalTimePattern ClockPattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private static readonly ImmutableArray<string> DayNames = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

    /// <summary>A local time of the shop, or a time with its offset from UTC.</summary>
    public static Instant? Moment(Field field, DateTimeZone zone)
    {
        if (field.Scalar() is not { } text)
            return null;
        foreach (var pattern in OffsetPatterns)
        {
            if (pattern.Parse(text) is { Success: true } exact)
                return Sensible(field, exact.Value.LocalDateTime) ? exact.Value.ToInstant() : null;
        }

        foreach (var pattern in LocalPatterns)
        {
            if (pattern.Parse(text) is { Success: true } local)
                return Sensible(field, local.Value) ? InZone(field, local.Value, zone) : null;
        }

        field.Problem("time.not-a-time", Words.Quote(text));
        return null;
    }

    /// <summary>A calendar day.</summary>
    public static LocalDate? Date(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (DatePattern.Parse(text) is { Success: true } date)
            return Sensible(field, date.Value.AtMidnight()) ? date.Value : null;
        field.Problem("time.not-a-date", Words.Quote(text));
        return null;
    }

    /// <summary>The last usable day: a date, or a month, which means its last day.</summary>
    public static LocalDate? Expiry(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (DatePattern.Parse(text) is { Success: true } date)
            return Sensible(field, date.Value.AtMidnight()) ? date.Value : null;
        if (DatePattern.Parse(text + "-01") is { Success: true } month)
            return Sensible(field, month.Value.AtMidnight()) ? month.Value.With(DateAdjusters.EndOfMonth) : null;
        field.Problem("time.not-an-expiry", Words.Quote(text));
        return null;
    }

    /// <summary>A time of day.</summary>
    public static LocalTime? Clock(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        if (ClockPattern.Parse(text.Length == 4 ? "0" + text : text) is { Success: true } clock)
            return clock.Value;
        field.Problem("time.not-a-clock", Words.Quote(text));
        return null;
    }

    /// <summary>A break such as <c>12:30-13:00</c>.</summary>
    public static Break? Break(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        var parts = text.Split('-', '–');
        if (parts.Length == 2 && ClockPattern.Parse(parts[0].Trim()) is { Success: true } from && ClockPattern.Parse(parts[1].Trim()) is { Success: true } to)
        {
            if (to.Value > from.Value)
                return new(from.Value, to.Value);
            field.Problem("time.end-before-start", Words.Quote(parts[1]), Words.Quote(parts[0]));
            return null;
        }

        field.Problem("time.not-a-break", Words.Quote(text));
        return null;
    }

    /// <summary>Weekdays: <c>Mon-Fri</c>, <c>Sat</c> or a list of such.</summary>
    public static ImmutableHashSet<IsoDayOfWeek>? Days(Field field)
    {
        var days = ImmutableHashSet.CreateBuilder<IsoDayOfWeek>();
        bool good = true;
        foreach (var item in field.Items())
        {
            if (item.Scalar() is not { } text)
            {
                good = false;
                continue;
            }

            var ends = text.Split('-', '–').Select(end => DayNames.IndexOf(end.Trim())).ToArray();
            if (ends.Length > 2 || ends.Contains(-1))
            {
                item.Problem("time.not-weekdays", Words.Quote(text));
                good = false;
                continue;
            }

            for (int day = ends[0]; ; day = (day + 1) % 7)      // Fri-Mon runs over the weekend
            {
                days.Add((IsoDayOfWeek)(day + 1));
                if (day == ends[^1])
                    break;
            }
        }

        return good ? days.ToImmutable() : null;
    }

    /// <summary>The only place where a shop's clock time becomes an instant.</summary>
    private static Instant? InZone(Field field, LocalDateTime local, DateTimeZone zone)
    {
        var mapping = zone.MapLocal(local);
        string shown = LocalPatterns[0].Format(local);
        switch (mapping.Count)
        {
            case 1:
                return mapping.Single().ToInstant();
            case 0:
                field.Problem("time.skipped", shown, zone.Id);
                return null;
            default:
                field.Problem("time.doubled", shown, zone.Id, $"{shown}{Offset(mapping.First())}", $"{shown}{Offset(mapping.Last())}");
                return null;
        }
    }

    private static string Offset(ZonedDateTime time) => time.Offset.ToString("+HH:mm", CultureInfo.InvariantCulture);

    // A slip in the year must not send the planner through centuries.
    private static bool Sensible(Field field, LocalDateTime time)
    {
        if (time.Year is >= 2000 and < 2100)
            return true;
        field.Problem("time.year", Words.Number(time.Year));
        return false;
    }
}
