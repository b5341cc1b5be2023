using Seamwright.Program.Web.Access;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Units;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Shelf;

/// <summary>The shelf beside the present plan, and one that is full.</summary>
public class ShelfAndPlanTests(BusyShop busy)
{
    [Fact]
    public async Task Each_pack_names_every_vehicle_that_the_plan_takes_it_for()
    {
        using var technician = await busy.Shop.Signed(Role.Technician);
        var page = (await technician.Get("/shelf?show=wanted")).Page;
        // The plan as it is, not as the page has it.
        var uses = busy.Shop.Desk.State.Vehicles.SelectMany(vehicle => vehicle.Plan!.PackUses.Where(use => !use.Ordered).Select(use => (Pack: use.Pack.Value, vehicle.Title))).Distinct().ToList();

        Assert.NotEmpty(uses);
        Assert.Equal(uses.Select(use => use.Pack).Distinct().Order(), page.QuerySelectorAll("tbody th a").Select(link => link.GetAttribute("href")!.Split('/')[^1]).Order());
        foreach (var (pack, title) in uses)
        {
            var row = page.QuerySelector($"tbody a[href='/shelf/{pack}']")!.Closest("tr")!;
            Assert.Contains(row.QuerySelectorAll("td a"), link => link.TextContent == title);
        }
        Assert.DoesNotContain(busy.Shop.Desk.State.Shop!.Currency, page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_the_plan_takes_from_a_pack_is_told_in_sum()
    {
        using var technician = await busy.Shop.Signed(Role.Technician);
        var vehicle = busy.Shop.Desk.State.Vehicles.First(one => one.Plan!.PackUses.Any(use => !use.Ordered && use.Amount > Volume.Zero));
        string pack = vehicle.Plan!.PackUses.First(use => !use.Ordered && use.Amount > Volume.Zero).Pack.Value;
        double millilitres = vehicle.Plan.PackUses.Where(use => use.Pack.Value == pack).Sum(use => use.Amount.Millilitres);

        var page = await technician.Get($"/shelf/{pack}");

        string told = page.Page.QuerySelectorAll("section[aria-labelledby=for] li").Single(item => item.TextContent.Contains(vehicle.Title, StringComparison.Ordinal)).TextContent;
        Assert.StartsWith(millilitres < 10 ? $"{Math.Round(millilitres, 1)}" : $"{Math.Round(millilitres, MidpointRounding.AwayFromZero)} ml", told.Trim(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_shelf_of_two_thousand_shows_a_part_at_a_time_and_leaves_out_what_is_gone()
    {
        await using var shop = await WebShop.Open();
        var stop = TestContext.Current.CancellationToken;
        await shop.Store.AddPacks([.. Enumerable.Range(1, 2_000).Select(i => new PackDraft($"Q{i:0000}", "MS1", $"L-{i / 100}", null, $$"""{"id":"Q{{i:0000}}","material":"MS1","lot":"L-{{i / 100}}"}"""))], "keeper", stop);
        await shop.Store.PackIsGone("Q0001", 1, new(PackGone.UsedUp, "keeper", "here"), stop);
        using var painter = await shop.Signed(Role.Painter);

        var first = await painter.Get("/shelf");
        var last = await painter.Get("/shelf?part=40");
        var beyond = await painter.Get("/shelf?part=4000");

        Assert.Contains("1999", first.Page.QuerySelector("caption")!.TextContent.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(50, first.Page.QuerySelectorAll("tbody tr").Length);
        Assert.Equal(49, last.Page.QuerySelectorAll("tbody tr").Length);
        Assert.Equal(49, beyond.Page.QuerySelectorAll("tbody tr").Length);
        Assert.Equal(["/shelf/Q0002"], first.Page.QuerySelectorAll("tbody th a").Take(1).Select(link => link.GetAttribute("href")));
    }
}
