using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Documents.Charts;
using Seamwright.Documents.Drawing;
using Seamwright.Units;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>Curves over time: what is not known stays open, what is foretold is marked.</summary>
public class ChartTests
{
    private static readonly Instant Start = Instant.FromUtc(2027, 1, 12, 14, 0);

    // Readings each hour, none between 17:00 and 22:00.
    private static readonly LoggedClimate Log = new(Enumerable.Range(0, 13).Where(hour => hour is <= 3 or >= 8)
        .Select(hour => new ClimateReading(Start + Duration.FromHours(hour), new AirState(Temperature.FromCelsius(20 - hour * 0.5), RelativeHumidity.FromPercent(40)))));

    private static readonly PanelClimate Steady = PanelClimate.FollowingAir(new ConstantClimate(new AirState(Temperature.FromCelsius(20), RelativeHumidity.FromPercent(28))));

    [Theory]
    [InlineData(320)]
    [InlineData(720)]
    public void Curves_of_the_air_stay_open_where_there_is_no_reading(double width)
    {
        var drawing = new ClimateDrawing(PanelClimate.FollowingAir(Log), Start, Start + Duration.FromHours(12), null, Given.Words, width);

        Assert.Equal([new Interval(Start + Duration.FromHours(3), Start + Duration.FromHours(8))], drawing.Gaps);
        foreach (var curve in new[] { drawing.Air, drawing.Panel, drawing.Dew, drawing.Humidity })
        {
            Assert.Equal(2, curve.Length);
            double span = curve[1][^1].X - curve[0][0].X;
            Assert.Equal(curve[0][0].X + span * 3 / 12, curve[0][^1].X, 6);
            Assert.Equal(curve[0][0].X + span * 8 / 12, curve[1][0].X, 6);
        }
        MeasuringCanvas.Of(drawing).AssertInside(drawing);
    }

    [Fact]
    public void Air_beyond_the_log_is_open_too()
    {
        var drawing = new ClimateDrawing(PanelClimate.FollowingAir(Log), Start - Duration.FromHours(1), Start + Duration.FromHours(14), null, Given.Words);

        Assert.Equal(3, drawing.Gaps.Length);
        Assert.Equal(Start + Duration.FromHours(12), drawing.Gaps[^1].Start);
    }

    [Theory]
    [InlineData(OutlookKind.Foretold, "forecast")]
    [InlineData(OutlookKind.Patterned, "by the heating pattern")]
    [InlineData(OutlookKind.Constant, "taken as constant")]
    public void What_was_not_measured_is_marked_by_a_word_and_a_hatch_of_its_own(OutlookKind kind, string word)
    {
        var drawing = new ClimateDrawing(Steady, Start, Start + Duration.FromHours(12), new(Start + Duration.FromHours(4), kind), Given.Words);

        Assert.Contains(MeasuringCanvas.Of(drawing).Texts, text => text.Text == word);
        string[] hatches = [.. Enum.GetValues<OutlookKind>().Where(one => one != OutlookKind.Measured)
            .Select(one => Hatched(new ClimateDrawing(Steady, Start, Start + Duration.FromHours(12), new(Start + Duration.FromHours(4), one), Given.Words)))];
        Assert.Equal(hatches.Length, hatches.Distinct().Count());
        MeasuringCanvas.Of(drawing).AssertInside(drawing);
    }

    [Fact]
    public void Figures_beside_the_chart_are_those_of_its_curves_and_missing_where_these_are_open()
    {
        var drawing = new ClimateDrawing(PanelClimate.FollowingAir(Log), Start, Start + Duration.FromHours(12), null, Given.Words);

        Assert.Equal(5, drawing.Figures.Length);        // 15, 18, 21, 0 and 3 o'clock: both ends of twelve hours are on the three-hour grid
        foreach (var figure in drawing.Figures)
        {
            bool isOpen = drawing.Gaps.Any(gap => gap.Start < figure.At && figure.At < gap.End);
            Assert.Equal(isOpen, figure.Values is null);
            if (figure.Values is not { } values)
                continue;
            var expected = drawing.SpotOf(figure.At, values.Air);
            Assert.Equal(expected.Y, On(drawing.Air, expected.X), 0.5);
        }
    }

    private static string Hatched(ClimateDrawing drawing) =>
        string.Join(' ', SvgCanvas.Element(drawing, "").Split('<').Where(part => part.Contains("forecast__hatch", StringComparison.Ordinal)));

    private static double On(ImmutableArray<ImmutableArray<Spot>> curve, double x)
    {
        var piece = curve.Single(piece => piece[0].X <= x + 1e-6 && x <= piece[^1].X + 1e-6);
        int after = Math.Max(1, piece.ToList().FindIndex(spot => spot.X >= x - 1e-6));
        var (from, to) = (piece[after - 1], piece[after]);
        return from.Y + (to.Y - from.Y) * (x - from.X) / (to.X - from.X);
    }

