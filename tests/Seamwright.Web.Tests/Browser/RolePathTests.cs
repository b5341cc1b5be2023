using System.Globalization;
using Microsoft.Playwright;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>What each role comes for, from the first page on, by clicking what is there.</summary>
public class RolePathTests(RolePathTests.OwnShop own, BusyShop busy, Chromium browser) : IClassFixture<RolePathTests.OwnShop>
{
    private WebShop Shop => own.Shop;

    [Fact]
    public async Task From_an_empty_shop_to_a_first_plan()
    {
        await using var fresh = await WebShop.Fresh();
        await using var window = await browser.Open(fresh, Screen.Phone);
        await window.Go("/");
        await window.Page.GetByLabel("My own shop").CheckAsync();
        await window.Page.GetByLabel("One-time code").FillAsync(fresh.SetupCode);
        await window.Page.GetByLabel("Your name").FillAsync("Ada");
        await window.Page.GetByLabel("Password").FillAsync(WebShop.Password);
        await window.Follow(window.Page.GetByRole(AriaRole.Button, new() { Name = "Begin" }), "/");
        await window.Keep("path-first-1-empty");

        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Start a repair" }), "/start");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Rear panel" }), "/start/rear-panel");
        await window.Page.GetByLabel("Title").FillAsync("Green estate");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" }).ClickAsync();

        var ready = window.Page.Locator(".stitch__time time");
        await ready.WaitForAsync();
        Assert.Matches(@"^\d\d:\d\d$", (await ready.TextContentAsync())!.Trim());
        await window.Keep("path-first-2-plan");
    }

    [Fact]
    public async Task A_technician_starts_a_repair_with_what_is_seen_on_the_car_and_reads_its_plan()
    {
        await using var window = await browser.Open(Shop, Role.Technician, Screen.Phone);
        await window.Go("/repairs");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Start a repair" }).First, "/start");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Rear panel" }), "/start/rear-panel");
        await window.Page.GetByLabel("Title").FillAsync("Blue hatchback");
        await window.Page.GetByLabel("Length").First.FillAsync("777 mm");
        await window.Page.GetByLabel("Look").First.SelectOptionAsync("brushed");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" }).ClickAsync();

        await window.Page.GetByRole(AriaRole.Heading, new() { Name = "Blue hatchback" }).WaitForAsync();
        await window.Page.Locator(".drawing--narrow a").First.ClickAsync();
        await window.Page.Locator("#seam .seamcard").WaitForAsync();
        Assert.Contains("777 mm", await window.Page.Locator("#seam").TextContentAsync(), StringComparison.Ordinal);
        Assert.Contains("brushed", await window.Page.Locator("#seam").TextContentAsync(), StringComparison.Ordinal);
        await window.Keep("path-technician-seam");
    }

    [Fact]
    public async Task A_technician_photographs_a_seam_before_it_is_disturbed_and_sees_the_photo_beside_it()
    {
        await using var window = await browser.Open(Shop, Role.Technician, Screen.Phone);
        await window.Go("/start/rear-panel");
        await window.Page.GetByLabel("Title").FillAsync("White van");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" }).ClickAsync();
        await window.Page.GetByRole(AriaRole.Heading, new() { Name = "White van" }).WaitForAsync();
        await window.Page.Locator(".drawing--narrow a").First.ClickAsync();
        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Note the factory look" }).ClickAsync();

        await window.Page.GetByLabel("Photos, before it is disturbed").SetInputFilesAsync(new FilePayload { Name = "seam.jpg", MimeType = "image/jpeg", Buffer = Picture.FromCamera(Picture.Jpeg(800, 600), 6) });
        await window.Page.GetByLabel("What it looks like").FillAsync("brushed, a hand wide at the corner");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await window.Page.GetByRole(AriaRole.Status).Filter(new() { HasText = "Recorded" }).WaitForAsync();
        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Back to the repair" }).ClickAsync();

        var photo = window.Page.Locator("#seam .photos img");
        await photo.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await photo.EvaluateAsync("image => image.scrollIntoView()");
        await window.Page.WaitForFunctionAsync("() => document.querySelector('#seam .photos img')?.naturalWidth > 0");
        // Held upright, the camera saw 600 by 800; the list shows it as 360 by 480.
        Assert.Equal("360 480", await photo.EvaluateAsync<string>("image => `${image.naturalWidth} ${image.naturalHeight}`"));
        Assert.Contains("a hand wide at the corner", await window.Page.Locator("#seam .look").TextContentAsync(), StringComparison.Ordinal);
        await window.Keep("path-technician-look");
    }

    [Fact]
    public async Task A_painter_reads_when_each_car_is_ready_and_by_what_it_is_held_up()
    {
        await using var window = await browser.Open(busy.Shop, Role.Painter, Screen.Phone);
        await window.Go("/");

        foreach (var vehicle in busy.Shop.Desk.State.Vehicles)
        {
            var answer = window.Page.Locator(".stitch", new() { Has = window.Page.GetByRole(AriaRole.Link, new() { Name = vehicle.Title, Exact = true }) });
            // What the plan says, not what the page says: the time of day in the shop's own zone.
            var zone = vehicle.Input!.Shop.Zone;
            string expected = vehicle.Plan!.ReadyForPaint.InZone(zone).ToString("HH:mm", CultureInfo.InvariantCulture);
            Assert.Equal(expected, (await answer.Locator(".stitch__time time").TextContentAsync())!.Trim());
            Assert.Contains("Held up by", await answer.TextContentAsync(), StringComparison.Ordinal);
        }
        Assert.Equal(0, await window.Page.GetByRole(AriaRole.Link, new() { Name = "Start a repair" }).CountAsync());
    }

    [Fact]
    public async Task An_estimator_sees_what_the_plan_costs()
    {
        await using var window = await browser.Open(busy.Shop, Role.Estimator);
        await window.Go("/");
        var vehicle = busy.Shop.Desk.State.Vehicles[0];
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = vehicle.Title, Exact = true }).First, $"/repairs/{vehicle.Id}");

        string cost = (await window.Page.Locator("section[aria-labelledby=cost]").TextContentAsync())!;

        Assert.Contains(vehicle.Plan!.Cost.Total.Rounded.Amount.ToString("0.00", CultureInfo.InvariantCulture), cost, StringComparison.Ordinal);
        Assert.Contains(busy.Shop.Desk.State.Shop!.Currency, cost, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_keeper_looks_at_a_corrected_sheet_before_it_is_saved()
    {
        await using var window = await browser.Open(Shop, Role.Keeper);
        await window.Go("/materials");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "MS1", Exact = true }), "/materials/MS1");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Correct" }), "/sheet?id=MS1");

        await window.Page.Locator("[name=name]").FillAsync("gun grade, as now printed");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Draw the curve, save nothing" }).ClickAsync();
        await window.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        Assert.Equal("gun grade, as now printed", await window.Page.Locator("[name=name]").InputValueAsync());
        await window.Keep("path-keeper-sheet");
        await window.Follow(window.Page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }), "/materials/MS1");

        Assert.Contains("gun grade, as now printed", await window.Page.Locator("h1").TextContentAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_owner_lets_somebody_in_who_then_comes_in()
    {
        await using var window = await browser.Open(Shop, Role.Owner);
        await window.Go("/");
        await window.Follow(window.Page.GetByRole(AriaRole.Link, new() { Name = "Accounts" }), "/accounts");
        await window.Page.GetByLabel("Name", new() { Exact = true }).FillAsync("Bela");
        await window.Page.GetByLabel("First password").FillAsync("eleven steel clamps");
        await window.Page.GetByLabel("Painter").CheckAsync();
        await window.Follow(window.Page.GetByRole(AriaRole.Button, new() { Name = "Add" }), "/accounts?done=1");

        await using var other = await browser.Open(Shop);
        await other.SignIn("Bela", "eleven steel clamps");
        Assert.Equal("Ready for paint", await other.Page.Locator("h1").TextContentAsync());
    }

    [Fact]
    public async Task A_manager_changes_the_hours_of_the_shop()
    {
        await using var window = await browser.Open(Shop, Role.Manager);
        await window.Go("/shop");
        var until = window.Page.Locator("[name='hours[0].to']");
        Assert.NotEqual("19:15", await until.InputValueAsync());
        await until.FillAsync("19:15");
        await window.Follow(window.Page.GetByRole(AriaRole.Button, new() { Name = "Save" }), "/shop?done=1");

        Assert.Equal("19:15", await window.Page.Locator("[name='hours[0].to']").InputValueAsync());
        Assert.Contains(Role.Manager, await window.Page.Locator("main").TextContentAsync(), StringComparison.Ordinal);
    }

    /// <summary>A shop of these tests' own, because they change it.</summary>
    public sealed class OwnShop : IAsyncLifetime
    {
        internal WebShop Shop { get; private set; } = null!;

        /// <inheritdoc/>
        public async ValueTask InitializeAsync() => Shop = await WebShop.Open();

        /// <inheritdoc/>
        public ValueTask DisposeAsync() => Shop.DisposeAsync();
    }
}
