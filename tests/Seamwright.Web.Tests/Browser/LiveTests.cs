using Microsoft.Playwright;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>An open page stays true, says when it cannot, and never loses an entry to a dropped connection.</summary>
public class LiveTests(FormShop given, Chromium browser) : IClassFixture<FormShop>
{
    private WebShop Shop => given.Shop;

    [Fact]
    public async Task What_somebody_else_changes_appears_without_loading_the_page_again()
    {
        await using var looking = await browser.Open(Shop, Role.Painter, Screen.Phone);
        await looking.Go("/");
        await looking.Page.EvaluateAsync("() => { window.neverLoadedAgain = true; }");
        using var technician = await Shop.Signed(Role.Technician);

        await technician.Fill("/start/rear-panel", "start-repair", ("name", "Yellow coupé"));

        await looking.Page.GetByRole(AriaRole.Link, new() { Name = "Yellow coupé" }).First.WaitForAsync();
        Assert.True(await looking.Page.EvaluateAsync<bool>("() => window.neverLoadedAgain === true"));
    }

    [Fact]
    public async Task Whoever_stands_on_a_link_with_the_keyboard_stands_there_still_when_the_page_was_renewed()
    {
        await using var looking = await browser.Open(Shop, Role.Painter);
        await looking.Go("/");
        string link = $"[data-live] a[href='/repairs/{given.Repair}']";
        await looking.Page.Locator(link).First.FocusAsync();
        using var technician = await Shop.Signed(Role.Technician);

        await technician.Fill("/start/rear-panel", "start-repair", ("name", "In between"));

        await looking.Page.GetByRole(AriaRole.Link, new() { Name = "In between" }).First.WaitForAsync();
        Assert.True(await looking.Page.EvaluateAsync<bool>("link => document.activeElement.matches(link)", link));
    }

    [Fact]
    public async Task What_changed_while_the_page_was_on_its_way_appears_too()
    {
        await using var looking = await browser.Open(Shop, Role.Painter);
        using var technician = await Shop.Signed(Role.Technician);
        // The page is there, and its script comes only after the shop has changed.
        await looking.Page.RouteAsync("**/live*.js", async route =>
        {
            await technician.Fill("/start/rear-panel", "start-repair", ("name", "On the way"));
            await route.ContinueAsync();
        });

        await looking.Go("/");

        await looking.Page.GetByRole(AriaRole.Link, new() { Name = "On the way" }).First.WaitForAsync();
    }

    [Fact]
    public async Task A_form_that_is_being_filled_in_is_not_taken_away_by_what_somebody_else_changes()
    {
        await using var looking = await browser.Open(Shop, Role.Technician);
        await looking.Go($"/repairs/{given.Repair}");
        await looking.Page.EvaluateAsync("""
            () => {
                const part = document.querySelector("[data-live]");
                part.insertAdjacentHTML("beforeend", "<form><input id='entry' aria-label='entry'></form>");
                document.getElementById("entry").value = "half typed";
            }
            """);
        using var technician = await Shop.Signed(Role.Technician);

        await technician.Fill("/start/rear-panel", "start-repair", ("name", "Meanwhile"));

        await looking.Page.Locator("#stale").WaitForAsync(new() { State = WaitForSelectorState.Visible });
        Assert.Matches(@"^Something has changed since \d\d:\d\d", await looking.Page.Locator("#stale").TextContentAsync());
        Assert.Equal("half typed", await looking.Page.Locator("#entry").InputValueAsync());
        await looking.Page.Locator("#entry").FillAsync("");
        await looking.Page.EvaluateAsync("() => document.activeElement.blur()");
        await looking.Page.Locator("#stale").WaitForAsync(new() { State = WaitForSelectorState.Hidden });
        Assert.Equal(0, await looking.Page.Locator("#entry").CountAsync());
    }

