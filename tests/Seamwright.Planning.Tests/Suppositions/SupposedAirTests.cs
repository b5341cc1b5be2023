using NodaTime;
using Seamwright.Air;
using Seamwright.Planning.Suppositions;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Suppositions;

/// <summary>The air as supposed: what was stays, water is kept by the heating and added by the humidifier.</summary>
public sealed class SupposedAirTests
{
    private static readonly RepairInput Heated = Examples.Read("evening-slot");

    private static readonly Instant Now = Heated.Repair.Now;

    [Fact]
    public void What_was_measured_stays_as_it_was()
    {
        var supposed = Air(new HeatingSetTo(Temperature.FromCelsius(26)), new HumidityHeld(RelativeHumidity.FromPercent(60)));

        for (var time = Now - Duration.FromHours(20); time < Now; time += Duration.FromMinutes(35))
            Assert.Equal(Heated.Climate.At(time), supposed.At(time));
    }

    [Fact]
    public void A_new_set_point_is_reached_as_steel_reaches_it()
    {
        var supposed = Air(new HeatingSetTo(Temperature.FromCelsius(26)));

        // First order from 20 to 26 °C with the shop's 3 h, before the heating goes off at 17:30: 26 − 6·exp(−t/3 h).
        foreach (double hours in (double[])[0, 0.5, 1, 2])
            Assert.Equal(26 - (6 * Math.Exp(-hours / 3)), supposed.At(Now + Duration.FromHours(hours)).Temperature.Celsius, 6);
    }

    [Fact]
    public void Heating_adds_no_water()
    {
        var supposed = Air(new HeatingSetTo(Temperature.FromCelsius(26)));

        for (var time = Now; time < Now + Duration.FromHours(30); time += Duration.FromMinutes(55))
            Assert.Equal(Heated.Climate.VapourPressureAt(Now).Pascals, supposed.VapourPressureAt(time).Pascals, 1e-6);
    }

    [Fact]
    public void Heating_left_on_holds_the_set_point_all_night()
    {
        var supposed = Air(new HeatingLeftOn());

        for (var time = Now; time < Now + Duration.FromDays(4); time += Duration.FromMinutes(50))
            Assert.Equal(20, supposed.At(time).Temperature.Celsius, 6);
        Assert.True(Heated.Climate.At(Now + Duration.FromHours(12)).Temperature.Celsius < 15);
    }

    [Fact]
    public void A_humidifier_holds_its_humidity_and_leaves_damper_air_alone()
    {
        var supposed = Air(new HumidityHeld(RelativeHumidity.FromPercent(40)));

        for (var time = Now; time < Now + Duration.FromDays(2); time += Duration.FromMinutes(50))
        {
            var without = Heated.Climate.At(time);
            Assert.Equal(Math.Max(0.40, without.Humidity.Fraction), supposed.At(time).Humidity.Fraction, 9);
            Assert.Equal(without.Temperature, supposed.At(time).Temperature);
        }
    }

    [Fact]
    public void The_order_in_which_air_is_supposed_does_not_matter()
    {
        Supposition[] all = [new HeatingLeftOn(), new HeatingSetTo(Temperature.FromCelsius(24)), new HumidityHeld(RelativeHumidity.FromPercent(45))];
        var (one, other) = (Air(all), Air([all[2], all[1], all[0]]));

        for (var time = Now; time < Now + Duration.FromDays(2); time += Duration.FromMinutes(50))
        {
            Assert.Equal(one.At(time).Temperature.Kelvin, other.At(time).Temperature.Kelvin, 1e-9);
            Assert.Equal(one.At(time).Humidity.Fraction, other.At(time).Humidity.Fraction, 1e-9);
        }
    }

    [Fact]
    public void The_panel_feels_what_the_air_says_on_both_sides_of_now()
    {
        var supposed = Air(new HeatingSetTo(Temperature.FromCelsius(26)), new HumidityHeld(RelativeHumidity.FromPercent(50)));
        var panel = PanelClimate.FollowingAir(supposed);

        // Air between two of the five-minute marks is a straight line: 26 − 6·exp(−t/3 h) bends by less than 0.001 K there.
        for (var time = Now - Duration.FromHours(3); time < Now + Duration.FromHours(30); time += Duration.FromMinutes(7))
            Assert.Equal(supposed.At(time).Temperature.Kelvin, panel.TemperatureAt(time).Kelvin, 2e-3);
    }

    [Fact]
    public void A_log_and_steady_air_tell_why_their_heating_cannot_be_changed()
    {
        var log = Heated with { Climate = new LoggedClimate([new ClimateReading(Now, AirState.Standard)]) };
        var steady = Heated with { Climate = new ConstantClimate(AirState.Standard) };

        Assert.Equal("suppose-air-is-log", Assert.Single(new HeatingLeftOn().Apply(log).Problems).Key);
        Assert.Equal("suppose-air-not-heated", Assert.Single(new HeatingLeftOn().Apply(steady).Problems).Key);
        Assert.Empty(new HeatingSetTo(Temperature.FromCelsius(18)).Apply(steady).Problems);
    }

    private static Climate Air(params Supposition[] suppositions) => Supposition.ApplyAll(Heated, suppositions).Input!.Climate;
}
