using Xunit;

namespace Seamwright.Scheduling.Tests.Makespan;

/// <summary>The makespan checker, on a schedule that is right and on spoilt copies of it.</summary>
public class MakespanCheckerTests
{
    // Two activities of 2 and 3 periods; the second starts 1 to 4 periods after the first has started; 3 units, 2 needed by each.
    private static readonly MakespanProblem Problem = new()
    {
        Capacities = [3],
        Stocks = [4],
        Activities = [Activity(2), Activity(3)],
        Lags = [new MakespanLag(0, Edge.Start, 1, 1), new MakespanLag(1, Edge.Start, 0, -4)],
    };

    [Fact]
    public void A_schedule_that_keeps_everything_passes() =>
        Assert.Empty(MakespanChecker.Check(Problem, new MakespanSchedule([0, 2], [0, 0], 5)));

    [Theory]
    [InlineData(0, 1, 0, 0, 4, "Resource 0 has 3 units, but 4 are used in period 1.")]
    [InlineData(0, 5, 0, 0, 8, "Activity 0 starts at 0, but 1 allows 1 at the earliest.")]
    [InlineData(3, 0, 0, 0, 5, "Activity 1 starts at 0, but 0 allows 4 at the earliest.")]
    [InlineData(-1, 2, 0, 0, 5, "Activity 0 starts at -1, before the project.")]
    [InlineData(0, 2, 0, 0, 6, "The makespan is said to be 6, but the last activity ends at 5.")]
    [InlineData(0, 2, 0, 1, 3, "Stock 0 holds 4 units, but 5 are used up.")]
    [InlineData(0, 2, 0, 7, 5, "A mode is chosen that its activity does not have.")]
    public void Each_violation_is_told(int first, int second, int firstMode, int secondMode, int makespan, string sentence) =>
        Assert.Equal([sentence], MakespanChecker.Check(Problem, new MakespanSchedule([first, second], [firstMode, secondMode], makespan)));

    private static MakespanActivity Activity(int duration) =>
        new([new MakespanMode(duration, [2], [2]), new MakespanMode(duration - 2, [2], [3])]);
}
