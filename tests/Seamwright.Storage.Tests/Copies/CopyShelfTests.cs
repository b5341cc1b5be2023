using NodaTime;
using Seamwright.Storage.Copies;
using Xunit;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>When a copy is due and which ones stay.</summary>
public class CopyShelfTests
{
    private static readonly DateTimeZone Vienna = DateTimeZoneProviders.Tzdb["Europe/Vienna"];

    [Fact]
    public void After_years_the_last_of_seven_days_five_weeks_and_twelve_months_are_there()
    {
        // A copy each day at 02:30 for three years, thinned out each day as the program does.
        var shelf = new List<CopyFile>();
        var first = new LocalDate(2027, 1, 1);
        var last = new LocalDate(2029, 12, 31);
        for (var day = first; day <= last; day = day.PlusDays(1))
        {
            shelf.Add(At(day));
            var stays = CopyShelf.ToKeep(shelf, Vienna);
            shelf.RemoveAll(copy => !stays.Contains(copy));
        }

        // Monday 31 December 2029: counted by hand from a calendar. Sundays end the weeks before, the months' last days the months.
        LocalDate[] expected =
        [
            new(2029, 1, 31), new(2029, 2, 28), new(2029, 3, 31), new(2029, 4, 30), new(2029, 5, 31), new(2029, 6, 30), new(2029, 7, 31),
            new(2029, 8, 31), new(2029, 9, 30), new(2029, 10, 31), new(2029, 11, 30), new(2029, 12, 9), new(2029, 12, 16), new(2029, 12, 23),
            new(2029, 12, 25), new(2029, 12, 26), new(2029, 12, 27), new(2029, 12, 28), new(2029, 12, 29), new(2029, 12, 30), new(2029, 12, 31),
        ];
        Assert.Equal(expected, shelf.Select(copy => copy.Written.InZone(Vienna).Date));
    }

    [Fact]
    public void A_clock_that_jumped_ahead_takes_no_copy_away()
    {
        var copies = Enumerable.Range(1, 7).Select(day => At(new LocalDate(2027, 3, day))).ToList();

        var stays = CopyShelf.ToKeep([.. copies, At(new LocalDate(2099, 1, 1))], Vienna);

        // Six of the seven days and the first day as the last of the week that ended on it.
        Assert.Empty(copies.Skip(1).Except(stays));
    }

    [Theory]
    [InlineData("2027-03-01T02:29", null, true)]                         // never one: at once
    [InlineData("2027-03-02T02:29", "2027-03-01T02:30", false)]          // a minute before
    [InlineData("2027-03-02T02:30", "2027-03-01T02:30", true)]           // on time
    [InlineData("2027-03-02T08:00", "2027-03-01T02:30", true)]           // the night was switched off
    [InlineData("2027-03-02T08:00", "2027-03-02T07:00", false)]          // and was caught up with
    [InlineData("2027-03-28T12:00", "2027-03-27T02:30", true)]           // 02:30 is not there: clocks go from 02:00 to 03:00
    [InlineData("2027-03-01T12:00", "2027-06-01T02:30", true)]           // written by a clock that was ahead
    public void A_copy_is_due_where_none_was_written_since_the_time_last_came_by(string now, string? last, bool isDue)
    {
        var rule = new CopyRule(CopyRule.UsualTime, Vienna);

        Assert.Equal(isDue, rule.IsDue(last is null ? [] : [new CopyFile("", Moment(last), 1)], Moment(now)));
    }

    [Theory]
    [InlineData("02:30", true)]
    [InlineData(" 23:59 ", true)]
    [InlineData("24:00", false)]
    [InlineData("2.30", false)]
    [InlineData("", false)]
    public void A_time_of_day_is_read_or_refused(string text, bool isTime) => Assert.Equal(isTime, CopyRule.TimeOf(text) is not null);

    private static CopyFile At(LocalDate day) => new("", (day + CopyRule.UsualTime).InZoneLeniently(Vienna).ToInstant(), 1);

    private static Instant Moment(string local) => NodaTime.Text.LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(local).Value.InZoneLeniently(Vienna).ToInstant();
}
