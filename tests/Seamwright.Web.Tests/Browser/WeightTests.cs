using System.Collections.Concurrent;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Browser;

/// <summary>What comes over the wire (our own targets: 250 kB the first visit, of it 100 kB scripts; 30 kB a page afterwards).</summary>
public class WeightTests(BusyShop busy, Chromium browser)
{
    private const int First = 250_000;
    private const int Scripts = 100_000;

    [Fact]
    public async Task The_first_visit_is_light_and_asks_nobody_else()
    {
        await using var window = await browser.Open(busy.Shop, Screen.Phone);
        var wire = await window.Page.Context.NewCDPSessionAsync(window.Page);
        var kinds = new ConcurrentDictionary<string, string>();
        var sizes = new ConcurrentDictionary<string, double>();
        wire.Event("Network.responseReceived").OnEvent += (_, told) => kinds[told!.Value.GetProperty("requestId").GetString()!] = told.Value.GetProperty("type").GetString()!;
        wire.Event("Network.loadingFinished").OnEvent += (_, told) => sizes[told!.Value.GetProperty("requestId").GetString()!] = told.Value.GetProperty("encodedDataLength").GetDouble();
        await wire.SendAsync("Network.enable");

        await window.SignIn(Role.Painter);
        await window.Page.Locator(".stitch").First.WaitForAsync();

        // Heads and bodies as they came over the wire, in bytes.
        Assert.InRange(sizes.Values.Sum(), 1_000, First);
        Assert.InRange(sizes.Where(item => kinds.GetValueOrDefault(item.Key) == "Script").Sum(item => item.Value), 1, Scripts);
    }
}
