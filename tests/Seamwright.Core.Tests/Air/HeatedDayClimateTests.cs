using NodaTime;
using Seamwright.Air;
using Seamwright.Units;
using Xunit;

namespace Seamwright.AirTests;

public class HeatedDayClimateTests
{
    private static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    [Fact]   // scenario 2: heating off 18:00, falls towards 10 °C with 6 h: 10.8 °C at 07:00
    public void Night_air_falls_towards_its_floor()
    {
        var shop = Shop(17, 10, Local(2026, 11, 6, 16, 45), AirOf(17, 42));

        Assert.Equal(17, Celsius(shop, Local(2026, 11, 6, 18, 0)), 1e-9);
        Assert.Equal(10 + 7 * Math.Exp(-1), Celsius(shop, Local(2026, 11, 7, 0, 0)), 1e-9);
        Assert.Equal(10.80, Celsius(shop, Local(2026, 11, 7, 7, 0)), 0.005);
    }

    [Fact]
    public void Vapour_pressure_stays_and_humidity_rises_at_night()
    {
        var shop = Shop(17, 10, Local(2026, 11, 6, 16, 45), AirOf(17, 42));
        var night = shop.At(Local(2026, 11, 7, 5, 0));

        Assert.Equal(MoistAir.VapourPressure(AirOf(17, 42)).Pascals, MoistAir.VapourPressure(night).Pascals, 1e-6);
        Assert.InRange(night.Humidity.Percent, 60, 65);
        Assert.Empty(shop.NoticesWithin(Local(2026, 11, 6, 18, 0), Local(2026, 11, 7, 7, 0)));
    }

    [Fact]
    public void Air_too_damp_for_a_cold_night_is_held_at_saturation_with_a_notice()
    {
        var shop = Shop(20, 5, Local(2026, 11, 6, 16, 45), AirOf(20, 70));

        Assert.Equal(100, shop.At(Local(2026, 11, 7, 6, 0)).Humidity.Percent, 1e-9);
        var notice = Assert.Single(shop.NoticesWithin(Local(2026, 11, 6, 18, 0), Local(2026, 11, 7, 7, 0)));
        Assert.Equal(ClimateNoticeKind.HumidityCapped, notice.Kind);
        Assert.InRange(notice.From, Local(2026, 11, 6, 19, 0), Local(2026, 11, 6, 23, 0));
    }

    [Fact]
    public void Heating_comes_back_at_once_without_a_time_constant_of_warming()
    {
        var shop = Shop(17, 10, Local(2026, 11, 9, 12, 0), AirOf(17, 42));

        Assert.True(Celsius(shop, Local(2026, 11, 10, 5, 59)) < 12);
        Assert.Equal(17, Celsius(shop, Local(2026, 11, 10, 6, 0)), 1e-9);
    }

    [Fact]
    public void Heating_comes_back_gradually_with_one()
    {
        var shop = Shop(17, 10, Local(2026, 11, 9, 12, 0), AirOf(17, 42), rise: Duration.FromHours(1));
        double atSix = Celsius(shop, Local(2026, 11, 10, 6, 0));

        Assert.Equal(17 - (17 - atSix) * Math.Exp(-1), Celsius(shop, Local(2026, 11, 10, 7, 0)), 1e-9);
    }

    [Fact]
    public void The_weekend_is_not_heated()
    {
        var shop = Shop(20, 8, Local(2026, 11, 6, 12, 0), AirOf(20, 35));

        Assert.Equal(8, Celsius(shop, Local(2026, 11, 8, 23, 0)), 0.01);
        Assert.Equal(20, Celsius(shop, Local(2026, 11, 9, 6, 0)), 1e-9);
    }

    [Fact]
    public void Before_the_reading_the_pattern_alone_is_taken()
    {
        var shop = Shop(20, 8, Local(2026, 11, 6, 12, 0), AirOf(18, 35), rise: Duration.FromHours(1));

        Assert.Equal(18, Celsius(shop, Local(2026, 11, 6, 12, 0)), 1e-9);
        Assert.Equal(20, Celsius(shop, Local(2026, 11, 6, 12, 0) - Duration.FromSeconds(1)), 0.2);
        Assert.Equal(20 - 2 * Math.Exp(-2), Celsius(shop, Local(2026, 11, 6, 14, 0)), 1e-9);
    }

    [Fact]
    public void Long_after_the_reading_every_week_is_the_same()
    {
        var shop = Shop(20, 8, Local(2026, 11, 6, 12, 0), AirOf(18, 35), rise: Duration.FromHours(1));
        var time = Local(2027, 1, 19, 3, 17);

        Assert.Equal(Celsius(shop, time), Celsius(shop, time + Duration.FromDays(7)), 1e-9);
        Assert.Equal(Celsius(shop, time), Celsius(Shop(20, 8, time - Duration.FromDays(30), AirOf(15, 35), Duration.FromHours(1)), time), 1e-9);
    }

