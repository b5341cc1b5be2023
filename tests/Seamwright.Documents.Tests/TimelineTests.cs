using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.Timelines;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>A plan over time, drawn and as a table.</summary>
public class TimelineTests
{
    private static readonly Instant Eight = Instant.FromUtc(2027, 1, 12, 8, 0);

    [Theory]
    [InlineData(320)]
    [InlineData(900)]
    public void Everything_stays_on_the_sheet_and_every_step_in_its_lane(double width)
    {
        var drawing = new TimelineDrawing(Given.Evening, Given.EveningPlan, Given.Words, width);

        MeasuringCanvas.Of(drawing).AssertInside(drawing);
        foreach (var lane in drawing.Layout.Lanes)
            Assert.All(lane.Bars, bar => Assert.True(lane.Box.Grown(0.01).Holds(bar.Box), $"{bar.Step.Id} leaves {lane.Name}"));
    }

    [Fact]
    public void The_table_has_a_row_for_each_step_with_the_times_of_the_plan()
    {
        var rows = new TimelineDrawing(Given.Evening, Given.EveningPlan, Given.Words).Layout.Rows;

        Assert.Equal(Given.EveningPlan.Steps.Select(step => (step.Start, step.End)), rows.Select(row => (row.From, row.To)));
        Assert.All(rows, row => Assert.False(string.IsNullOrWhiteSpace(row.What)));
    }

    [Fact]
    public void Every_step_is_drawn_once() => Assert.Equal(
        Given.EveningPlan.Steps.Select(step => step.Id).Order(),
        new TimelineDrawing(Given.Evening, Given.EveningPlan, Given.Words).Layout.Lanes.SelectMany(lane => lane.Bars).Select(bar => bar.Step.Id).Order());

    [Fact]
    public void Hours_of_work_are_equally_wide_and_a_night_is_folded()
    {
        var morning = new Interval(Eight, Eight + Duration.FromHours(9));
        var nextDay = new Interval(Eight + Duration.FromHours(24), Eight + Duration.FromHours(33));

        var scale = TimeScale.Folding(morning.Start, nextDay.End, [nextDay, morning], 100, 400, 40);

        Assert.Equal(20, scale.UnitsPerHour, 9);        // (400 − 40) / 18 h
        Assert.Equal([false, true, false], scale.Stretches.Select(stretch => stretch.Folded));
        Assert.Equal(180, scale.X(Eight + Duration.FromHours(4)), 9);
        Assert.Equal(100 + 180 + 40 + 20, scale.X(nextDay.Start + Duration.FromHours(1)), 9);
        Assert.Equal(500, scale.Right, 9);
        Assert.Equal(scale.Left, scale.X(Eight - Duration.FromHours(1)));
        Assert.Equal(scale.Right, scale.X(nextDay.End + Duration.FromHours(1)));
    }

    [Fact]
    public void Time_never_runs_backwards_on_the_sheet()
    {
        var scale = TimeScale.Folding(Eight, Eight + Duration.FromHours(60), [new(Eight, Eight + Duration.FromHours(3)), new(Eight + Duration.FromHours(20), Eight + Duration.FromHours(25))], 0, 300, 30);

        double[] places = [.. Enumerable.Range(0, 600).Select(i => scale.X(Eight + Duration.FromMinutes(6 * i)))];

        Assert.Equal(places.Order(), places);
        Assert.All(scale.Ticks(DateTimeZone.Utc, 40).Zip(scale.Ticks(DateTimeZone.Utc, 40).Skip(1)), pair => Assert.True(pair.Second.X - pair.First.X >= 40));
    }
}
