using System.Globalization;
using NodaTime;
using Seamwright.Program.Web.Access;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Shelf;

/// <summary>The keeper's day at the shelf: packs come, are corrected, and leave.</summary>
public class ShelfTests(ShelfTests.OwnShop own) : IClassFixture<ShelfTests.OwnShop>
{
    private static readonly CancellationToken Stop = TestContext.Current.CancellationToken;

    private WebShop Shop => own.Shop;

    [Fact]
    public async Task Three_alike_become_three_packs_in_one_step()
    {
        using var keeper = await Shop.Signed(Role.Keeper);

        var added = await keeper.Fill("/pack", "pack", ("id", "T"), ("material", "MS1"), ("count", "3"), ("lot", "L-7"), ("expires", "2099-12"));
        var page = await keeper.Get("/shelf?q=l-7");

        Assert.Equal((302, "/shelf"), (added.Code, new Uri(Shop.Address, added.To).AbsolutePath));
        Assert.Equal(["T-1", "T-2", "T-3"], page.Page.QuerySelectorAll("tbody th a").Select(link => link.GetAttribute("href")!.Split('/')[^1]));
        Assert.All(page.Page.QuerySelectorAll("tbody tr"), row => Assert.Contains("fresh", row.TextContent, StringComparison.Ordinal));
        Assert.All(page.Page.QuerySelectorAll("tbody tr"), row => Assert.Contains("31 Dec 2099", row.TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_name_that_a_pack_has_or_had_is_refused_at_its_field_and_the_rest_kept()
    {
        using var keeper = await Shop.Signed(Role.Keeper);
        await Put("N1");
        await Put("N2");
        await Shop.Store.PackIsGone("N2", 1, new(PackGone.UsedUp, "keeper", "here"), Stop);

        foreach (var (name, told) in ((string, string)[])[("N1", "already"), ("N2", "was a pack")])
        {
            var refused = await keeper.Fill("/pack", "pack", ("id", name), ("material", "MS1"), ("lot", "L-9"));
            Assert.Equal((422, "L-9"), (refused.Code, refused.ValueOf("lot")));
            Assert.Equal(["id"], refused.Marked);
            Assert.Contains(refused.Wrongs, line => line.Contains(told, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("left", "900 ml")]
    [InlineData("left", "much")]
    [InlineData("opened", "2099-01-01")]
    [InlineData("expires", "soon")]
    [InlineData("nozzles", "-1")]
    public async Task What_cannot_be_is_refused_at_its_field(string field, string typed)
    {
        using var keeper = await Shop.Signed(Role.Keeper);

        var refused = await keeper.Fill("/pack", "pack", ("id", "W1"), ("material", "MS1"), (field, typed));

        Assert.Equal((422, typed), (refused.Code, refused.ValueOf(field)));
        Assert.Equal([field], refused.Marked);
        Assert.Null(await Shop.Store.Pack("W1", Stop));
    }

    [Fact]
    public async Task Of_two_who_correct_one_pack_the_second_is_told_and_overwrites_nothing()
    {
        using var one = await Shop.Signed(Role.Keeper);
        using var other = await Shop.Signed(Role.Manager);
        await Put("E1");
        var seenByOne = (await one.Get("/pack?id=E1")).Form("pack").With(("left", "100 ml"));
        var seenByOther = (await other.Get("/pack?id=E1")).Form("pack").With(("left", "200 ml"));

        Assert.Equal(302, (await one.Post("/pack?id=E1", seenByOne)).Code);
        var told = await other.Post("/pack?id=E1", seenByOther);

        Assert.Equal((422, "200 ml"), (told.Code, told.ValueOf("left")));
        Assert.Contains(told.Wrongs, line => line.Contains(Role.Keeper, StringComparison.Ordinal));
        Assert.Equal("100 ml", (await other.Get("/pack?id=E1")).ValueOf("left"));
    }

    [Fact]
    public async Task Saving_a_pack_as_it_stands_changes_nothing_in_what_is_kept()
    {
        using var keeper = await Shop.Signed(Role.Keeper);
        await Put("S1", ",\"left\":\"120 ml\",\"partner_missing\":false,\"opened\":\"2026-01-02\"");
        string before = await Content.Of(Shop.Store);

        Assert.Equal(302, (await keeper.Fill("/pack?id=S1", "pack")).Code);
        Assert.Equal(302, (await keeper.Fill("/nozzles", "nozzles")).Code);

        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Fact]
    public async Task A_pack_that_is_gone_leaves_shelf_and_plan_and_can_be_taken_back()
    {
        using var keeper = await Shop.Signed(Role.Keeper);
        await Put("G1");
        var choice = (await keeper.Get("/shelf/G1")).Form("gone");

        var unsaid = await keeper.Post("/shelf/G1", choice.With());
        var gone = await keeper.Post("/shelf/G1", choice.With(("why", nameof(PackGone.ThrownAway))));
        var twice = await keeper.Post("/shelf/G1", choice.With(("why", nameof(PackGone.UsedUp))));

        Assert.Equal(422, unsaid.Code);
        Assert.Equal(["why"], unsaid.Marked);
        Assert.Equal(302, gone.Code);
        Assert.NotEqual(302, twice.Code);
        Assert.DoesNotContain("G1", (await keeper.Get("/shelf?q=G1")).Page.QuerySelector("main table")?.TextContent ?? "", StringComparison.Ordinal);
        Assert.DoesNotContain(await Shop.Store.PacksInTheShop(Stop), pack => pack.Document.Id == "G1");
        Assert.Equal(404, (await keeper.Get("/pack?id=G1")).Code);
        Assert.Contains("left the shop", (await keeper.Get("/shelf/G1")).Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);

        Assert.Equal(302, (await keeper.Fill("/shelf/G1", "back")).Code);
        Assert.Contains(await Shop.Store.PacksInTheShop(Stop), pack => pack.Document.Id == "G1");
    }

    [Fact]
    public async Task A_pack_that_somebody_changed_meanwhile_is_not_sent_away_unseen()
    {
        using var keeper = await Shop.Signed(Role.Keeper);
        await Put("M1");
        var seen = (await keeper.Get("/shelf/M1")).Form("gone").With(("why", nameof(PackGone.UsedUp)));
        await Shop.Store.SavePack(new("M1", "MS1", "L-new", null, """{"id":"M1","material":"MS1","lot":"L-new"}"""), 1, Role.Manager, Stop);

        var told = await keeper.Post("/shelf/M1", seen);

        Assert.Equal(422, told.Code);
        Assert.Contains(told.Wrongs, line => line.Contains(Role.Manager, StringComparison.Ordinal));
        Assert.Contains("L-new", told.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Null((await Shop.Store.Pack("M1", Stop))!.Gone);
    }

    [Fact]
    public async Task Who_may_only_look_finds_no_button_and_cannot_send_a_pack_away()
    {
        using var painter = await Shop.Signed(Role.Painter);
        await Put("L1");
        var token = (await painter.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");

        var page = await painter.Get("/shelf/L1");
        var sent = await painter.Post("/shelf/L1", [token, new("_handler", "gone"), new("version", "1"), new("why", nameof(PackGone.UsedUp))]);

        Assert.Equal(200, page.Code);
        Assert.Empty(page.Page.QuerySelectorAll("main form"));
        Assert.Null((await painter.Get("/shelf")).Page.QuerySelector("main a[href='/pack']"));
        Assert.Equal(400, sent.Code);
        Assert.Null((await Shop.Store.Pack("L1", Stop))!.Gone);
    }

    [Fact]
    public async Task A_pack_that_cannot_be_used_stands_first_with_its_reason_in_words()
    {
        using var painter = await Shop.Signed(Role.Painter);
        await Put("X1", ",\"expires\":\"2020-02\"");

        var barred = await painter.Get("/shelf?show=barred&q=X1");
        var first = (await painter.Get("/shelf")).Page.QuerySelector("tbody tr")!;

        Assert.Contains("expired", barred.Page.QuerySelector("tbody .mark")!.TextContent, StringComparison.Ordinal);
        Assert.NotNull(barred.Page.QuerySelector("tbody .mark svg[aria-hidden=true]"));
        Assert.Contains("29 Feb 2020", barred.Page.QuerySelector("tbody tr")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("X1", first.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nozzles_are_counted_by_the_ratio_they_fit()
    {
        using var keeper = await Shop.Signed(Role.Keeper);
        int before = (await keeper.Get("/nozzles")).Form("nozzles").Names.Count(name => name.EndsWith("count", StringComparison.Ordinal));
        string next = string.Create(CultureInfo.InvariantCulture, $"nozzles[{before - 1}]");

        Assert.Equal(302, (await keeper.Fill("/nozzles", "nozzles", ($"{next}.count", "6"), ($"{next}.fits", "2:1"))).Code);
        Assert.Contains("6 for 2:1", (await keeper.Get("/shelf")).Page.QuerySelector("section[aria-labelledby=nozzles]")!.TextContent, StringComparison.Ordinal);
        var refused = await keeper.Fill("/nozzles", "nozzles", ($"{next}.fits", "two to one"));
        Assert.Equal(422, refused.Code);
        Assert.Equal([$"{next}.fits"], refused.Marked);
    }

    /// <summary>A shop of these tests' own, without repairs, because they change its shelf.</summary>
    public sealed class OwnShop : IAsyncLifetime
    {
        internal WebShop Shop { get; private set; } = null!;

        /// <inheritdoc/>
        public async ValueTask InitializeAsync() => Shop = await WebShop.Open();

        /// <inheritdoc/>
        public ValueTask DisposeAsync() => Shop.DisposeAsync();
    }

    private Task Put(string id, string more = "") => Put(Shop, id, more);

    internal static async Task Put(WebShop shop, string id, string more = "") =>
        Assert.IsType<PacksAdded.All>(await shop.Store.AddPacks([new(id, "MS1", "", null, $$"""{"id":"{{id}}","material":"MS1"{{more}}}""")], Role.Keeper, Stop));
}
