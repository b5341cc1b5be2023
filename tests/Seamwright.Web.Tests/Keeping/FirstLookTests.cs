using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Seamwright.Program.Web;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Desk;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Keeping;

/// <summary>The first moments after a start.</summary>
public class FirstLookTests
{
    [Fact]
    public async Task A_page_opened_right_after_the_start_already_knows_the_zone_and_units_of_the_shop()
    {
        await using var shop = await WebShop.Open();
        using var before = await shop.Signed(Role.Technician);
        await before.Get("/air");        // what is loaded once only is loaded: the page is quicker than the desk
        await using var again = WebHost.Build(shop.Store, "http://127.0.0.1:0", SystemClock.Instance);
        await again.StartAsync(TestContext.Current.CancellationToken);
        using var after = new Visitor(new Uri(again.Urls.Single()), "127.0.0.1");
        foreach (var (name, value) in before.Cookies)
            after.Cookies[name] = value;

        var page = await after.Get("/air");

        Assert.Equal(200, page.Code);
        Assert.NotNull(again.Services.GetRequiredService<ShopDesk>().State.Shop);
        await again.StopAsync(TestContext.Current.CancellationToken);
    }
}
