using NodaTime;

namespace Seamwright.Program.Texts;

public sealed partial class Formatter
{
    /// <summary>A moment: the clock where it is today's, else weekday, day, month and clock; with the year where it is not this year's.</summary>
    public string Moment(Instant moment) =>
        Notation.Today == moment.InZone(Notation.Zone).Date ? Clock(moment) : DateAndClock(moment);

    /// <summary>The 24-hour clock in the shop's zone, to the whole minute; with the offset where that local time comes twice.</summary>
    public string Clock(Instant moment)
    {
        var local = moment.InZone(Notation.Zone);
        string clock = Text(local.TimeOfDay);
        return Notation.Zone.MapLocal(local.LocalDateTime).Count == 2
            ? $"{clock} (UTC{local.Offset.ToString("+HH:mm", System.Globalization.CultureInfo.InvariantCulture)})"
            : clock;
    }

    /// <summary>The end of a permission: the last day where it ends at midnight, else day and clock.</summary>
    public string Until(Instant end) => end.InZone(Notation.Zone).TimeOfDay == LocalTime.Midnight
        ? Say("date.through", Day(end - Duration.Epsilon))
        : DateAndClock(end);

    /// <summary>Weekday, day, month and clock.</summary>
    public string DateAndClock(Instant moment) => $"{Day(moment)} {Clock(moment)}";

    /// <summary>Weekday, day and month: <c>Tue 12 Jan</c>; with the year where it is far from today's.</summary>
    public string Day(Instant moment)
    {
        var date = moment.InZone(Notation.Zone).Date;
        bool near = Notation.Today is { } today && Math.Abs(Period.DaysBetween(today, date)) < 200;
        return near
            ? Say("date.near", Word(date.DayOfWeek), date.Day, Month(date))
            : Say("date.far", Word(date.DayOfWeek), date.Day, Month(date), Year(date));
    }

    /// <summary>Two moments: <c>15:40–15:52</c>; the date is told once where both lie on one day.</summary>
    public string Between(Instant from, Instant to)
    {
        bool oneDay = from.InZone(Notation.Zone).Date == to.InZone(Notation.Zone).Date;
        return $"{Moment(from)}{(oneDay ? "–" : " – ")}{(oneDay ? Clock(to) : Moment(to))}";
    }

    /// <summary>A date with its year: <c>31 Jan 2027</c>.</summary>
    public string Text(LocalDate date) => Say("date.day", date.Day, Month(date), Year(date));

    /// <summary>A time of day on the 24-hour clock.</summary>
    public string Text(LocalTime time) =>
        $"{time.Hour.ToString("00", Notation.Culture)}:{time.Minute.ToString("00", Notation.Culture)}";

    /// <summary>A length of time to the whole minute: <c>1 h 15 min</c>; seconds below one minute.</summary>
    public string Text(Duration span)
    {
        string sign = span < Duration.Zero ? "−" : "";
        var size = span < Duration.Zero ? -span : span;
        if (size > Duration.Zero && size < Duration.FromSeconds(59.5))
            return $"{sign}{Number(size.TotalSeconds, 0)} s";

        long minutes = (long)Math.Round(size.TotalMinutes, MidpointRounding.AwayFromZero);
        (long hours, long rest) = Math.DivRem(minutes, 60);
        string text = hours == 0 ? $"{Number(rest, 0)} min"
            : rest == 0 ? $"{Number(hours, 0)} h"
            : $"{Number(hours, 0)} h {Number(rest, 0)} min";
        return sign + text;
    }

    /// <summary>A shift in time in short: <c>+3:10</c>, <c>−0:45</c>.</summary>
    public string Shift(Duration span)
    {
        long minutes = (long)Math.Round(Math.Abs(span.TotalMinutes), MidpointRounding.AwayFromZero);
        (long hours, long rest) = Math.DivRem(minutes, 60);
        string sign = span < Duration.Zero ? "−" : "+";
        return $"{sign}{Number(hours, 0)}:{rest.ToString("00", Notation.Culture)}";
    }

    private string Month(LocalDate date) => Say($"month.{date.Month.ToString(System.Globalization.CultureInfo.InvariantCulture)}");

    private static string Year(LocalDate date) => date.Year.ToString("0000", System.Globalization.CultureInfo.InvariantCulture);
}
