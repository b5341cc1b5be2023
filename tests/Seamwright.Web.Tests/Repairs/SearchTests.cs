using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Repairs;

/// <summary>Long searches: what they found is shown, nobody waits for them, and they can be ended.</summary>
public class SearchTests(BusyShop given)
{
    private WebShop Shop => given.Shop;

    [Fact]
    public async Task What_being_ready_earlier_costs_is_shown_with_every_way()
    {
        using var estimator = await Shop.Signed(Role.Estimator);
        string page = $"/repairs/{given.AnyRepair}?earlier=yes";
        var curve = await Shop.Desk.CurveFor(Shop.Desk.State.Vehicle(given.AnyRepair)!.Input!);

        var shown = (await estimator.Get(page)).Page.QuerySelector("#earlier")!;

        Assert.NotEmpty(curve.Points);
        Assert.Equal(curve.Points.Length, shown.QuerySelectorAll("tbody tr").Length);
        Assert.Equal(curve.Points.Length > 1, shown.QuerySelector("svg") is not null);
        decimal[] spent = [.. curve.Points.Select(point => point.Plan.Cost.Spent.Amount)];
        Assert.Equal(spent.Order(), spent);
    }

    [Fact]
    public async Task Before_it_is_asked_for_nothing_is_worked_out()
    {
        using var estimator = await Shop.Signed(Role.Estimator);

        var shown = (await estimator.Get($"/repairs/{given.AnyRepair}")).Page.QuerySelector("#earlier")!;

        Assert.Null(shown.QuerySelector("table"));
        Assert.NotNull(shown.QuerySelector("a[href$='?earlier=yes#earlier']"));
    }

    [Fact]
    public async Task Who_sees_no_money_sees_no_prices_of_being_earlier()
    {
        using var technician = await Shop.Signed(Role.Technician);

        Assert.Null((await technician.Get($"/repairs/{given.AnyRepair}?earlier=yes")).Page.QuerySelector("#earlier"));
    }
}
