using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Programs;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Api;

/// <summary>Which key opens what, read from the route table (OWASP ASVS 5.0.0, 8.2.1, 8.2.2; API Security Top 10 2023, API1 and API5).</summary>
public class ProgramRuleTests(BusyShop busy)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private WebShop Shop => busy.Shop;

    [Theory]
    [InlineData(Scope.Read)]
    [InlineData(Scope.ReadMoney)]
    [InlineData(Scope.WriteRepairs)]
    [InlineData(Scope.WriteShelf)]
    [InlineData(Scope.WriteAir)]
    [InlineData(Scope.WriteShop)]
    public async Task A_scope_opens_what_asks_for_it_and_nothing_else(string scope)
    {
        using var caller = await Shop.Calling(Role.Owner, scope);

        foreach (var (door, path) in Doors())
        {
            // Sent without a body, version or name of its own, a change that the key opens is refused for that.
            int[] fine = door.Scope != scope ? [403] : door.Method == "GET" ? [200] : [400, 404, 415, 422, 428];
            var answer = await caller.Send(new(door.Method), path, null);
            Assert.True(fine.Contains(answer.Code), $"{scope} {door.Method} {path}: {answer.Code}, not {string.Join(" or ", fine)}");
            if (answer.Code == 403)
                Assert.Equal((door.Path, $"/api#not-allowed"), (door.Path, Type(answer)));
        }
    }

    [Theory]
    [InlineData(Role.Manager)]
    [InlineData(Role.Estimator)]
    [InlineData(Role.Painter)]
    [InlineData(Role.Technician)]
    [InlineData(Role.Keeper)]
    public async Task A_key_does_no_more_than_whoever_made_it_may_do_now(string role)
    {
        using var caller = await Shop.Calling(role, [.. Scope.All]);

        foreach (var (door, path) in Doors())
        {
            bool may = Right.Roles[Scope.Rights[door.Scope]].Contains(role);
            Assert.Equal((door.Method, path, !may), (door.Method, path, (await caller.Send(new(door.Method), path, null)).Code == 403));
        }
    }

    [Fact]
    public async Task Without_a_key_with_a_wrong_one_or_with_a_sign_in_only_nothing_opens()
    {
        using var owner = await Shop.Signed(Role.Owner);
        using var anybody = Shop.Anybody();

        foreach (var (door, path) in Doors())
        {
            foreach (var visitor in new[] { owner, anybody })
            {
                var answer = await visitor.Send(new(door.Method), "/api/v1" + path, null);
                Assert.Equal((door.Method, path, 401, "/api#no-key"), (door.Method, path, answer.Code, Type(answer)));
                Assert.StartsWith("Bearer", answer.One("WWW-Authenticate"), StringComparison.Ordinal);
                Assert.Empty(answer.All("Set-Cookie"));
            }
        }
    }

    [Fact]
    public async Task A_key_that_was_taken_back_or_has_ended_opens_nothing_any_more()
    {
        await using var shop = await WebShop.Open();
        using var caller = await shop.Calling(Role.Owner, Scope.Read);
        using var other = await shop.Calling(Role.Technician, Scope.Read);

        Assert.Equal(200, (await caller.Get("/shop")).Code);
        Assert.True(await shop.Store.TakeBackProgramKey(caller.Id, Stop));
        Assert.Equal(401, (await caller.Get("/shop")).Code);

        var maker = await shop.AccountOf(Role.Technician);
        maker.Closed = true;
        await shop.Store.SaveAccount(maker, Stop);
        Assert.Equal(401, (await other.Get("/shop")).Code);
    }

    [Fact]
    public async Task Wrong_keys_from_one_address_are_not_tried_for_ever()
    {
        using var guesser = Shop.Anybody();
        var codes = new List<int>();

        for (int i = 0; i < 22; i++)
            codes.Add((await guesser.Send(HttpMethod.Get, "/api/v1/shop", null, ("Authorization", $"Bearer {KeyText.New()}"))).Code);

        Assert.Equal(Enumerable.Repeat(401, 19), codes.Take(19));
        Assert.Equal(429, codes[^1]);
    }

    [Fact]
    public async Task In_the_store_lies_no_key_but_its_hash()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var kept = (await Shop.Store.ProgramKeys(Stop)).Single(key => key.Id == caller.Id);

        Assert.DoesNotContain(caller.Key, kept.ToString(), StringComparison.Ordinal);
        Assert.Equal(64, kept.Hash.Length);
        Assert.StartsWith(kept.Beginning, caller.Key, StringComparison.Ordinal);
        Assert.True(kept.Beginning.Length < caller.Key.Length - 30);
    }

    internal static string? Type(Answer answer) => answer.One("Content-Type") == "application/problem+json" ? (string?)JsonNode.Parse(answer.Text)!["type"] : null;

    private IEnumerable<(ApiDoor Door, string Path)> Doors()
    {
        var doors = Shop.Endpoints.Where(RoutePaths.IsForPrograms).ToList();
        var known = ApiDoors.In(new DefaultEndpointDataSource(doors)).ToList();
        // The description is for anybody with a key, and for people; all others ask for a scope.
        Assert.Equal(doors.Count(door => door.RoutePattern.RawText != ApiHost.Description), known.Count);
        return known.Select(door => (door, RoutePaths.Of(doors.First(one => one.RoutePattern.RawText == door.Path), busy.AnyRepair)["/api/v1".Length..]));
    }
}
