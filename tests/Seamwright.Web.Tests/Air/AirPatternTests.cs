using System.Text.Json.Nodes;
using NodaTime;
using Seamwright.Air;
using Seamwright.Program.Web.Access;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Seamwright.Units;
using Seamwright.Web.Tests.Given;
using Seamwright.Web.Tests.Keeping;
using Xunit;

namespace Seamwright.Web.Tests.Air;

/// <summary>What the plan takes the shop's air to be is chosen by hand, and only what can be planned from is saved.</summary>
public sealed class AirPatternTests : IAsyncLifetime
{
    private const string Page = "/air/pattern";

    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    private readonly HandClock _clock = new();
    private WebShop _shop = null!;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync() => _shop = await WebShop.Open(clock: _clock);

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _shop.DisposeAsync();

    [Theory]
    [InlineData("log")]
    [InlineData("forecast")]
    public async Task A_table_that_was_never_brought_cannot_be_planned_from(string from)
    {
        using var painter = await _shop.Signed(Role.Painter);
        string before = await Content.Of(_shop.Store);

        var refused = await painter.Fill(Page, "pattern", ("from", from), ("humidity", ""));

        Assert.Equal(422, refused.Code);
        Assert.Contains(refused.Wrongs, line => line.Contains("bring the table", StringComparison.Ordinal));
        Assert.Equal(from, refused.Page.QuerySelector("input[name=from][checked]")!.GetAttribute("value"));
        Assert.Equal(before, await Content.Of(_shop.Store));
    }

    [Fact]
    public async Task Going_over_to_the_log_and_back_keeps_the_heating_as_it_was()
    {
        using var manager = await _shop.Signed(Role.Manager);
        string before = (await Climate()).ToJsonString();
        await Measured(AddingReadings.Log, _clock.Now - Duration.FromHours(2), 14);

        Assert.Equal(302, (await manager.Fill(Page, "pattern", ("from", "log"))).Code);
        var during = await Climate();
        Assert.Equal(302, (await manager.Fill(Page, "pattern", ("from", "reading"))).Code);

        Assert.True(during.ContainsKey("log"));
        Assert.False(during.ContainsKey("heating"));
        Assert.Equal(before, (await Climate()).ToJsonString());
    }

    [Fact]
    public async Task Planned_from_a_log_what_was_read_off_since_its_end_counts()
    {
        using var manager = await _shop.Signed(Role.Manager);
        await Measured(AddingReadings.Log, _clock.Now - Duration.FromHours(2), 14);
        Assert.Equal(302, (await manager.Fill(Page, "pattern", ("from", "log"))).Code);
        double byLog = await AirNow();

        Assert.Equal(302, (await manager.Fill("/air", "reading", ("temperature", "21 °C"), ("humidity", "40 %"))).Code);

        Assert.Equal(14, byLog, 2);
        Assert.Equal(21, await AirNow(), 2);
    }

    [Fact]
    public async Task Of_two_who_change_it_the_second_is_told_and_overwrites_nothing()
    {
        using var one = await _shop.Signed(Role.Manager);
        using var other = await _shop.Signed(Role.Painter);
        var seenByOther = (await other.Get(Page)).Form("pattern").With();

        Assert.Equal(302, (await one.Fill(Page, "pattern", ("temperature", "19 °C"))).Code);
        var told = await other.Post(Page, seenByOther);

        Assert.Equal(422, told.Code);
        Assert.Contains(told.Wrongs, line => line.Contains(Role.Manager, StringComparison.Ordinal));
        Assert.Equal("19 °C", (await Climate())["temperature"]!.GetValue<string>());
    }

    [Fact]
    public async Task Times_are_told_in_the_shop_s_zone_also_while_there_is_no_repair()
    {
        using var estimator = await _shop.Signed(Role.Estimator);
        using var painter = await _shop.Signed(Role.Painter);
        while (_shop.Desk.State.Shop is null)
            await Task.Delay(20, Stop);

        Assert.Equal(302, (await painter.Fill("/air", "reading", ("temperature", "18 °C"), ("humidity", "50 %"))).Code);
        var rows = (await estimator.Get("/air")).Page.QuerySelectorAll("#air-figures tbody th time");

        // 07:30 in Vienna is 06:30 UTC; figures stand at each third hour of the clock on the wall.
        Assert.Contains(rows, time => time.GetAttribute("datetime") == "2026-11-10T08:00:00Z" && time.TextContent.Contains("9:00", StringComparison.Ordinal));
    }

    private Task<int> Measured(string source, Instant until, double celsius) => _shop.Store.AddReadings(
        source, Enumerable.Range(0, 24).Select(hour => new ClimateReading(until - Duration.FromHours(hour), new(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(60)))), Stop);

    private async Task<JsonObject> Climate() => JsonNode.Parse((await _shop.Store.ShopDocumentOf(ShopDocument.Climate, Stop))!.Json)!.AsObject();

    private async Task<double> AirNow() =>
        (await StoredAir.Load(_shop.Store, DateTimeZoneProviders.Tzdb["Europe/Vienna"], _clock.Now, _clock.Now, Stop))!.At(_clock.Now).Temperature.Celsius;
}
