using Seamwright.Program.Web.Access;
using Seamwright.Storage;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Repairs;

/// <summary>A repair is handed over, put away and opened again on top of what was seen.</summary>
public sealed class RepairStateTests : IAsyncLifetime
{
    private WebShop _shop = null!;
    private string _repair = "";

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        _shop = await WebShop.Open(isDemo: true);
        await _shop.Known();
        _repair = _shop.Desk.State.Vehicles[0].Id;
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Handed_over_it_leaves_the_plan_and_opened_again_it_comes_back()
    {
        using var manager = await _shop.Signed(Role.Manager);

        var moved = await manager.Fill(Page, "move-repair", ("state", nameof(RepairState.Delivered)));

        Assert.Equal(302, moved.Code);
        Assert.Equal(RepairState.Delivered, (await Line()).State);
        Assert.Contains("was handed over", (await manager.Get(Page)).Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        await Until(() => _shop.Desk.State.Vehicle(_repair) is null);

        await manager.Fill(Page, "move-repair", ("state", nameof(RepairState.Open)));

        await Until(() => _shop.Desk.State.Vehicle(_repair) is not null);
        Assert.Equal(RepairState.Open, (await Line()).State);
    }

    [Fact]
    public async Task What_somebody_else_has_changed_in_the_meantime_is_looked_at_again_first()
    {
        using var one = await _shop.Signed(Role.Manager);
        using var other = await _shop.Signed(Role.Owner);
        var seen = (await one.Get(Page)).Form("move-repair");
        await other.Fill(Page, "move-repair", ("state", nameof(RepairState.Delivered)));

        var refused = await one.Post(Page, seen.With(("state", nameof(RepairState.Closed))));

        Assert.Equal(422, refused.Code);
        Assert.Contains("owner has changed this repair", Assert.Single(refused.Wrongs), StringComparison.Ordinal);
        Assert.Equal(RepairState.Delivered, (await Line()).State);
    }

    [Theory]
    [InlineData("lost")]
    [InlineData("7")]
    [InlineData("")]
    public async Task A_state_that_does_not_exist_is_refused(string state)
    {
        using var manager = await _shop.Signed(Role.Manager);

        var refused = await manager.Fill(Page, "move-repair", ("state", state));

        Assert.Equal(422, refused.Code);
        Assert.Single(refused.Wrongs);
        Assert.Equal(RepairState.Open, (await Line()).State);
    }

    [Fact]
    public async Task A_painter_is_not_offered_to_move_it()
    {
        using var painter = await _shop.Signed(Role.Painter);

        Assert.Null((await painter.Get(Page)).FindForm("move-repair"));
    }

    private string Page => $"/repairs/{_repair}";

    private async Task<RepairLine> Line() => (await _shop.Store.RepairLineOf(_repair, CancellationToken.None))!;

    private static async Task Until(Func<bool> holds)
    {
        for (int i = 0; i < 600 && !holds(); i++)
            await Task.Delay(50);
        Assert.True(holds());
    }
}
