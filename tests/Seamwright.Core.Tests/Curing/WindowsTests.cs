using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class WindowsTests
{
    private static readonly Instant Start = Local(2026, 11, 5, 16, 0);
    private static readonly MaximumWindow ThreeDays = new(Duration.FromHours(72), Film());

    [Fact]   // epoxy primer of Thursday 16:00: the window ends on Sunday 16:00 in a cold shop, not later
    public void In_the_cold_a_window_ends_by_the_clock()
    {
        Assert.Equal(Start + Duration.FromHours(72), Windows.MaximumWindowEnd(ThreeDays, Start, Constant(10, 50)));
        Assert.Equal(Start + Duration.FromHours(72), Windows.MaximumWindowEnd(ThreeDays, Start, Clock(ThreeDays.Law!, 10)));
    }

    [Fact]
    public void In_the_heat_a_window_ends_sooner()
    {
        var end = Windows.MaximumWindowEnd(ThreeDays, Start, Constant(33, 50));

        Assert.Equal(72 / CureRate.Rate(Film(), AirOf(33, 50)), (end - Start).TotalHours, 1e-6);
        Assert.Equal(end, Windows.MaximumWindowEnd(ThreeDays, Start, Clock(ThreeDays.Law!, 33)));
    }

    [Fact]
    public void A_window_without_a_law_runs_by_the_clock()
    {
        var window = new MaximumWindow(Duration.FromHours(24), null);

        Assert.Equal(Start + Duration.FromHours(24), Windows.MaximumWindowEnd(window, Start, Constant(40, 50)));
        Assert.Equal(Start + Duration.FromHours(24), Windows.MaximumWindowEnd(window, Start, clock: null));
    }

    [Fact]
    public void The_clock_of_another_law_is_refused() =>
        Assert.Throws<ArgumentException>(() => Windows.MaximumWindowEnd(ThreeDays, Start, Clock(TwoPart(50), 20)));

    private static CureClock Clock(CureLaw law, double celsius) =>
        CureClock.For(law, Constant(celsius, 50), Start, Start + Duration.FromDays(7));
}
