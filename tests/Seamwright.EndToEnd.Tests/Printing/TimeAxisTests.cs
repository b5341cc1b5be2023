using CsCheck;
using NodaTime;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Printing;

public class TimeAxisTests
{
    private static readonly Instant Start = Sample.At(7, 30);

    [Fact]
    public void An_axis_never_takes_more_columns_than_there_are_and_never_runs_backwards() =>
        Gen.Select(Gen.Int[40, 130], Gen.Int[1, 400], Gen.Int[0, 380]).Sample((columns, hours, workedFrom) =>
        {
            var end = Start + Duration.FromHours(hours);
            var axis = TimeAxis.Over(Start, end, [new Interval(Start + Duration.FromHours(Math.Min(workedFrom, hours)), end)], columns);

            double before = -1;
            for (int minute = 0; minute <= hours * 60; minute += 17)
            {
                double at = axis.Position(Start + Duration.FromMinutes(minute));
                Assert.InRange(at, Math.Max(before, 0), axis.Columns);
                before = at;
            }
            Assert.InRange(axis.Columns, 1, columns);
        });

    [Fact]
    public void A_night_is_folded_and_the_day_keeps_its_scale()
    {
        var axis = TimeAxis.Over(Start, Sample.At(33, 0), [new Interval(Start, Sample.At(18, 0)), new Interval(Sample.At(31, 30), Sample.At(33, 0))], 100);

        Assert.Equal([false, true, false], axis.Pieces.Select(piece => piece.Folded));
        Assert.Equal(TimeAxis.FoldColumns, axis.Pieces[1].Columns);
        Assert.Equal(10, axis.Minutes);
        Assert.Equal(6, axis.Position(Sample.At(8, 30)));
    }

    [Fact]
    public void The_shortest_step_still_shows()
    {
        var axis = TimeAxis.Over(Start, Sample.At(33, 0), [new Interval(Start, Sample.At(33, 0))], 60);

        Assert.Equal(1, axis.Span(Sample.At(9, 0), Sample.At(9, 1)).Count);
    }
}
