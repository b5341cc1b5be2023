using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Repairs;

/// <summary>A search for the shop's plan tells how far it is and can be ended by who may change repairs.</summary>
public class StopTests
{
    [Fact]
    public async Task Stopped_it_keeps_the_best_plan_and_is_planned_no_longer()
    {
        await using var shop = await WebShop.Open(isDemo: true);
        await shop.Known();
        using var manager = await shop.Signed(Role.Manager);
        Answer page;
        do
            page = await manager.Get("/");
        while (page.Page.QuerySelector("#stop-search") is null && shop.Desk.State.IsPlanning);
        // A fast machine may be done before anybody could reach for the button; then it must be gone.
        if (page.Page.QuerySelector("#stop-search") is { } button)
        {
            var inputs = button.Closest("form")!.QuerySelectorAll("input").Select(input => new KeyValuePair<string, string>(input.GetAttribute("name")!, input.GetAttribute("value")!));

            var stopped = await manager.Post("/stop-search", inputs);

            Assert.Equal(302, stopped.Code);
            Assert.Equal("/", stopped.To);
        }
        await shop.Known(isPlanned: true);
        Assert.All(shop.Desk.State.Vehicles, vehicle => Assert.NotNull(vehicle.Plan));
        Assert.Null((await manager.Get("/")).Page.QuerySelector("#stop-search"));
    }

    [Fact]
    public async Task It_does_not_lead_away_from_the_app()
    {
        await using var shop = await WebShop.Open();
        using var manager = await shop.Signed(Role.Manager);
        string token = (await manager.Get("/me")).Page.QuerySelector("input[name=__RequestVerificationToken]")!.GetAttribute("value")!;

        var answer = await manager.Post("/stop-search", [new("__RequestVerificationToken", token), new("back", "https://elsewhere.example/")]);

        Assert.Equal(302, answer.Code);
        Assert.StartsWith("/", answer.To, StringComparison.Ordinal);
        Assert.False(answer.To.StartsWith("//", StringComparison.Ordinal));
    }
}
