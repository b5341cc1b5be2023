using Seamwright.Air;
using Seamwright.Published;
using Seamwright.Units;
using Xunit;

namespace Seamwright.AirTests;

public class MoistAirTests
{
    public static IEnumerable<TheoryDataRow<PublishedRow>> SaturationPressures => PublishedTable.Cases("saturation-pressure.csv");

    public static IEnumerable<TheoryDataRow<PublishedRow>> DewPoints => PublishedTable.Cases("dew-point.csv");

    public static IEnumerable<TheoryDataRow<PublishedRow>> WaterInAir => PublishedTable.Cases("water-in-air.csv");

    [Theory, MemberData(nameof(SaturationPressures), DisableDiscoveryEnumeration = true)]
    public void Saturation_pressure_agrees_with_P1_to_P10(PublishedRow row)
    {
        var t = Temperature.FromCelsius(row.Number("temperature_celsius"));

        var pressure = row["phase"] == "ice" ? MoistAir.SaturationPressureOverIce(t) : MoistAir.SaturationPressure(t);

        double expected = row.Number("expected_pascals");
        Assert.Equal(expected, pressure.Pascals, expected * row.Number("relative_tolerance"));
    }

    [Theory, MemberData(nameof(DewPoints), DisableDiscoveryEnumeration = true)]
    public void Dew_point_agrees_with_D1_to_D10(PublishedRow row)
    {
        var air = Air(row.Number("temperature_celsius"), row.Number("humidity_percent"));

        var dew = row["form"] == "F4" ? MoistAir.MagnusDewPoint(air) : MoistAir.DewPoint(air);

        Assert.Equal(row.Number("expected_celsius"), dew.Celsius, row.Number("tolerance_kelvins"));
    }

    [Theory, MemberData(nameof(WaterInAir), DisableDiscoveryEnumeration = true)]
    public void Water_in_air_agrees_with_A1_to_A9(PublishedRow row)
    {
        var air = Air(row.Number("temperature_celsius"), row.Number("humidity_percent"));

        double value = row["quantity"] == "g/m3"
            ? MoistAir.AbsoluteHumidity(air).GramsPerCubicMetre
            : MoistAir.HumidityRatio(air).KilogramsPerKilogram;

        Assert.Equal(row.Number("expected"), value, row.Number("tolerance"));
    }

    [Fact]   // psychrolib's tests
    public void Humidity_ratio_agrees_with_A10() =>
        Assert.Equal(
            0.02136040, MoistAir.HumidityRatio(Pressure.FromPascals(3169.7), Pressure.FromPascals(95_461)).KilogramsPerKilogram, 0.0213604 * 1e-6);

    [Theory]   // F7, computed apart from this code; the rate is that of a moisture cure with Ep 0
    [InlineData("W1", 0, 80, 20, 20.9, 0.348)]
    [InlineData("W2", 5, 85, 20, 31.7, 0.528)]
    [InlineData("W3", 10, 70, 23, 30.6, 0.612)]
    public void Winter_air_brought_indoors_is_dry_as_W1_to_W3_say(
        string row, double outdoors, double outdoorPercent, double indoors, double indoorPercent, double rate)
    {
        var inside = MoistAir.CarriedIndoors(Air(outdoors, outdoorPercent), Temperature.FromCelsius(indoors));

        Assert.Equal(indoorPercent, inside.Humidity.Percent, 0.1);
        double ratio = MoistAir.VapourPressure(inside) / MoistAir.VapourPressure(AirState.Standard);
        Assert.True(Math.Abs(ratio - rate) <= 0.001, row);
    }

    [Fact]
    public void Air_brought_into_a_cold_room_is_held_at_saturation() =>
        Assert.Equal(100, MoistAir.CarriedIndoors(Air(30, 80), Temperature.FromCelsius(15)).Humidity.Percent, 1e-12);

    [Fact]   // reference air of moisture-cure sheets: 1405.2 Pa (reference-values, section 2)
    public void Standard_air_holds_1405_Pa_of_vapour() =>
        Assert.Equal(1405.2, MoistAir.VapourPressure(AirState.Standard).Pascals, 0.1);

