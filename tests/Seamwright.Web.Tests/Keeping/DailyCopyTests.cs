using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Keeping;
using Seamwright.Storage.Copies;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Keeping;

/// <summary>Copies that are made by themselves while the app is served, and what is told of them.</summary>
public class DailyCopyTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_copy_is_made_each_night_and_after_a_night_switched_off()
    {
        // The invented shop is in Europe/Vienna: 02:30 there is 01:30 UTC in winter.
        var clock = new HandClock();
        await using var shop = await WebShop.Open(clock: clock);
        var copies = shop.App.Services.GetRequiredService<DailyCopies>();

        foreach (var at in (Instant[])[Instant.FromUtc(2026, 11, 10, 6, 30), Instant.FromUtc(2026, 11, 10, 6, 31), Instant.FromUtc(2026, 11, 11, 1, 29), Instant.FromUtc(2026, 11, 11, 1, 30), Instant.FromUtc(2026, 11, 13, 7, 0), Instant.FromUtc(2026, 11, 13, 7, 1)])
        {
            clock.Now = at;
            Assert.Empty(await copies.MakeIfDue(Stop));
        }

        Assert.Equal(
            [Instant.FromUtc(2026, 11, 10, 6, 30), Instant.FromUtc(2026, 11, 11, 1, 30), Instant.FromUtc(2026, 11, 13, 7, 0)],
            CopyShelf.In(shop.Store.Folder.Copies).Select(copy => copy.Written));
    }

    [Fact]
    public async Task A_copy_that_failed_is_told_to_owner_and_manager_and_tried_again_after_an_hour()
    {
        var clock = new HandClock();
        await using var shop = await WebShop.Open(services: services => services.AddSingleton(new CopyPlace("/no/such/disk", null)), clock: clock);
        var copies = shop.App.Services.GetRequiredService<DailyCopies>();
        using var manager = await shop.Signed(Role.Manager);
        using var painter = await shop.Signed(Role.Painter);
        Assert.Contains("There is no backup yet", (await manager.Get("/")).Page.QuerySelector(".copyline")!.TextContent, StringComparison.Ordinal);

        var first = await copies.MakeIfDue(Stop);
        var soon = await copies.MakeIfDue(Stop);

        Assert.Equal("copies.second-not-there", Assert.Single(first).Key);
        Assert.Empty(soon);
        Assert.Contains("◐ look", (await manager.Get("/")).Page.QuerySelector(".copyline")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("/no/such/disk", (await manager.Get("/health")).Page.QuerySelector(".health")!.TextContent, StringComparison.Ordinal);
        Assert.Null((await painter.Get("/")).Page.QuerySelector(".copyline"));
        Assert.Contains("\"second-not-there\"", (await shop.Anybody().Get("/health/ready")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Owner_makes_a_copy_by_hand_and_sets_the_time_of_the_others()
    {
        var clock = new HandClock();
        await using var shop = await WebShop.Open(clock: clock);
        using var owner = await shop.Signed(Role.Owner);

        Assert.EndsWith("/health?done=copied", (await owner.Fill("/health", "copy-now")).To, StringComparison.Ordinal);
        Assert.Equal(422, (await owner.Fill("/health", "copy-time", ("time", "half past two"))).Code);
        Assert.EndsWith("/health?done=saved", (await owner.Fill("/health", "copy-time", ("time", "22:15"))).To, StringComparison.Ordinal);

        clock.Now += Duration.FromHours(3);
        Assert.Contains("● good Last good backup: 3 hours old.", (await owner.Get("/")).Page.QuerySelector(".copyline")!.TextContent.ReplaceLineEndings(" "), StringComparison.Ordinal);
        clock.Now += Duration.FromDays(3);
        Assert.Contains("▲ too old Last good backup: 3 days old.", (await owner.Get("/")).Page.QuerySelector(".copyline")!.TextContent, StringComparison.Ordinal);
        var rule = await shop.App.Services.GetRequiredService<CopyPlace>().Rule(shop.Store, Stop);
        Assert.Equal((new LocalTime(22, 15), "Europe/Vienna"), (rule.At, rule.Zone.Id));
        Assert.Contains("22:15", (await owner.Get("/health")).Form("copy-time").Entries.Single(entry => entry.Key == "time").Value, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_machine_that_watches_is_told_whether_the_app_can_work_and_how_old_the_backup_is()
    {
        await using var shop = await WebShop.Open(clock: new HandClock());
        using var anybody = shop.Anybody();
        Assert.Equal("""{"status":"ready","lastGoodBackup":null,"toMend":["no-backup"]}""", (await anybody.Get("/health/ready")).Text);

        await shop.App.Services.GetRequiredService<DailyCopies>().Make("owner", Stop);
        Assert.Equal("""{"status":"ready","lastGoodBackup":"2026-11-10T06:30:00Z","toMend":[]}""", (await anybody.Get("/health/ready")).Text);

        await shop.TakeAway("Settings");
        var broken = await anybody.Get("/health/ready");
        Assert.Equal((503, """{"status":"not-ready","lastGoodBackup":null,"toMend":[]}"""), (broken.Code, broken.Text));
        Assert.Equal(200, (await anybody.Get("/health/live")).Code);
    }
}