    [Fact]
    public async Task Without_a_connection_a_page_says_so_and_afterwards_shows_what_was_missed()
    {
        await using var looking = await browser.Open(Shop, Role.Painter, Screen.Phone);
        await looking.Go("/");
        var line = looking.Page.Locator("#stale");
        Assert.True(await line.IsHiddenAsync());

        await looking.Page.Context.SetOfflineAsync(true);
        await line.WaitForAsync(new() { State = WaitForSelectorState.Visible });
        Assert.Matches(@"^No connection since \d\d:\d\d", await line.TextContentAsync());
        await looking.Keep("live-lost");
        using var technician = await Shop.Signed(Role.Technician);
        await technician.Fill("/start/rear-panel", "start-repair", ("name", "Missed meanwhile"));
        await looking.Page.Context.SetOfflineAsync(false);

        await looking.Page.GetByRole(AriaRole.Link, new() { Name = "Missed meanwhile" }).First.WaitForAsync();
        await line.WaitForAsync(new() { State = WaitForSelectorState.Hidden });
    }

    [Fact]
    public async Task A_form_that_could_not_be_sent_keeps_every_entry_and_is_sent_when_the_connection_is_back()
    {
        await using var window = await browser.Open(Shop, Role.Technician, Screen.Phone);
        await window.Go("/start/rear-panel");
        await window.Page.GetByLabel("Title").FillAsync("Typed in the far corner");
        await window.Page.GetByLabel("Length").First.FillAsync("654 mm");
        await window.Page.Context.SetOfflineAsync(true);
        var send = window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" });

        await send.ClickAsync();

        await window.Page.Locator("#stale").WaitForAsync(new() { State = WaitForSelectorState.Visible });
        Assert.Contains("Your entries are still here", await window.Page.Locator("#stale").TextContentAsync(), StringComparison.Ordinal);
        Assert.Equal("Typed in the far corner", await window.Page.GetByLabel("Title").InputValueAsync());
        Assert.Equal("654 mm", await window.Page.GetByLabel("Length").First.InputValueAsync());
        await window.Keep("live-unsent");
        await window.Page.Context.SetOfflineAsync(false);
        await send.ClickAsync();
        await window.Page.GetByRole(AriaRole.Heading, new() { Name = "Typed in the far corner" }).WaitForAsync();
    }

    [Fact]
    public async Task Leaving_a_form_that_could_not_be_sent_asks_first()
    {
        await using var window = await browser.Open(Shop, Role.Technician);
        await window.Go("/start/rear-panel");
        await window.Page.GetByLabel("Title").PressSequentiallyAsync("Kept");
        await window.Page.Context.SetOfflineAsync(true);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" }).ClickAsync();
        await window.Page.Locator("#stale").WaitForAsync(new() { State = WaitForSelectorState.Visible });
        await window.Page.Context.SetOfflineAsync(false);
        var asked = new TaskCompletionSource<string>();
        window.Page.Dialog += async (_, dialog) =>
        {
            asked.TrySetResult(dialog.Type);
            await dialog.DismissAsync();
        };

        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Repairs" }).ClickAsync();

        Assert.Equal("beforeunload", await asked.Task.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken));
        Assert.Equal("Kept", (await window.Page.GetByLabel("Title").InputValueAsync())[..4]);
    }

    [Fact]
    public async Task What_was_wrong_with_a_form_is_told_in_place_and_takes_the_focus()
    {
        await using var window = await browser.Open(Shop, Role.Technician);
        await window.Go("/start/rear-panel");
        await window.Page.GetByLabel("Length").First.FillAsync("of no use");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Save and plan" }).ClickAsync();

        await window.Alert.WaitForAsync();

        Assert.True(await window.Page.EvaluateAsync<bool>("() => document.activeElement.matches('.wrongs')"));
        await window.Alert.GetByRole(AriaRole.Link).First.ClickAsync();
        Assert.Equal("of no use", await window.Page.Locator("input:focus").InputValueAsync());
    }
}
