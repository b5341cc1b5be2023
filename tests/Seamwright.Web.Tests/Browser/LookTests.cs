using Microsoft.AspNetCore.Routing;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>
/// Every page of the route table as it looks: light and dark, on a phone and on a desk, held to the rules that a program can check (WCAG 2.2 A and AA by
/// axe-core; 1.4.10 at 320 px; 2.5.8). What a program cannot check stays to be looked at: the pictures are kept under <c>artifacts/screens</c>.
/// </summary>
public class LookTests(BusyShop busy, Chromium browser)
{
    /// <summary>Pages that no route names by itself: another state of one.</summary>
    private static readonly (string Name, string Path)[] States =
    [
        ("repair-seam", "/repairs/{repair}?seam=J1"),
        ("what-if-answer", "/repairs/{repair}/what-if?heat=25+%C2%B0C"),
        ("repairs-none-found", "/repairs?q=nothing+like+it"),
        ("sheet-filled-in", "/sheet?id=MS1"),
        ("pack-filled-in", "/pack?id=B1"),
        ("shelf-none-found", "/shelf?q=nothing+like+it"),
        ("nothing-there", "/repairs/no-such-repair"),
    ];

    [Fact]
    public async Task Every_page_can_be_used_by_everybody_in_both_themes_on_phone_and_desk()
    {
        await using var window = await browser.Open(busy.Shop, Role.Owner);
        var wrong = new List<string>();

        foreach (var (name, path) in Pages())
            wrong.AddRange(await Look(window, name, path));

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public async Task The_doors_can_be_used_by_everybody_too()
    {
        await using var fresh = await WebShop.Fresh();
        await using var first = await browser.Open(fresh);
        await using var anybody = await browser.Open(busy.Shop);

        Assert.Empty(await Look(first, "begin", "/begin"));
        Assert.Empty(await Look(anybody, "sign-in", "/sign-in"));
        await anybody.Page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        Assert.Empty(await Look(anybody, "sign-in-empty", null));
    }

    [Fact]
    public async Task A_refused_form_can_be_used_by_everybody_too()
    {
        await using var window = await browser.Open(busy.Shop, Role.Owner);
        var wrong = new List<string>();

        foreach (var (name, path, field, button) in ((string, string, string, string)[])[("air-refused", "/air", "Temperature", "Keep this reading"), ("start-refused", "/start/quarter-panel", "Length", "Save and plan")])
        {
            await window.Go(path);
            // The browser itself would stop an empty field that must be filled in; a wrong one gets through to the server.
            await window.Page.EvaluateAsync("() => document.querySelectorAll('main form').forEach(form => form.noValidate = true)");
            await window.Page.GetByLabel(field).First.FillAsync("of no use");
            await window.Page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = button }).ClickAsync();
            await window.Alert.WaitForAsync();
            wrong.AddRange(await Look(window, name, null));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    [Fact]
    public async Task A_fault_that_is_put_into_a_page_is_found()
    {
        await using var window = await browser.Open(busy.Shop);
        await window.Go("/sign-in");
        await window.Page.EvaluateAsync("""
            () => {
                const row = document.createElement("div");
                row.innerHTML = "<input name='nameless'><p id='faint'>Nobody reads this.</p><div class='wide'>wide</div>";
                document.querySelector("main").append(row);
                document.getElementById("faint").style.color = "#eeeeee";
                row.querySelector(".wide").style.width = "2000px";
                row.querySelector("input").style.width = "20px";
            }
            """);

        var wrong = await Look(window, "with-faults", null);

        foreach (string fault in (string[])["phone-light: label,", "desk-light: color-contrast", "is 21 × 48", "wider than the screen"])
            Assert.Contains(wrong, line => line.Contains(fault, StringComparison.Ordinal));
    }

    private IEnumerable<(string Name, string Path)> Pages()
    {
        string repair = busy.AnyRepair;
        var routes = busy.Shop.Endpoints.Where(endpoint => RoutePaths.IsPage(endpoint)).Select(endpoint => (RoutePaths.Named(endpoint), RoutePaths.Of(endpoint, repair)));
        return routes.Where(page => page.Item2 is not ("/begin" or "/sign-in")).Concat(States.Select(state => (state.Name, state.Path.Replace("{repair}", repair, StringComparison.Ordinal)))).DistinctBy(page => page.Item2);
    }

    /// <summary>Looks at a page on every screen; a sentence for each thing that is wrong.</summary>
    private static async Task<List<string>> Look(Window window, string name, string? path)
    {
        var wrong = new List<string>();
        if (path is not null)
            await window.Go(path);
        await Axe.PutInto(window.Page);
        foreach (var screen in Screen.All)
        {
            await window.Show(screen);
            // Of the same size in the other theme only the colours differ.
            bool isSameSize = screen.Name is "phone-dark" or "desk-light";
            var (kept, broken) = await Axe.Run(window.Page, isSameSize ? Axe.Colours : Axe.Everything);
            Assert.True(kept > 0, $"{name} {screen.Name}: no rule was looked at.");
            wrong.AddRange(broken.Select(rule => $"{name} {screen.Name}: {rule}"));
            await window.Keep($"{name}-{screen.Name}");
            if (!isSameSize)
                wrong.AddRange((await TooSmall(window)).Select(target => $"{name} {screen.Name}: {target}"));
        }
        await window.Show(Screen.Phone with { Width = Screen.Narrowest });
        wrong.AddRange((await PushedSideways(window)).Select(element => $"{name} at {Screen.Narrowest} px: {element} is wider than the screen"));
        return wrong;
    }

    /// <summary>Everything that can be clicked must be 24 px or more each way; links in a line of text may be lower (WCAG 2.2, 2.5.8).</summary>
    private static async Task<string[]> TooSmall(Window window) => await window.Page.EvaluateAsync<string[]>("""
        () => [...document.querySelectorAll("button, input:not([type=hidden]), select, textarea, summary, .button, nav a")].flatMap(item => {
            const target = item.matches("[type=radio], [type=checkbox]") ? item.closest("label") ?? item : item;
            const box = target.getBoundingClientRect();
            return box.width > 0 && box.height > 0 && (box.width < 24 || box.height < 24) ? [`${item.outerHTML.slice(0, 100)} is ${Math.round(box.width)} × ${Math.round(box.height)}`] : [];
        })
        """);

    private static async Task<string[]> PushedSideways(Window window) => await window.Page.EvaluateAsync<string[]>("""
        () => document.documentElement.scrollWidth <= innerWidth ? [] : [...document.querySelectorAll("main *")]
            .filter(item => item.getBoundingClientRect().right > innerWidth + 1).slice(0, 3).map(item => item.outerHTML.slice(0, 120)).concat("the page")
        """);
}