    [Theory]   // the clock jumps from 2 to 3 on the short night and from 3 back to 2 on the long one
    [InlineData(2027, 3, 27, 11)]
    [InlineData(2027, 10, 30, 13)]
    public void On_a_night_with_a_clock_change_the_fall_lasts_the_true_hours(int year, int month, int day, int hours)
    {
        var evening = Local(year, month, day, 18, 0);
        var everyDay = Enumerable.Range(1, 7).Select(d => new HeatingHours((IsoDayOfWeek)d, new LocalTime(6, 0), new LocalTime(18, 0)));
        var pattern = new HeatingPattern(
            Berlin, everyDay, Temperature.FromCelsius(20), Temperature.FromCelsius(10), Duration.FromHours(6), Duration.Zero);
        var shop = new HeatedDayClimate(pattern, evening - Duration.FromHours(1), AirOf(20, 35));

        var morning = Local(year, month, day + 1, 6, 0);

        Assert.Equal(Duration.FromHours(hours), morning - evening);
        Assert.Equal([evening, morning], shop.Breakpoints(evening - Duration.FromMinutes(1), morning + Duration.FromMinutes(1)));
        Assert.Equal(10 + 10 * Math.Exp(-hours / 6.0), Celsius(shop, morning - Duration.FromNanoseconds(100)), 1e-6);
        Assert.Equal(20, Celsius(shop, morning), 1e-9);
    }

    [Theory]
    [InlineData(2027, 3, 28, 1, 0)]     // 02:30 is skipped: the thermostat switches when the clock has moved on, 03:30 local = 01:30 UTC
    [InlineData(2027, 10, 31, 0, 30)]   // 02:30 comes twice: it switches at the first
    public void A_switching_time_that_is_skipped_or_doubled_is_taken_as_a_thermostat_does(int year, int month, int day, int utcHour, int utcMinute)
    {
        var pattern = new HeatingPattern(
            Berlin, [new(IsoDayOfWeek.Sunday, new LocalTime(2, 30), new LocalTime(12, 0))],
            Temperature.FromCelsius(20), Temperature.FromCelsius(10), Duration.FromHours(6), Duration.Zero);

        var span = Assert.Single(pattern.Heated(Local(year, month, day, 0, 0), Local(year, month, day, 23, 0)));

        var expected = Instant.FromUtc(year, month, day, utcHour, utcMinute);
        Assert.InRange(span.On, expected, expected + Duration.FromMinutes(30));
    }

    [Fact]
    public void Hours_over_midnight_end_the_next_day_and_touching_hours_are_one()
    {
        var pattern = new HeatingPattern(
            Berlin,
            [new(IsoDayOfWeek.Monday, new LocalTime(20, 0), LocalTime.Midnight), new(IsoDayOfWeek.Tuesday, LocalTime.Midnight, new LocalTime(4, 0))],
            Temperature.FromCelsius(20), Temperature.FromCelsius(10), Duration.FromHours(6), Duration.Zero);

        var span = Assert.Single(pattern.Heated(Local(2026, 11, 9, 0, 0), Local(2026, 11, 11, 0, 0)));

        Assert.Equal((Local(2026, 11, 9, 20, 0), Local(2026, 11, 10, 4, 0)), span);
    }

    [Fact]
    public void A_pattern_without_floor_needs_outdoor_air() =>
        Assert.Throws<ArgumentException>(() => new HeatedDayClimate(
            new HeatingPattern(Berlin, [], Temperature.FromCelsius(20), null, Duration.FromHours(6), Duration.Zero),
            Local(2026, 11, 6, 12, 0), AirOf(18, 35)));

    [Fact]
    public void A_building_without_time_constant_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new HeatingPattern(
            Berlin, [], Temperature.FromCelsius(20), Temperature.FromCelsius(10), Duration.Zero, Duration.Zero));

    internal static HeatedDayClimate Shop(double setPoint, double floor, Instant at, AirState reading, Duration? rise = null) => new(
        new HeatingPattern(
            Berlin, HeatingPattern.Weekdays(new LocalTime(6, 0), new LocalTime(18, 0)), Temperature.FromCelsius(setPoint),
            Temperature.FromCelsius(floor), Duration.FromHours(6), rise ?? Duration.Zero),
        at, reading);

    internal static Instant Local(int year, int month, int day, int hour, int minute) =>
        Berlin.AtStrictly(new LocalDateTime(year, month, day, hour, minute)).ToInstant();

    internal static AirState AirOf(double celsius, double percent) =>
        new(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(percent));

    private static double Celsius(Climate climate, Instant time) => climate.At(time).Temperature.Celsius;
}
