using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>
/// Screens that are used at the car and at the shelf, in gloves: whatever can be pressed is 48 px or more each way (our own target; WCAG 2.2, 2.5.8
/// asks for 24), on a phone as on a desk.
/// </summary>
public class GloveTests(BusyShop busy, Chromium browser)
{
    [Theory]
    [InlineData("/shelf")]
    [InlineData("/shelf?show=wanted")]
    [InlineData("/shelf/D1")]
    [InlineData("/pack")]
    [InlineData("/nozzles")]
    [InlineData("/repairs/{repair}/look?seam=J1")]
    public async Task Whatever_can_be_pressed_is_large_enough_for_gloves(string path)
    {
        await using var window = await browser.Open(busy.Shop, Role.Owner);
        path = path.Replace("{repair}", busy.AnyRepair, StringComparison.Ordinal);

        foreach (var screen in (Screen[])[Screen.Phone, Screen.Desk])
        {
            await window.Show(screen);
            await window.Go(path);
            string[] small = await window.Page.EvaluateAsync<string[]>("""
                () => [...document.querySelectorAll("main :is(a, button, input:not([type=hidden]), select, textarea, summary)")].flatMap(item => {
                    const target = item.matches("[type=radio], [type=checkbox]") ? item.closest("label") ?? item : item;
                    const box = target.getBoundingClientRect();
                    return box.width > 0 && (box.width < 48 || box.height < 48) ? [`${item.outerHTML.slice(0, 90)} is ${Math.round(box.width)} × ${Math.round(box.height)}`] : [];
                })
                """);
            Assert.True(small.Length == 0, $"{path} {screen.Name}: {string.Join('\n', small)}");
        }
    }
}
