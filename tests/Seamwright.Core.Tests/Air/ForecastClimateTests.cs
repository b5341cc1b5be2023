using NodaTime;
using Seamwright.Air;
using Seamwright.Units;
using Xunit;
using static Seamwright.AirTests.HeatedDayClimateTests;

namespace Seamwright.AirTests;

public class ForecastClimateTests
{
    private static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
    private static readonly Instant Monday = Local(2027, 1, 11, 0, 0);

    [Fact]   // W2: outdoor air at 5 °C and 85 % is 31.7 % at 20 °C
    public void Heated_winter_air_is_as_dry_as_W2_says()
    {
        var shop = new ForecastClimate(new ConstantClimate(AirOf(5, 85)), Pattern(20, 12));

        Assert.Equal(31.7, shop.At(Monday + Duration.FromHours(10)).Humidity.Percent, 0.1);
        Assert.Empty(shop.NoticesWithin(Monday, Monday + Duration.FromDays(1)));
    }

    [Fact]
    public void Without_a_floor_the_shop_cools_towards_outdoors()
    {
        var shop = new ForecastClimate(new ConstantClimate(AirOf(-4, 85)), Pattern(20, null));

        double afterSixHours = shop.At(Local(2027, 1, 12, 0, 0)).Temperature.Celsius;

        Assert.Equal(-4 + 24 * Math.Exp(-1), afterSixHours, 1e-9);
    }

    [Fact]   // the exact solution of a first-order lag behind a straight line
    public void A_falling_outdoor_temperature_is_followed_exactly()
    {
        var evening = Local(2027, 1, 11, 18, 0);
        var outdoors = new LoggedClimate(
            [new(evening, AirOf(6, 80)), new(evening + Duration.FromHours(12), AirOf(-6, 80))]);
        var shop = new ForecastClimate(outdoors, Pattern(20, null));

        double seconds = Stepped(20, 6 * 3600, 12 * 3600 - 1, s => 6 - 12.0 * s / (12 * 3600));

        Assert.Equal(seconds, shop.At(evening + Duration.FromSeconds(12 * 3600 - 1)).Temperature.Celsius, 1e-3);
    }

    [Fact]
    public void Heating_never_cools_a_warm_shop()
    {
        var shop = new ForecastClimate(
            new LoggedClimate([new(Local(2027, 7, 12, 6, 0), AirOf(12, 80)), new(Local(2027, 7, 12, 14, 0), AirOf(32, 30))]), Pattern(20, 15));

        Assert.Equal(20, shop.At(Local(2027, 7, 12, 8, 0)).Temperature.Celsius, 1e-9);
        Assert.Equal(32, shop.At(Local(2027, 7, 12, 14, 0)).Temperature.Celsius, 1e-9);
        Assert.Contains(Local(2027, 7, 12, 9, 12), shop.Breakpoints(Local(2027, 7, 12, 8, 0), Local(2027, 7, 12, 12, 0)));
    }

    [Fact]
    public void Indoor_air_below_the_outdoor_dew_point_is_held_at_saturation_with_a_notice()
    {
        var shop = new ForecastClimate(
            new LoggedClimate([new(Monday, AirOf(2, 90)), new(Monday + Duration.FromHours(12), AirOf(18, 95))]),
            new HeatingPattern(Berlin, [], Temperature.FromCelsius(20), null, Duration.FromHours(20), Duration.Zero), Monday, Temperature.FromCelsius(2));
        var noon = Monday + Duration.FromHours(12);

        Assert.Equal(100, shop.At(noon).Humidity.Percent, 1e-9);
        Assert.Equal(MoistAir.SaturationPressure(shop.At(noon).Temperature).Pascals, PanelClimate.FollowingAir(shop).VapourPressureAt(noon).Pascals, 1e-6);
        Assert.Contains(shop.NoticesWithin(Monday, noon), notice => notice.Kind == ClimateNoticeKind.HumidityCapped);
    }

    [Fact]
    public void A_forecast_that_ends_too_early_is_held_and_says_so()
    {
        var shop = new ForecastClimate(new LoggedClimate([new(Monday, AirOf(2, 90)), new(Monday + Duration.FromHours(1), AirOf(2, 90))]), Pattern(20, 12));

        Assert.Contains(
            shop.NoticesWithin(Monday, Monday + Duration.FromHours(10)), notice => notice.Kind == ClimateNoticeKind.HeldAfterEnd);
    }

    private static HeatingPattern Pattern(double setPoint, double? floor) => new(
        Berlin, HeatingPattern.Weekdays(new LocalTime(6, 0), new LocalTime(18, 0)), Temperature.FromCelsius(setPoint),
        floor is { } f ? Temperature.FromCelsius(f) : null, Duration.FromHours(6), Duration.Zero);

    /// <summary>The slow way: second by second.</summary>
    internal static double Stepped(double start, double tauSeconds, int seconds, Func<double, double> target)
    {
        double value = start;
        for (int s = 0; s < seconds; s++)
            value += (target(s + 0.5) - value) * (1 - Math.Exp(-1 / tauSeconds));
        return value;
    }
}
