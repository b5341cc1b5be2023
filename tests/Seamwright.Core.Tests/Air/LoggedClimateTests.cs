using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Seamwright.Air;
using Seamwright.Published;
using Seamwright.Units;
using Xunit;

namespace Seamwright.AirTests;

public class LoggedClimateTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 11, 6, 12, 0);

    [Fact]
    public void Between_readings_temperature_and_vapour_pressure_run_straight()
    {
        var log = new LoggedClimate([Row(0, 10, 80), Row(60, 20, 50)]);
        var middle = log.At(At(15));

        Assert.Equal(12.5, middle.Temperature.Celsius, 1e-9);
        double first = MoistAir.VapourPressure(Row(0, 10, 80).Air).Pascals;
        double second = MoistAir.VapourPressure(Row(0, 20, 50).Air).Pascals;
        Assert.Equal(first + (second - first) / 4, MoistAir.VapourPressure(middle).Pascals, 1e-6);
        Assert.Empty(log.Notices);
    }

    [Fact]
    public void Beyond_its_ends_the_log_is_held_and_says_so()
    {
        var log = new LoggedClimate([Row(0, 10, 80), Row(60, 20, 50)]);

        Assert.Equal(10, log.At(At(-500)).Temperature.Celsius, 1e-9);
        Assert.Equal(20, log.At(At(500)).Temperature.Celsius, 1e-9);
        Assert.Equal(
            [new(ClimateNoticeKind.HeldBeforeStart, At(-500), At(0)), new(ClimateNoticeKind.HeldAfterEnd, At(60), At(500))],
            log.NoticesWithin(At(-500), At(500)));
        Assert.Empty(log.NoticesWithin(At(10), At(50)));
    }

    [Fact]
    public void A_gap_of_more_than_two_hours_is_bridged_and_told()
    {
        var log = new LoggedClimate([Row(0, 10, 50), Row(120, 12, 50), Row(241, 20, 50)]);

        var notice = Assert.Single(log.Notices);
        Assert.Equal(new ClimateNotice(ClimateNoticeKind.GapBridged, At(120), At(241)), notice);
        Assert.Equal(16, log.At(At(180.5)).Temperature.Celsius, 1e-9);
        Assert.Empty(log.NoticesWithin(At(0), At(100)));
        Assert.Single(log.NoticesWithin(At(130), At(140)));
    }

    [Fact]
    public void Of_rows_with_the_same_time_the_first_is_kept()
    {
        var log = new LoggedClimate([Row(0, 10, 50), Row(30, 15, 50), Row(30, 99, 50), Row(30, 98, 50), Row(60, 20, 50)]);

        Assert.Equal(15, log.At(At(30)).Temperature.Celsius, 1e-9);
        Assert.Equal(new ClimateNotice(ClimateNoticeKind.DuplicatesDropped, At(30), At(30), 2), Assert.Single(log.Notices));
    }

    [Fact]
    public void Rows_out_of_order_are_sorted_in_and_counted()
    {
        var log = new LoggedClimate([Row(60, 20, 50), Row(0, 10, 50), Row(90, 25, 50), Row(30, 15, 50)]);

        Assert.Equal(12.5, log.At(At(15)).Temperature.Celsius, 1e-9);
        Assert.Equal(new ClimateNotice(ClimateNoticeKind.OutOfOrderSorted, At(0), At(30), 2), Assert.Single(log.Notices));
    }

    [Fact]
    public void Shuffled_and_repeated_rows_give_the_same_air()
    {
        var random = new Random(20260106);
        var rows = Enumerable.Range(0, 200).Select(i => Row(i * 7 + random.NextDouble(), 5 + 20 * random.NextDouble(), 90 * random.NextDouble())).ToArray();
        var shuffled = rows.Concat(rows.Take(50)).ToArray();
        random.Shuffle(shuffled);

        var plain = new LoggedClimate(rows);
        var mended = new LoggedClimate(shuffled);

        Assert.Equal(plain.Count, mended.Count);
        for (int i = 0; i < 1000; i++)
        {
            var time = At(1500 * random.NextDouble() - 50);
            Assert.Equal(plain.At(time), mended.At(time));
        }
    }

    [Fact]
    public void A_single_reading_is_constant_air()
    {
        var log = new LoggedClimate([Row(0, 21, 40)]);

        Assert.Equal(21, log.At(At(-9999)).Temperature.Celsius, 1e-9);
        Assert.Equal(21, PanelClimate.FollowingAir(log).TemperatureAt(At(9999)).Celsius, 1e-9);
    }

    [Fact]
    public void A_log_without_rows_is_refused() => Assert.Throws<ArgumentException>(() => new LoggedClimate([]));

    [Fact]
    public void A_panel_at_air_temperature_feels_what_the_log_says()
    {
        var random = new Random(7);
        var log = new LoggedClimate(Enumerable.Range(0, 50).Select(i => Row(i * 40, 25 * random.NextDouble(), 100 * random.NextDouble())));
        var panel = PanelClimate.FollowingAir(log);

        for (int i = 0; i < 500; i++)
        {
            var time = At(2200 * random.NextDouble() - 100);
            var air = log.At(time);
            Assert.Equal(air.Temperature.Kelvin, panel.TemperatureAt(time).Kelvin, 1e-9);
            Assert.Equal(air.Humidity.Fraction, panel.HumidityAt(time).Fraction, 1e-9);
            Assert.Equal(MoistAir.VapourPressure(air).Pascals, panel.VapourPressureAt(time).Pascals, 1e-6);
        }
    }

    [Fact]   // Candanedo and Feldheim 2016, open data set; their own pressure and saturation formula, hence 1 %
    public void Humidity_ratio_agrees_with_a_real_log_of_eight_thousand_rows()
    {
        var rows = RealLog();
        double worst = 0;
        foreach (var (reading, ratio) in rows)
            worst = Math.Max(worst, Math.Abs(MoistAir.HumidityRatio(reading.Air).KilogramsPerKilogram / ratio - 1));

        Assert.True(rows.Count > 8000);
        Assert.InRange(worst, 0, 0.01);
    }

    [Fact]
    public void A_real_log_becomes_a_climate_that_meets_its_rows()
    {
        var rows = RealLog();
        var log = new LoggedClimate(rows.Select(row => row.Reading));

        Assert.DoesNotContain(log.Notices, notice => notice.Kind == ClimateNoticeKind.OutOfOrderSorted);
        foreach (var (reading, _) in rows.Where((_, i) => i % 97 == 0))
        {
            Assert.Equal(reading.Air.Temperature.Kelvin, log.At(reading.Time).Temperature.Kelvin, 1e-9);
            Assert.Equal(reading.Air.Humidity.Fraction, log.At(reading.Time).Humidity.Fraction, 1e-9);
        }
    }

    /// <summary>The office log beside the checkout; the test is skipped where it is not.</summary>
    internal static IReadOnlyList<(ClimateReading Reading, double Ratio)> RealLog()
    {
        string file = Path.Combine(PublishedTable.Root, "..", "shared", "data", "climate", "office-minute-log.csv");
        if (!File.Exists(file))
            Assert.Skip("The office climate log is not beside the checkout.");

        var pattern = LocalDateTimePattern.CreateWithInvariantCulture("yyyy-MM-dd HH:mm:ss");
        return
        [
            .. File.ReadLines(file).Skip(1).Select(line => line.Split(',')).Select(f => (
                new ClimateReading(
                    pattern.Parse(f[0]).Value.InUtc().ToInstant(),
                    new AirState(
                        Temperature.FromCelsius(double.Parse(f[1], CultureInfo.InvariantCulture)),
                        RelativeHumidity.FromPercent(double.Parse(f[2], CultureInfo.InvariantCulture)))),
                double.Parse(f[3], CultureInfo.InvariantCulture))),
        ];
    }

    private static Instant At(double minute) => Start + Duration.FromMinutes(minute);

    private static ClimateReading Row(double minute, double celsius, double percent) =>
        new(At(minute), new AirState(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(percent)));
}