    [Fact]   // stated accuracies of F3 and F4 against F1, scanned apart from this code
    public void Magnus_stays_within_its_stated_distance_of_the_formula_used()
    {
        for (double t = 0; t <= 50; t += 0.1)
        {
            var temperature = Temperature.FromCelsius(t);
            double ratio = MoistAir.MagnusSaturationPressure(temperature) / MoistAir.SaturationPressure(temperature);
            Assert.InRange(ratio, 1 - 0.00293, 1.0);
            for (double percent = 10; percent <= 100; percent += 10)
            {
                var air = Air(t, percent);
                var dew = MoistAir.DewPoint(air);
                if (dew.Celsius > 0)
                    Assert.Equal(dew.Celsius, MoistAir.MagnusDewPoint(air).Celsius, 0.0445);
            }
        }
    }

    [Fact]   // the continuation below zero has no published range: it is held against the WMO form down to that form's end
    public void The_formula_carried_below_zero_stays_near_the_WMO_form()
    {
        double worst = 0;
        for (double t = -45; t <= 0; t += 0.1)
        {
            var temperature = Temperature.FromCelsius(t);
            worst = Math.Max(worst, Math.Abs(MoistAir.MagnusSaturationPressure(temperature) / MoistAir.SaturationPressure(temperature) - 1));
        }

        Assert.InRange(worst, 0, 0.0051);
    }

    [Fact]
    public void Saturation_is_lower_over_ice_than_over_water_below_zero()
    {
        for (double t = -40; t < 0; t += 1)
            Assert.True(MoistAir.SaturationPressureOverIce(Temperature.FromCelsius(t)) < MoistAir.SaturationPressure(Temperature.FromCelsius(t)));
    }

    [Fact]
    public void Dew_point_is_the_inverse_of_saturation_over_the_whole_range()
    {
        for (double t = -80; t <= 200; t += 0.25)
            Assert.Equal(t, MoistAir.DewPoint(MoistAir.SaturationPressure(Temperature.FromCelsius(t))).Celsius, 1e-8);
    }

    [Fact]   // painting guide: 16 °C, 71 %, steel 13 °C: margin about 2 K, do not paint
    public void Worked_decision_with_steel_at_13_degrees_is_not_to_paint()
    {
        var margin = Temperature.FromCelsius(13) - MoistAir.DewPoint(Air(16, 71));

        Assert.Equal(2.25, margin.Kelvins, 0.01);
        Assert.True(margin < TemperatureDifference.FromKelvins(3));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-80.1)]
    [InlineData(200.1)]
    public void A_temperature_outside_the_range_is_refused(double celsius) =>
        Assert.Throws<OutsideValidityException>(() => MoistAir.SaturationPressure(Temperature.FromCelsius(celsius)));

    [Fact]
    public void A_forgotten_air_state_is_refused() => Assert.Throws<OutsideValidityException>(() => MoistAir.VapourPressure(default));

    [Theory]
    [InlineData(-1)]
    [InlineData(101)]
    [InlineData(double.NaN)]
    public void A_humidity_outside_0_to_100_percent_is_refused(double percent) =>
        Assert.Throws<OutsideValidityException>(() => MoistAir.VapourPressure(Air(20, percent)));

    [Fact]
    public void Air_without_water_has_no_dew_point() => Assert.Throws<OutsideValidityException>(() => MoistAir.DewPoint(Air(20, 0)));

    [Fact]
    public void A_refusal_says_what_was_asked_and_what_holds()
    {
        var refusal = Assert.Throws<OutsideValidityException>(() => MoistAir.MagnusSaturationPressure(Temperature.FromCelsius(70)));

        Assert.Equal("70 °C", refusal.Value);
        Assert.Equal("−45…60 °C", refusal.Range);
    }

    private static AirState Air(double celsius, double percent) =>
        new(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(percent));
}
