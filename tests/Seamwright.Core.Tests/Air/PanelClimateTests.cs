using NodaTime;
using Seamwright.Air;
using Seamwright.Units;
using Xunit;
using static Seamwright.AirTests.HeatedDayClimateTests;

namespace Seamwright.AirTests;

public class PanelClimateTests
{
    private static readonly Instant Friday = Local(2026, 11, 6, 16, 45);

    [Fact]   // scenario 2: rear floor 11 °C in air of 17 °C, time constant 3 h
    public void A_cold_panel_follows_the_air_with_three_hours()
    {
        var panel = PanelClimate.FromReading(new ConstantClimate(AirOf(17, 42)), Friday, Temperature.FromCelsius(11));

        Assert.Equal(11, Celsius(panel, 0), 1e-9);
        Assert.Equal(17 - 6 * Math.Exp(-1), Celsius(panel, 180), 1e-9);
        Assert.Equal(17, Celsius(panel, 60 * 24 * 30), 1e-9);
        Assert.Equal(11, Celsius(panel, -600), 1e-9);
    }

    [Fact]   // dew point 4.0 °C, margin 7.0 K
    public void Dew_margin_goes_by_the_panel_not_by_the_air()
    {
        var panel = PanelClimate.FromReading(new ConstantClimate(AirOf(17, 42)), Friday, Temperature.FromCelsius(11));

        Assert.Equal(7.0, panel.DewPointMargin(Friday).Kelvins, 0.05);
        Assert.Equal(7.0, panel.LeastDewPointMargin(Friday, Friday + Duration.FromHours(5)).Kelvins, 0.05);
    }

    [Theory]   // equal time constants are the resonance of the equation
    [InlineData(3)]
    [InlineData(6)]
    [InlineData(6.0000001)]
    [InlineData(6.001)]
    public void A_panel_behind_falling_air_agrees_with_a_second_by_second_model(double panelHours)
    {
        var shop = Shop(17, 10, Friday, AirOf(17, 42));
        var panel = PanelClimate.FromReading(shop, Friday, Temperature.FromCelsius(11), Duration.FromHours(panelHours));

        double slow = ForecastClimateTests.Stepped(
            11, panelHours * 3600, 14 * 3600, s => s < 75 * 60 ? 17 : 10 + 7 * Math.Exp(-(s - 75 * 60) / (6 * 3600)));

        Assert.Equal(slow, Celsius(panel, 14 * 60), 1e-3);
    }

    [Fact]
    public void Far_from_the_reading_the_panel_is_the_same_from_near_or_far()
    {
        var shop = Shop(17, 10, Friday, AirOf(17, 42), Duration.FromHours(1));
        var panel = PanelClimate.FromReading(shop, Friday, Temperature.FromCelsius(11));
        var again = PanelClimate.FromReading(shop, Friday, Temperature.FromCelsius(11));
        var late = Friday + Duration.FromDays(20);

        for (int hour = 0; hour < 24 * 20; hour++)
            _ = panel.TemperatureAt(Friday + Duration.FromHours(hour));

        Assert.Equal(again.TemperatureAt(late).Kelvin, panel.TemperatureAt(late).Kelvin, 1e-9);
    }

    [Fact]
    public void A_lamp_ramps_holds_and_returns_to_the_panel()
    {
        var bare = PanelClimate.FromReading(new ConstantClimate(AirOf(17, 42)), Friday, Temperature.FromCelsius(11));
        var lamp = Lamp(30, 60, 10, 30, 20);
        var panel = PanelClimate.Heated(bare, lamp);
        double before = Celsius(bare, 30);

        Assert.Equal(before, Celsius(panel, 30), 1e-9);
        Assert.Equal((before + 60) / 2, Celsius(panel, 35), 1e-9);
        Assert.Equal(60, Celsius(panel, 40), 1e-9);
        Assert.Equal(60, Celsius(panel, 69.9), 1e-9);
        Assert.Equal((60 + Celsius(bare, 90)) / 2, Celsius(panel, 80), 1e-9);
        Assert.Equal(Celsius(bare, 90), Celsius(panel, 90), 1e-9);
        Assert.Equal(Celsius(bare, 500), Celsius(panel, 500), 1e-9);
        Assert.Equal(bare.VapourPressureAt(lamp.HoldStart).Pascals, panel.VapourPressureAt(lamp.HoldStart).Pascals, 1e-9);
        Assert.Equal([30.0, 40, 70, 90], panel.Breakpoints(Friday, Friday + Duration.FromHours(3)).Select(t => Math.Round((t - Friday).TotalMinutes, 6)));
    }

    [Fact]
    public void Heat_below_the_panels_own_temperature_changes_nothing()
    {
        var bare = PanelClimate.FollowingAir(new ConstantClimate(AirOf(30, 42)));

        Assert.Equal(30, Celsius(PanelClimate.Heated(bare, Lamp(0, 28, 10, 30, 20)), 20), 1e-9);
    }

    [Fact]
    public void A_ramp_of_no_length_is_at_the_target_at_once()
    {
        var panel = PanelClimate.Heated(PanelClimate.FollowingAir(new ConstantClimate(AirOf(20, 42))), Lamp(10, 60, 0, 30, 0));

        Assert.Equal(20, Celsius(panel, 9.99), 1e-9);
        Assert.Equal(60, Celsius(panel, 10), 1e-9);
        Assert.Equal(60, Celsius(panel, 39.99), 1e-9);
        Assert.Equal(20, Celsius(panel, 40), 1e-9);
    }

    [Fact]
    public void Two_heats_one_after_the_other_both_count()
    {
        var panel = PanelClimate.Heated(
            PanelClimate.Heated(PanelClimate.FollowingAir(new ConstantClimate(AirOf(20, 42))), Lamp(10, 60, 10, 30, 20)), Lamp(100, 45, 7, 30, 20));

        Assert.Equal(60, Celsius(panel, 30), 1e-9);
        Assert.Equal(45, Celsius(panel, 120), 1e-9);
        Assert.Equal((20.0, 60.0), Rounded(panel.Extremes(Friday, Friday + Duration.FromHours(4))));
    }

    [Fact]
    public void Any_other_climate_is_taken_on_the_grid()
    {
        var panel = PanelClimate.FollowingAir(new Sine());

        for (int minute = 0; minute < 1440; minute += 5)
            Assert.Equal(new Sine().At(Friday + Duration.FromMinutes(minute)).Temperature.Kelvin, panel.TemperatureAt(Friday + Duration.FromMinutes(minute)).Kelvin, 1e-3);
    }

    private sealed class Sine : Climate
    {
        public override AirState At(Instant time) => AirOf(23 + 5 * Math.Sin(2 * Math.PI * (time - Friday).TotalHours / 24), 50);
    }

    private static HeatProfile Lamp(double start, double target, double ramp, double hold, double cooling) => new(
        Friday + Duration.FromMinutes(start), Temperature.FromCelsius(target), Duration.FromMinutes(ramp), Duration.FromMinutes(hold),
        Duration.FromMinutes(cooling));

    private static double Celsius(PanelClimate panel, double minute) => panel.TemperatureAt(Friday + Duration.FromMinutes(minute)).Celsius;

    private static (double, double) Rounded((Temperature Coldest, Temperature Warmest) span) =>
        (Math.Round(span.Coldest.Celsius, 9), Math.Round(span.Warmest.Celsius, 9));
}
