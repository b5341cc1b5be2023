using System.Globalization;
using NodaTime;
using Seamwright.Air;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Printing;

public class FormatterTests
{
    private static readonly DateTimeZone Vienna = DateTimeZoneProviders.Tzdb["Europe/Vienna"];

    private static readonly Formatter Metric = In("en-GB", UnitSystem.Metric);

    private static readonly Formatter Us = In("en-US", UnitSystem.UsCustomary);

    public static TheoryData<object, string, string> Facts => new()
    {
        { Temperature.FromCelsius(18), "18 °C", "64.4 °F" },
        { Temperature.FromCelsius(-0.04), "0 °C", "31.9 °F" },
        { TemperatureDifference.FromKelvins(3), "3 K", "5.4 °F" },
        { RelativeHumidity.FromPercent(28), "28 %", "28 %" },
        { HumidityRatio.FromGramsPerKilogram(3.5), "3.5 g/kg", "24.5 gr/lb" },
        { Length.FromMillimetres(9.5), "9.5 mm", "3/8 in" },
        { Length.FromMillimetres(10), "10 mm", "0.39 in" },
        { Length.FromMillimetres(38.1), "38.1 mm", "1 1/2 in" },
        { Length.FromMetres(1.2), "1.2 m", "3.9 ft" },
        { Length.FromMillimetres(999.6), "1 m", "3.3 ft" },
        { Length.FromMicrometres(60), "60 µm", "2.4 mil" },
        { Volume.FromMillilitres(55.2), "55 ml", "1.9 fl oz" },
        { Volume.FromMillilitres(4.25), "4.3 ml", "0.1 fl oz" },
        { Volume.FromLitres(1.25), "1.25 l", "42.3 fl oz" },
        { Area.FromSquareMetres(0.35), "0.35 m²", "3.8 ft²" },
        { Mass.FromGrams(19.5), "19.5 g", "0.69 oz" },
        { Angle.FromDegrees(4), "4°", "4°" },
        { Duration.FromMinutes(75), "1 h 15 min", "1 h 15 min" },
        { Duration.FromMinutes(-45), "−45 min", "−45 min" },
        { Duration.FromSeconds(40), "40 s", "40 s" },
        { Duration.FromHours(4), "4 h", "4 h" },
        { ReferenceTime.FromMinutes(97), "1 h 37 min", "1 h 37 min" },
        { new AirState(Temperature.FromCelsius(20), RelativeHumidity.FromPercent(28)), "20 °C / 28 %", "68 °F / 28 %" },
        { new LocalDate(2027, 1, 31), "31 Jan 2027", "31 Jan 2027" },
        { new LocalTime(7, 30), "07:30", "07:30" },
        { new PlaceId("J1"), "J1", "J1" },
        { Position.Overhead, "overhead", "overhead" },
        { new[] { new PlaceId("J1"), new PlaceId("J2"), new PlaceId("J3") }, "J1, J2 and J3", "J1, J2 and J3" },
    };

    [Theory]
    [MemberData(nameof(Facts))]
    public void A_fact_is_written_in_the_readers_units(object fact, string metric, string us)
    {
        Assert.Equal(metric, Metric.Word(fact));
        Assert.Equal(us, Us.Word(fact));
    }

    [Theory]
    [InlineData("0.285", "0.29")]
    [InlineData("0.284999", "0.28")]
    [InlineData("-2.345", "−2.35")]
    [InlineData("1234.5", "1234.50")]
    public void Money_has_two_decimals_and_rounds_halves_away_from_zero(string amount, string shown) =>
        Assert.Equal(shown, Metric.Text(new Money(decimal.Parse(amount, CultureInfo.InvariantCulture), "EUR")));

    [Fact]
    public void Numbers_follow_the_shops_culture()
    {
        var german = In("de-DE", UnitSystem.Metric);

        Assert.Equal("12,50 EUR", german.Text(new Money(12.5m, "EUR"), "currency"));
        Assert.Equal("18,5 °C", german.Word(Temperature.FromCelsius(18.5)));
    }

    [Fact]
    public void A_culture_that_this_machine_does_not_know_falls_back_to_plain_numbers() =>
        Assert.Equal(CultureInfo.InvariantCulture, Notation.CultureOf("xx-not-a-culture-at-all"));

    [Fact]
    public void A_moment_of_today_is_a_clock_time_and_another_day_has_its_date()
    {
        Assert.Equal("16:23", Metric.Moment(At(2027, 1, 12, 16, 23)));
        Assert.Equal("Wed 13 Jan 07:30", Metric.Moment(At(2027, 1, 13, 7, 30)));
        Assert.Equal("Wed 12 Jan 2028 07:30", Metric.Moment(At(2028, 1, 12, 7, 30)));
        Assert.Equal("Tue 12 Jan 16:23", Metric.DateAndClock(At(2027, 1, 12, 16, 23)));
    }

    [Fact]
    public void A_clock_time_that_comes_twice_says_which_one()
    {
        // Clocks go back from 03:00 to 02:00 on 31 October 2027.
        var second = Instant.FromUtc(2027, 10, 31, 1, 30);

        Assert.Equal("02:30 (UTC+01:00)", Metric.Clock(second));
        Assert.Equal("02:30 (UTC+02:00)", Metric.Clock(second - Duration.FromHours(1)));
        Assert.Equal("03:30", Metric.Clock(second + Duration.FromHours(1)));
    }

    [Fact]
    public void A_sentence_takes_facts_formats_and_counts()
    {
        Assert.Equal("1 nozzle", Metric.Say("print.nozzles", 1));
        Assert.Equal("2 nozzles", Metric.Say("print.nozzles", 2));
        Assert.Equal("The maker's procedure forbids PU1 here: x.", Metric.Sentence(Reason.Of("procedure-forbids", "PU1", "x")));
    }

    [Fact]
    public void A_missing_sentence_still_shows_its_facts() =>
        Assert.Equal("no-such-key: 18 °C · J1", Metric.Sentence(Reason.Of("no-such-key", Temperature.FromCelsius(18), new PlaceId("J1"))));

    [Theory]
    [InlineData(190, "+3:10")]
    [InlineData(-45, "−0:45")]
    [InlineData(0, "+0:00")]
    public void A_shift_is_short(int minutes, string shown) => Assert.Equal(shown, Metric.Shift(Duration.FromMinutes(minutes)));

    private static Formatter In(string culture, UnitSystem units) =>
        new(Sample.Texts, new Notation(Notation.CultureOf(culture), Vienna, units, new LocalDate(2027, 1, 12)));

    private static Instant At(int year, int month, int day, int hour, int minute) =>
        new LocalDateTime(year, month, day, hour, minute).InZoneStrictly(Vienna).ToInstant();
}
