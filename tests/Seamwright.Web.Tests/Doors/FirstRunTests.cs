using Microsoft.AspNetCore.Authorization;
using Microsoft.Extensions.DependencyInjection;
using Seamwright.Program.Web.Access;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Doors;

/// <summary>The first run: nobody has an account, and whoever can read the console becomes the owner (OWASP ASVS 5.0.0, 6.3.2).</summary>
public class FirstRunTests
{
    private static (string Name, string? Value)[] Entries(string code, string name = "Ada", string password = WebShop.Password) =>
        [("start", "own"), ("code", code), ("name", name), ("password", password)];

    [Fact]
    public async Task A_fresh_shop_has_no_account_and_every_page_leads_to_the_first_one()
    {
        await using var shop = await WebShop.Fresh();
        using var anybody = shop.Anybody();

        Assert.Empty(await shop.Accounts());
        foreach (string path in (string[])["/", "/repairs", "/repairs/x", "/shop", "/accounts", "/sign-in", "/me"])
            Assert.Equal((path, 302, "/begin"), (path, (await anybody.Get(path)).Code, new Uri(shop.Address, (await anybody.Get(path)).To).AbsolutePath));
        Assert.Equal(200, (await anybody.Get("/begin")).Code);
        Assert.Equal(200, (await anybody.Get("/app.css")).Code);
        Assert.Equal(401, (await anybody.Get("/live/number")).Code);
    }

    [Fact]
    public async Task The_code_of_the_console_makes_the_owner_signs_in_and_closes_the_page_for_good()
    {
        await using var shop = await WebShop.Fresh();
        using var anybody = shop.Anybody();

        var refused = await anybody.Fill("/begin", "begin", Entries("AAAA-BBBB-CCCC"));
        Assert.Equal(422, refused.Code);
        Assert.Contains("code", refused.Marked);
        Assert.Equal("Ada", refused.ValueOf("name"));
        Assert.Empty(await shop.Accounts());

        var begun = await anybody.Fill("/begin", "begin", Entries(Code(shop).ToLowerInvariant().Replace('-', ' ')));
        Assert.Equal((302, "/"), (begun.Code, new Uri(shop.Address, begun.To).AbsolutePath));
        Assert.Equal(200, (await anybody.Get("/accounts")).Code);
        Assert.Equal([Role.Owner], Assert.Single(await shop.Accounts()).Roles);
        Assert.Equal(404, (await anybody.Get("/begin")).Code);
        Assert.Equal(404, (await anybody.Post("/begin", [new("_handler", "begin")])).Code);
    }

    [Fact]
    public async Task An_own_shop_begins_without_the_repairs_of_the_demonstration()
    {
        await using var shop = await WebShop.Fresh();
        using var anybody = shop.Anybody();

        await anybody.Fill("/begin", "begin", Entries(Code(shop)));

        Assert.Equal(0, (await shop.Store.RepairPage(new(), 1, 10, TestContext.Current.CancellationToken)).Total);
        Assert.NotEmpty(await shop.Store.Sheets(TestContext.Current.CancellationToken));
        Assert.Contains("No open repair", (await anybody.Get("/")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_two_who_begin_at_once_one_becomes_the_owner()
    {
        await using var shop = await WebShop.Fresh();
        var visitors = Enumerable.Range(0, 4).Select(_ => shop.Anybody()).ToList();
        var forms = new List<List<KeyValuePair<string, string>>>();
        foreach (var visitor in visitors)
            forms.Add((await visitor.Get("/begin")).Form("begin").With(Entries(Code(shop), $"Ada {forms.Count}")));

        var answers = await Task.WhenAll(visitors.Select((visitor, i) => visitor.Post("/begin", forms[i])));

        Assert.Single(await shop.Accounts());
        Assert.Single(answers, answer => answer.Code == 302 && new Uri(shop.Address, answer.To).AbsolutePath == "/");
        visitors.ForEach(visitor => visitor.Dispose());
    }

    [Fact]
    public async Task After_twenty_wrong_codes_the_right_one_is_refused_too()
    {
        await using var shop = await WebShop.Fresh();
        for (int i = 0; i < 20; i++)
        {
            using var guesser = shop.Anybody();
            Assert.Equal(422, (await guesser.Fill("/begin", "begin", Entries("2222-3333-4444"))).Code);
        }

        using var anybody = shop.Anybody();
        Assert.Equal(422, (await anybody.Fill("/begin", "begin", Entries(Code(shop)))).Code);
        Assert.Empty(await shop.Accounts());
    }

    [Theory]
    [InlineData("", WebShop.Password, "name")]
    [InlineData("Ada", "short", "password")]
    [InlineData("Ada", "password1234", "password")]
    [InlineData("Ada", "", "password")]
    public async Task A_first_owner_without_name_or_good_password_is_told_so_and_not_let_in(string name, string password, string field)
    {
        await using var shop = await WebShop.Fresh();
        using var anybody = shop.Anybody();

        var refused = await anybody.Fill("/begin", "begin", Entries(Code(shop), name, password));

        Assert.Equal(422, refused.Code);
        Assert.Equal([field], refused.Marked);
        Assert.Equal(Code(shop), refused.ValueOf("code"));
        Assert.Equal("own", refused.Page.QuerySelector("input[name=start][checked]")?.GetAttribute("value"));
        Assert.Empty(await shop.Accounts());
    }

    private static string Code(WebShop shop) => shop.App.Services.GetRequiredService<SetupCode>().Shown;
}
