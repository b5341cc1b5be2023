using Microsoft.Playwright;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>Everything by keyboard alone, in order, with a focus that is seen (WCAG 2.2, 2.1.1, 2.1.2, 2.4.3, 2.4.7, 2.4.11).</summary>
public class KeyboardTests(FormShop given, Chromium browser) : IClassFixture<FormShop>
{
    private const int MostSteps = 400;

    [Fact]
    public async Task Somebody_signs_in_and_starts_a_repair_without_a_pointer()
    {
        await using var window = await browser.Open(given.Shop);
        var keys = window.Page.Keyboard;
        await window.Go("/sign-in");

        await TabTo(window, "[name=name]");
        await keys.TypeAsync(Role.Technician);
        await TabTo(window, "[name=password]");
        await keys.TypeAsync(WebShop.Password);
        await keys.PressAsync("Enter");
        await window.Page.GetByRole(AriaRole.Heading, new() { Name = "Ready for paint" }).WaitForAsync();

        await TabTo(window, "a[href='/repairs']");
        await keys.PressAsync("Enter");
        await window.Page.WaitForURLAsync("**/repairs");
        await TabTo(window, "a[href='/start']");
        await keys.PressAsync("Enter");
        await window.Page.WaitForURLAsync("**/start");
        await TabTo(window, "a[href='/start/rear-panel']");
        await keys.PressAsync("Enter");
        await window.Page.WaitForURLAsync("**/start/rear-panel");
        await TabTo(window, "[name=name]");
        await keys.PressAsync("Control+A");
        await keys.TypeAsync("By keys alone");
        await keys.PressAsync("Enter");

        await window.Page.GetByRole(AriaRole.Heading, new() { Name = "By keys alone" }).WaitForAsync();
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/repairs/{repair}")]
    [InlineData("/repairs/{repair}/change")]
    [InlineData("/shop")]
    public async Task The_focus_goes_through_a_whole_page_and_is_always_seen(string path)
    {
        await using var window = await browser.Open(given.Shop, Role.Owner);
        await window.Go(path.Replace("{repair}", given.Repair, StringComparison.Ordinal));
        var hidden = new List<string>();
        string first = "";
        bool cameRound = false;

        for (int step = 0; step < MostSteps && !cameRound; step++)
        {
            await window.Page.Keyboard.PressAsync("Tab");
            var focus = await window.Page.EvaluateAsync<string?[]>(Focus);
            if (focus[0] is null || (step > 0 && focus[0] == first))
                cameRound = true;
            else if (focus[1] is { } why)
                hidden.Add($"{focus[0]}: {why}");
            if (step == 0)
                first = focus[0]!;
        }

        Assert.True(cameRound, "The focus does not come round: it is caught somewhere.");
        Assert.True(hidden.Count == 0, string.Join("\n", hidden.Take(5)));
    }

    /// <summary>Where the focus is, and why it is not seen; null and null where it has left the page.</summary>
    private const string Focus = """
        () => {
            const item = document.activeElement;
            if (!item || item === document.body)
                return [null, null];
            const all = [...document.querySelectorAll("*")];
            const where = `${all.indexOf(item)} ${item.outerHTML.slice(0, 90)}`;
            const box = item.getBoundingClientRect();
            if (box.width === 0 || box.bottom <= 0 || box.top >= innerHeight || box.right <= 0 || box.left >= innerWidth)
                return [where, "out of sight"];
            const clamp = (value, most) => Math.min(Math.max(value, 1), most - 1);
            const x = clamp(box.left + box.width / 2, innerWidth);
            const spots = [box.top + 2, box.top + box.height / 2, box.bottom - 2].map(y => document.elementFromPoint(x, clamp(y, innerHeight)));
            if (!spots.some(top => top && (item.contains(top) || top.contains(item) || top.closest("label")?.contains(item))))
                return [where, "covered"];
            const style = getComputedStyle(item);
            if ((style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) && !item.matches("main"))
                return [where, "without an outline"];
            return [where, null];
        }
        """;

    private static async Task TabTo(Window window, string selector)
    {
        for (int step = 0; step < MostSteps; step++)
        {
            await window.Page.Keyboard.PressAsync("Tab");
            if (await window.Page.EvaluateAsync<bool>("selector => document.activeElement.matches(selector)", selector))
                return;
        }
        Assert.Fail($"{selector} is not reached by Tab on {window.Page.Url}.");
    }
}
