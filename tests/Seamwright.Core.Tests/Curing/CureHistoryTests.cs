using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

/// <summary>Work along temperature histories, computed apart from this code (reference values H4 to H7).</summary>
public class CureHistoryTests
{
    private static readonly Instant Start = Instant.FromUtc(2027, 1, 4, 0, 0);

    [Fact]   // 6 h at 10 °C, 6 h at 20 °C, 12 h at 30 °C; Q = 5000 K is 41.57 kJ/mol
    public void Equivalent_age_of_three_levels_is_that_of_H4() =>
        Assert.Equal(30.348, Levels(TwoPart(5000 * CureRate.GasConstant / 1000, 20), (6, 10), (6, 20), (12, 30)), 0.005);

    [Fact]
    public void Equivalent_age_with_half_an_hour_of_heat_is_that_of_H5() =>
        Assert.Equal(17.825, Levels(TwoPart(50), (8, 15), (4, 20), (0.5, 60), (11.5, 12)), 0.005);

    [Fact]
    public void Equivalent_age_of_a_ramp_is_that_of_H6()
    {
        var end = Start + Duration.FromHours(10);
        var log = new LoggedClimate([new(Start, AirOf(10, 50)), new(end, AirOf(30, 50))]);

        var clock = CureClock.For(TwoPart(50), PanelClimate.FollowingAir(log), Start, end);

        Assert.Equal(8.7301, clock.Total.Hours, 0.0005);
    }

    [Fact]
    public void Equivalent_age_of_a_day_that_swings_is_that_of_H7()
    {
        var clock = CureClock.For(TwoPart(50), PanelClimate.FollowingAir(new Swing()), Start, Start + Duration.FromHours(24));

        Assert.Equal(24.638, clock.Total.Hours, 0.002);
    }

    private static double Levels(CureLaw law, params (double Hours, double Celsius)[] levels)
    {
        // One climate with jumps: two readings a microsecond apart at each change of level.
        var readings = new List<ClimateReading>();
        var time = Start;
        foreach (var (hours, celsius) in levels)
        {
            readings.Add(new(time, AirOf(celsius, 50)));
            time += Duration.FromHours(hours);
            readings.Add(new(time - Duration.FromMilliseconds(1), AirOf(celsius, 50)));
        }

        return CureClock.For(law, PanelClimate.FollowingAir(new LoggedClimate(readings)), Start, time).Total.Hours;
    }

    private sealed class Swing : Climate
    {
        public override AirState At(Instant time) => AirOf(23 + 5 * Math.Sin(2 * Math.PI * (time - Start).TotalHours / 24), 50);
    }
}
