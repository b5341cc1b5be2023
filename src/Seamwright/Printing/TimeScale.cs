using System.Globalization;
using NodaTime;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Printing;

/// <summary>Days and hours over an axis.</summary>
internal static class TimeScale
{
    private static readonly int[] HourSteps = [1, 2, 3, 4, 6, 12, 24];

    // "15:00" and a gap.
    private const int LabelColumns = 7;

    /// <summary>Two lines: days, hours.</summary>
    public static IEnumerable<string> Lines(Formatter format, TimeAxis axis)
    {
        var zone = format.Notation.Zone;
        char[] days = Blank(axis);
        char[] hours = Blank(axis);
        int dayFree = 0;
        int hourFree = 0;
        int step = HourSteps.FirstOrDefault(step => step * 60 >= LabelColumns * axis.Minutes, 24);
        LocalDate? day = null;
        foreach (var piece in axis.Pieces.Where(piece => !piece.Folded))
        {
            foreach (var (moment, isStart) in Moments(piece, zone, step))
            {
                var local = moment.InZone(zone);
                int column = (int)Math.Floor(axis.Position(moment) + 1e-9);
                if (local.Date != day && column >= dayFree)
                {
                    dayFree = Put(days, column, format.Day(moment)) + 1;
                    day = local.Date;
                }
                if (!isStart && column >= hourFree)
                    hourFree = Put(hours, column, local.TimeOfDay.ToString("HH:mm", CultureInfo.InvariantCulture)) + 1;
            }
        }
        return [new string(days), new string(hours)];
    }

    // The start of a piece tells the day; whole hours in steps tell the clock.
    private static IEnumerable<(Instant Moment, bool IsStart)> Moments(TimeAxis.Piece piece, DateTimeZone zone, int step)
    {
        yield return (piece.From, true);
        var local = piece.From.InZone(zone).LocalDateTime;
        var hour = local.Date.AtMidnight().PlusHours(local.Hour / step * step);
        for (; ; hour = hour.PlusHours(step))
        {
            var moment = hour.InZoneLeniently(zone).ToInstant();
            if (moment >= piece.To)
                yield break;
            if (moment >= piece.From)
                yield return (moment, false);
        }
    }

    private static char[] Blank(TimeAxis axis)
    {
        char[] line = new char[axis.Columns];
        Array.Fill(line, ' ');
        return line;
    }

    private static int Put(char[] line, int column, string text)
    {
        int end = Math.Min(line.Length, column + text.Length);
        if (column + text.Length > line.Length)
            return column;
        text.AsSpan(0, end - column).CopyTo(line.AsSpan(column));
        return end;
    }
}