    [Theory]
    [InlineData(320, null)]
    [InlineData(640, 3.0)]
    public void A_cure_ends_where_the_cure_clock_says_and_shows_the_points_of_the_sheet(double width, double? millimetres)
    {
        foreach (var sheet in Given.Evening.Sheets)
        {
            var depth = millimetres is { } mm ? Length.FromMillimetres(mm) : (Length?)null;
            var drawing = new CureDrawing(new CureCase(sheet, Steady, Start, depth, null, "J1", []), Given.Words, width);

            foreach (var way in drawing.Ways)
            {
                Assert.Equal(drawing.Ways[0].Pieces[0][0].Y, way.Pieces[0][0].Y, 6);        // all begin at nothing
                Assert.True(way.Pieces[^1][^1].Y < way.Pieces[0][0].Y);
                double[] heights = [.. way.Pieces.SelectMany(piece => piece).Select(spot => spot.Y)];
                Assert.Equal(heights.OrderDescending(), heights);       // cure never runs backwards
            }
            foreach (var milestone in sheet.Milestones.Where(milestone => milestone.Needed > ReferenceTime.Zero && drawing.Ways.Any(way => way.Name == Given.Words.Word(milestone.Kind))))
            {
                var expected = CureClock.For(milestone.Law, Steady, Start, Start + Duration.FromDays(60)).Finish(Start, milestone.Needed);
                Assert.Equal(expected, drawing.Ways.First(way => way.Name == Given.Words.Word(milestone.Kind)).Reached);
            }
            MeasuringCanvas.Of(drawing).AssertInside(drawing);
        }
    }

    [Fact]
    public void Nothing_is_said_to_be_ready_before_it_is_nor_workable_longer_than_it_is()
    {
        var sheet = Given.Evening.Sheets.First(sheet => sheet.Id.Value == "E2S");
        var drawing = new CureDrawing(new CureCase(sheet, Steady, Start, null, null, "", []), Given.Words);

        string[] texts = [.. MeasuringCanvas.Of(drawing).Texts.Select(text => text.Text)];
        foreach (var way in drawing.Ways)
        {
            var shown = way.IsLimit ? way.Reached : way.Reached + Duration.FromSeconds(59.999);
            Assert.Contains($"{way.Name} {Given.Words.Moment(shown)}", texts);
        }
    }

    [Fact]
    public void A_cure_through_a_gap_stays_open_there()
    {
        var sheet = Given.Evening.Sheets.First(sheet => sheet.Id.Value == "PU1");
        var gap = new Interval(Start + Duration.FromHours(2), Start + Duration.FromHours(3));

        var drawing = new CureDrawing(new CureCase(sheet, Steady, Start, null, null, "", [gap]), Given.Words);

        Assert.Contains(drawing.Ways, way => way.Pieces.Length == 2);
    }

    [Fact]
    public void Names_of_ways_overlap_neither_each_other_nor_a_point() =>
        Gen.Select(Gen.Int[1, 9], Gen.Int[0, 1_000_000], Gen.Bool).Look(60, given =>
        {
            var random = new Random(given.Item2);
            var points = Enumerable.Range(0, given.Item1).Select(i => new TradeOffPoint(
                Start + Duration.FromMinutes(random.Next(3000)), new Money(200 + random.Next(400), "EUR"), i % 2 == 0 ? "with lamp and delivery" : "cheapest", i == 0, i > 5)).ToImmutableArray();
            var drawing = new TradeOffDrawing(points, Given.Words, given.Item3 ? 360 : 720);

            var boxes = drawing.Labels.Select(label => label.Box).Concat(drawing.Points.Select(point => new Box(drawing.SpotOf(point).X - 5, drawing.SpotOf(point).Y - 5, 10, 10))).ToList();
            for (int i = 0; i < drawing.Labels.Length; i++)
                Assert.All(boxes.Skip(i + 1), box => Assert.False(boxes[i].Overlaps(box), $"{boxes[i]} lies on {box}"));
            MeasuringCanvas.Of(drawing).AssertInside(drawing);
        });

    [Fact]
    public void Further_left_is_earlier_and_lower_is_cheaper()
    {
        var early = new TradeOffPoint(Start, new Money(500, "EUR"), "fast");
        var late = new TradeOffPoint(Start + Duration.FromHours(20), new Money(300, "EUR"), "cheap", Chosen: true);

        var drawing = new TradeOffDrawing([late, early], Given.Words);

        Assert.True(drawing.SpotOf(early).X < drawing.SpotOf(late).X);
        Assert.True(drawing.SpotOf(early).Y < drawing.SpotOf(late).Y);
        Assert.Contains("present plan", drawing.Description, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new TradeOffDrawing([], Given.Words));
    }
}
