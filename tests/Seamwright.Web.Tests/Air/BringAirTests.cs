using System.Text;
using AngleSharp.Dom;
using NodaTime;
using Seamwright.Air;
using Seamwright.Program.Web.Access;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Units;
using Seamwright.Web.Tests.Given;
using Seamwright.Web.Tests.Keeping;
using Xunit;

namespace Seamwright.Web.Tests.Air;

/// <summary>Logs and forecasts that are brought on the page of the air: all of a table or nothing of it, and the page says the same in curve and words.</summary>
public sealed class BringAirTests : IAsyncLifetime
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;
    private static readonly Instant Ever = Instant.FromUtc(9998, 1, 1, 0, 0);

    private readonly HandClock _clock = new();
    private WebShop _shop = null!;

    // 07:30 in Europe/Vienna, where the invented shop is.
    private Instant Now => _clock.Now;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync() => _shop = await WebShop.Open(clock: _clock);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_log_in_local_time_comes_in_whole_with_its_gap_told_and_twice_brings_nothing_new()
    {
        using var painter = await _shop.Signed(Role.Painter);
        byte[] table = Encoding.UTF8.GetBytes("time;temperature_c;humidity_percent\n2026-11-09 20:30;17,5;52\n2026-11-09 21:30;16,5;55\n2026-11-10 02:30;12;70\n2026-11-10 03:30;11,5;72\n");

        var brought = await Bring(painter, "log", table);
        var page = await painter.Get("/air?done=log");
        await Bring(painter, "log", table);

        Assert.Equal((302, "/air?done=log#bring-log"), (brought.Code, brought.To.Replace(_shop.Address.ToString().TrimEnd('/'), "", StringComparison.Ordinal)));
        var kept = await Kept(AddingReadings.Log);
        Assert.Equal([Instant.FromUtc(2026, 11, 9, 19, 30), Instant.FromUtc(2026, 11, 9, 20, 30), Instant.FromUtc(2026, 11, 10, 1, 30), Instant.FromUtc(2026, 11, 10, 2, 30)], kept.Select(reading => reading.Time));
        Assert.Equal(16.5, kept[1].Air.Temperature.Celsius, 3);
        string told = page.Page.QuerySelector("#bring-log [role=status]")!.TextContent;
        Assert.Contains("4 readings", told, StringComparison.Ordinal);
        Assert.Contains("21:30", told, StringComparison.Ordinal);
        Assert.Contains("2:30", told, StringComparison.Ordinal);
        Assert.Contains(Role.Painter, told, StringComparison.Ordinal);
        Assert.Contains("0 of them new", (await painter.Get("/air?done=log")).Page.QuerySelector("#bring-log")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Lines_that_cannot_be_are_told_by_number_and_no_line_is_kept()
    {
        using var painter = await _shop.Signed(Role.Painter);
        byte[] table = Encoding.UTF8.GetBytes("time,temperature_c,humidity_percent\n2026-11-10T04:00Z,17,52\n2026-11-10T05:00Z,warm,55\nyesterday,12,70\n2026-11-10T06:00Z,12,170\n");
        string before = await Content.Of(_shop.Store);

        var refused = await Bring(painter, "log", table, ("log-zone", "Europe/Vienna"), ("log-unit", "c"));

        Assert.Equal(422, refused.Code);
        Assert.Equal(["log-file"], refused.Marked);
        Assert.Equal(3, refused.Wrongs.Length);
        foreach (int line in (int[])[3, 4, 5])
            Assert.Contains(refused.Wrongs, wrong => wrong.Contains($"Line {line}:", StringComparison.Ordinal));
        Assert.Equal(("Europe/Vienna", "c"), (refused.ValueOf("log-zone"), refused.ValueOf("log-unit")));
        Assert.Equal(before, await Content.Of(_shop.Store));
        Assert.Empty(await Kept(AddingReadings.Log));
    }

    [Theory]
    [InlineData("program", "log")]
    [InlineData("picture", "log")]
    [InlineData("nothing", "forecast")]
    [InlineData("headless", "forecast")]
    [InlineData("large", "log")]
    [InlineData("ahead", "log")]
    [InlineData("past", "forecast")]
    public async Task What_is_no_table_of_this_air_is_refused_whatever_it_is_called(string what, string source)
    {
        using var owner = await _shop.Signed(Role.Owner);
        string before = await Content.Of(_shop.Store);
        byte[] sent = what switch
        {
            "program" => [.. "MZ\u0090\0\u0003\0\0\0"u8, .. new byte[4_000]],
            "picture" => Picture.Jpeg(60, 40),
            "nothing" => [],
            "headless" => "2026-11-10T07:00Z,17,52\n2026-11-10T08:00Z,17,52\n"u8.ToArray(),
            "large" => [.. "time,temperature_c,humidity_percent\n"u8, .. Enumerable.Repeat((byte)'\n', 7_000_001)],
            "ahead" => "time,temperature_c,humidity_percent\n2026-11-10T06:00Z,17,52\n2026-11-10T08:00Z,17,52\n"u8.ToArray(),
            _ => "time,temperature_c,humidity_percent\n2026-11-09T06:00Z,7,52\n2026-11-10T06:00Z,7,52\n"u8.ToArray(),
        };

        var refused = await Bring(owner, source, sent);

        Assert.Equal((what, 422), (what, refused.Code));
        Assert.Equal([$"{source}-file"], refused.Marked);
        Assert.All(refused.Wrongs, Assert.NotEmpty);
        Assert.Equal(before, await Content.Of(_shop.Store));
        Assert.Empty(await Kept(source));
    }

    [Fact]
    public async Task A_zone_that_does_not_exist_is_refused_at_its_field()
    {
        using var owner = await _shop.Signed(Role.Owner);

        var refused = await Bring(owner, "log", "time,temperature_c,humidity_percent\n2026-11-10 06:00,17,52\n"u8.ToArray(), ("log-zone", "Middle/Earth"));

        Assert.Equal(422, refused.Code);
        Assert.Equal(["log-zone"], refused.Marked);
        Assert.Equal("Middle/Earth", refused.ValueOf("log-zone"));
    }

    [Fact]
    public async Task A_forecast_takes_the_place_of_the_one_before_and_says_that_the_plan_does_not_use_it_yet()
    {
        using var manager = await _shop.Signed(Role.Manager);
        await Bring(manager, "forecast", Table(Now, 20, 4));

        var second = await Bring(manager, "forecast", Table(Now + Duration.FromHours(1), 10, 6));

        Assert.Equal(302, second.Code);
        var kept = await Kept(AddingReadings.Forecast);
        Assert.Equal((10, Now + Duration.FromHours(1)), (kept.Length, kept[0].Time));
        Assert.Contains((await manager.Get("/air")).Page.QuerySelectorAll(".remark"), remark => remark.TextContent.Contains("does not use the forecast yet", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_table_says_what_the_chart_says_and_what_was_not_measured_stays_open()
    {
        using var estimator = await _shop.Signed(Role.Estimator);
        // Measured every half hour for a day, but for the five hours from 22:00 to 03:00.
        var readings = Enumerable.Range(0, 49).Select(half => new ClimateReading(Now - Duration.FromMinutes(30 * half), new(Temperature.FromCelsius(18 - half * 0.1), RelativeHumidity.FromPercent(50))))
            .Where(reading => !(reading.Time > Instant.FromUtc(2026, 11, 9, 21, 0) && reading.Time < Instant.FromUtc(2026, 11, 10, 2, 0)));
        await _shop.Store.AddReadings(AddingReadings.Log, readings, Stop);

        var page = (await estimator.Get("/air")).Page;

        Assert.Contains("22:00", page.QuerySelector("#air-gaps li")!.TextContent, StringComparison.Ordinal);
        var rows = page.QuerySelectorAll("#air-figures tbody tr").ToDictionary(row => row.QuerySelector("time")!.GetAttribute("datetime")!, row => row.QuerySelectorAll("td").Select(cell => cell.TextContent.Trim()).ToList());
        // Midnight in Vienna lies in the gap; nine in the evening was measured; nine in the morning is yet to come.
        Assert.Equal(["not measured"], rows["2026-11-09T23:00:00Z"]);
        Assert.Equal(["measured", "15.9 °C"], rows["2026-11-09T20:00:00Z"].Take(2));
        Assert.NotEqual("measured", rows["2026-11-10T08:00:00Z"][0]);
        var chart = page.QuerySelector("figure.drawn svg")!;
        Assert.Contains(rows["2026-11-10T08:00:00Z"][0], chart.TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(chart.QuerySelectorAll(".forecast__hatch"));
    }

    [Fact]
    public async Task Without_a_log_or_a_right_nothing_can_be_brought()
    {
        using var estimator = await _shop.Signed(Role.Estimator);
        using var painter = await _shop.Signed(Role.Painter);
        var form = (await painter.Get("/air")).Form("log");

        var answer = await estimator.PostFiles("/air", form.With(), "log-file", ("log.csv", "text/csv", Table(Now - Duration.FromHours(4), 4, 15)));

        Assert.Null((await estimator.Get("/air")).FindForm("log"));
        Assert.Equal(400, answer.Code);
        Assert.Empty(await Kept(AddingReadings.Log));
    }

    private static byte[] Table(Instant from, int hours, double celsius) =>
        Encoding.UTF8.GetBytes("time,temperature_c,humidity_percent\n" + string.Concat(Enumerable.Range(0, hours).Select(hour => $"{from + Duration.FromHours(hour):uuuu-MM-dd'T'HH:mm:ss'Z'},{celsius},60\n")));

    private static async Task<Answer> Bring(Visitor visitor, string source, byte[] table, params (string Name, string? Value)[] entries) =>
        await visitor.PostFiles("/air", (await visitor.Get("/air")).Form(source).With(entries), $"{source}-file", ("readings.csv", "text/csv", table));

    private async Task<System.Collections.Immutable.ImmutableArray<ClimateReading>> Kept(string source) => await _shop.Store.ReadingsBetween(source, Instant.FromUnixTimeSeconds(0), Ever, Stop);
}
