using System.Text;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

public sealed class ClimateTableTests
{
    private static readonly DateTimeZone Vienna = DateTimeZoneProviders.Tzdb["Europe/Vienna"];

    [Fact]
    public void Columns_are_found_by_name_whatever_their_order()
    {
        var table = Read("note,Humidity %,Temperature (°F),Time\nx,28,68,2027-01-12T15:00+01:00\nx,29,50,2027-01-12 15:10\n");

        Assert.Empty(table.Problems.Select(Repository.Shown));
        Assert.Equal([Instant.FromUtc(2027, 1, 12, 14, 0), Instant.FromUtc(2027, 1, 12, 14, 10)], table.Rows.Select(row => row.Time));
        Assert.Equal(20, table.Rows[0].Air.Temperature.Celsius, 9);
        Assert.Equal(28, table.Rows[0].Air.Humidity.Percent, 9);
    }

    [Fact]
    public void With_semicolons_a_decimal_comma_is_read()
    {
        var table = Read("time;temperature_C;humidity\n2027-01-12T15:00;20,5;28,25\n");

        Assert.Equal(20.5, table.Rows[0].Air.Temperature.Celsius, 9);
        Assert.Equal(28.25, table.Rows[0].Air.Humidity.Percent, 9);
    }

    [Fact]
    public void A_column_without_a_unit_is_refused_unless_the_climate_states_it()
    {
        const string Text = "time,temperature,rh\n2027-01-12T15:00,68,28\n";

        Assert.Equal(["climate.temperature-unit"], Read(Text).Problems.Select(problem => problem.Key));
        Assert.Equal(20, Read(Text, fahrenheit: true).Rows[0].Air.Temperature.Celsius, 9);
    }

    [Fact]
    public void In_a_doubled_hour_the_order_of_rows_decides_and_that_is_told()
    {
        // Europe/Vienna, 31 October 2027: 03:00 summer time becomes 02:00.
        var table = Read("time,temperature_C,humidity\n2027-10-31 01:30,10,50\n2027-10-31 02:30,10,50\n2027-10-31 02:30,10,50\n2027-10-31 03:30,10,50\n");

        Assert.Empty(table.Problems);
        Assert.Equal([23.5, 24.5, 25.5, 26.5], table.Rows.Select(row => (row.Time - Instant.FromUtc(2027, 10, 30, 0, 0)).TotalHours));
        Assert.Equal(["climate.rows-in-doubled-hour"], table.Notices.Select(notice => notice.Key));
    }

    [Fact]
    public void An_hour_that_does_not_exist_is_a_problem_of_its_line()
    {
        var table = Read("time,temperature_C,humidity\n2027-03-28 01:30,10,50\n2027-03-28 02:30,10,50\n");

        var problem = Assert.Single(table.Problems);
        Assert.Equal(("climate.skipped-hour", 3), (problem.Key, problem.Line));
        Assert.Empty(table.Rows);
    }

    [Fact]
    public void Twenty_bad_rows_are_shown_and_the_rest_counted()
    {
        var text = new StringBuilder("time,temperature_C,humidity\n");
        for (int i = 0; i < 50; i++)
            text.Append("2027-01-12T15:00,warm,50\n");

        var problems = Read(text.ToString()).Problems;

        Assert.Equal(21, problems.Length);
        Assert.Equal(20, problems.Count(problem => problem.Key == "climate.not-a-number"));
        Assert.Contains("30 more", Repository.Sentence(problems.Single(problem => problem.Key == "climate.more-bad-rows")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2027-01-12T15:00,20", "climate.row-too-short")]
    [InlineData("2027-01-12T15:00,20,140", "climate.value-out-of-range")]
    [InlineData("2027-01-12T15:00,-300,40", "climate.value-out-of-range")]
    [InlineData("2027-01-12T15:00,1e999,40", "climate.not-a-number")]
    [InlineData("12.01.2027 15:00,20,40", "climate.not-a-time")]
    public void A_bad_row_is_told_with_its_line(string row, string key)
    {
        var problem = Assert.Single(Read($"# remark\ntime,temperature_C,humidity\n\n{row}\n").Problems);

        Assert.Equal((key, 4), (problem.Key, problem.Line));
    }

    [Fact]
    public void Rows_without_a_value_are_left_out_and_told()
    {
        var table = Read("time,temperature_C,humidity\n2027-01-12T15:00,20,40\n2027-01-12T15:01,-,40\n2027-01-12T15:02,20,NaN\n");

        Assert.Single(table.Rows);
        Assert.Equal(["climate.rows-without-value"], table.Notices.Select(notice => notice.Key));
    }

    [Fact]
    public void A_log_a_repair_names_becomes_its_climate()
    {
        using var folder = new Folder();
        folder.Write("log.csv", "time,temperature_C,humidity\n2027-01-12T15:00,20,28\n2027-01-12T16:00,18,30\n");
        folder.Spoil("repair.yaml", "{temperature: 20 °C, humidity: 28 %}", "{log: {file: log.csv}}");

        var input = folder.Read().Input!;

        Assert.Equal(19, Assert.IsType<LoggedClimate>(input.Climate).At(Instant.FromUtc(2027, 1, 12, 14, 30)).Temperature.Celsius, 6);
    }

    [Fact]
    public void A_forecast_needs_heating_and_then_tells_the_shops_air()
    {
        using var folder = new Folder();
        folder.Write("out.csv", "time,temperature_F,humidity\n2027-01-12T00:00Z,23,90\n2027-01-14T00:00Z,23,90\n");
        folder.Spoil("repair.yaml", "{temperature: 20 °C, humidity: 28 %}", "{forecast: {file: out.csv}}");
        Assert.Equal(["climate.forecast-needs-heating"], folder.Read().Problems.Select(problem => problem.Key));

        folder.Spoil("repair.yaml", "{file: out.csv}", "{file: out.csv}, heating: {set_point: 20 °C}");
        var input = folder.Read().Input!;

        Assert.IsType<ForecastClimate>(input.Climate);
        Assert.InRange(input.Climate.At(input.Repair.Now).Humidity.Percent, 14, 18);      // -5 °C at 90 % is about 376 Pa; 20 °C holds 2333 Pa
    }

    [Fact]
    public void A_real_log_of_a_week_is_read_row_by_row()
    {
        string path = Path.Combine(Repository.Root, "..", "shared", "data", "climate", "office-minute-log.csv");
        Assert.SkipUnless(File.Exists(path), "The climate log lies beside the checkout only where it has been put there.");

        var table = ClimateCsvReader.Read(path, DateTimeZone.Utc);

        Assert.Empty(table.Problems.Select(Repository.Shown));
        Assert.Equal(File.ReadLines(path).Count() - 1, table.Rows.Length);
        Assert.Equal(23.18, table.Rows[0].Air.Temperature.Celsius, 9);
        Assert.Equal(27.272, table.Rows[0].Air.Humidity.Percent, 9);
    }

    private static ClimateTable Read(string text, bool? fahrenheit = null)
    {
        using var folder = new Folder();
        folder.Write("log.csv", text);
        return ClimateCsvReader.Read(folder.At("log.csv"), Vienna, fahrenheit);
    }
}
