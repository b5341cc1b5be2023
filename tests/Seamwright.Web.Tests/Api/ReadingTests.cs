using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Routing;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Api;

/// <summary>What other programs read: the same as the pages show, nothing more.</summary>
public class ReadingTests(BusyShop busy)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private WebShop Shop => busy.Shop;

    [Fact]
    public async Task The_shop_is_told_as_its_first_page_shows_it()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var told = JsonNode.Parse((await caller.Get("/shop")).Text)!;

        var vehicles = told["vehicles"]!.AsArray();
        Assert.Equal(Shop.Desk.State.InOrder.Select(vehicle => vehicle.Id), vehicles.Select(vehicle => (string)vehicle!["id"]!));
        var planned = Shop.Desk.State.InOrder.First(vehicle => vehicle.Plan is not null);
        var first = vehicles.First(vehicle => (string)vehicle!["id"]! == planned.Id)!;
        Assert.Equal(planned.Plan!.ReadyForPaint.ToDateTimeOffset(), DateTimeOffset.Parse((string)first["ready_for_paint"]!, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(planned.Manner, (string)first["state"]!);
        Assert.Equal(planned.Plan.HeldUpBy.Length, first["held_up_by"]!.AsArray().Count);
        Assert.NotNull(told["air"]);
    }

    [Fact]
    public async Task Money_is_told_to_keys_that_see_it_and_to_no_others()
    {
        using var with = await Shop.Calling(Role.Owner, Scope.Read, Scope.ReadMoney);
        using var without = await Shop.Calling(Role.Owner, Scope.Read);
        string currency = Shop.Desk.State.Shop!.Currency;
        string plan = $"/repairs/{busy.AnyRepair}/plan";

        foreach (string path in (string[])["/shop", plan])
        {
            string told = (await without.Get(path)).Text;
            Assert.DoesNotContain("\"cost", told, StringComparison.Ordinal);
            Assert.DoesNotContain("\"price\"", told, StringComparison.Ordinal);
            Assert.DoesNotContain("\"lower_bound\"", told, StringComparison.Ordinal);
            Assert.DoesNotContain($" {currency}", told, StringComparison.Ordinal);
            Assert.Contains("\"cost", (await with.Get(path)).Text, StringComparison.Ordinal);
        }
        // All sums of a plan document by their schema; none may come to whoever sees no money.
        var numbers = Names(JsonNode.Parse((await with.Get(plan)).Text)).Except(Names(JsonNode.Parse((await without.Get(plan)).Text))).ToHashSet();
        Assert.Superset(new HashSet<string> { "labour", "total", "spent", "lower_bound", "cost_total" }, numbers);
    }

    [Fact]
    public async Task A_repair_is_fetched_again_only_where_it_has_changed()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var answer = await caller.Get($"/repairs/{busy.AnyRepair}");
        var again = await caller.Get($"/repairs/{busy.AnyRepair}", ("If-None-Match", answer.One("ETag")));
        var other = await caller.Get($"/repairs/{busy.AnyRepair}", ("If-None-Match", "\"4711\""));

        Assert.Equal((200, 304, 200), (answer.Code, again.Code, other.Code));
        Assert.Equal("", again.Text);
        var stored = (await Shop.Store.RepairDocument(busy.AnyRepair, Stop))!;
        Assert.Equal($"\"{stored.Version}\"", answer.One("ETag"));
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(stored.Json), JsonNode.Parse(answer.Text)!["document"]));
    }

    [Fact]
    public async Task Lists_come_in_parts_that_together_are_the_whole()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);
        var names = new List<string>();
        string? after = null;

        do
        {
            var part = JsonNode.Parse((await caller.Get($"/repairs?limit=2{(after is null ? "" : $"&after={after}")}")).Text)!;
            names.AddRange(part["items"]!.AsArray().Select(item => (string)item!["id"]!));
            after = (string?)part["next"];
        }
        while (after is not null);

        Assert.Equal((await Shop.Store.RepairPage(new RepairFilter(), 1, 100, Stop)).Items.Select(line => line.Id).Order(), names.Order());
        Assert.Equal(names.Count, names.Distinct().Count());
    }

    [Fact]
    public async Task The_work_log_goes_on_where_it_was_left()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var log = JsonNode.Parse((await caller.Get($"/repairs/{busy.AnyRepair}/work")).Text)!["items"]!.AsArray();
        var rest = JsonNode.Parse((await caller.Get($"/repairs/{busy.AnyRepair}/work?after={log[^1]!["place"]}")).Text)!;

        Assert.Contains(log, entry => (string)entry!["kind"]! == "look-recorded" && (string)entry["facts"]!["place"]! == "J1");
        Assert.Empty(rest["items"]!.AsArray());
        Assert.Null(rest["next"]);
    }

    [Theory]
    [InlineData("/repairs?limit=0", 400, "wrong-parameter")]
    [InlineData("/repairs?limit=101", 400, "wrong-parameter")]
    [InlineData("/repairs?limit=many", 400, "wrong-parameter")]
    [InlineData("/repairs?state=asleep", 400, "wrong-parameter")]
    [InlineData("/repairs?after=no-such-repair", 400, "wrong-parameter")]
    [InlineData("/work?after=-1", 400, "wrong-parameter")]
    [InlineData("/repairs/no-such-repair", 404, "not-there")]
    [InlineData("/repairs/no-such-repair/plan", 404, "not-there")]
    [InlineData("/repairs/no-such-repair/work", 404, "not-there")]
    [InlineData("/repairs/%3Cscript%3E", 404, "not-there")]
    [InlineData("/no/such/thing", 404, "not-there")]
    public async Task What_cannot_be_answered_is_refused_as_problem_details(string path, int code, string word)
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var answer = await caller.Get(path);

        Assert.Equal((code, $"/api#{word}"), (answer.Code, ProgramRuleTests.Type(answer)));
        var problem = JsonNode.Parse(answer.Text)!;
        Assert.Equal(code, (int)problem["status"]!);
        Assert.NotEqual("", (string)problem["detail"]!);
        if (word == "wrong-parameter")
            Assert.Equal(path[(path.IndexOf('?', StringComparison.Ordinal) + 1)..path.IndexOf('=', StringComparison.Ordinal)], (string)problem["errors"]![0]!["field"]!);
    }

    [Fact]
    public async Task Another_method_is_told_which_ones_there_are()
    {
        using var caller = await Shop.Calling(Role.Owner, Scope.Read);

        var answer = await caller.Send(HttpMethod.Delete, "/shop", null);

        Assert.Equal((405, "/api#not-this-way"), (answer.Code, ProgramRuleTests.Type(answer)));
        Assert.Contains("GET", answer.One("Allow"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_failure_of_the_store_is_told_without_its_inside()
    {
        await using var shop = await WebShop.Open();
        using var caller = await shop.Calling(Role.Owner, Scope.Read);
        await shop.TakeAway("WorkLog");

        var answer = await caller.Get("/work");

        Assert.Equal((500, "/api#broken"), (answer.Code, ProgramRuleTests.Type(answer)));
        Assert.DoesNotContain("WorkLog", answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(" at ", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_key_that_asks_without_end_is_slowed_down_and_no_other()
    {
        await using var shop = await WebShop.Open(services: services => Microsoft.Extensions.DependencyInjection.ServiceCollectionServiceExtensions.AddSingleton(services, new PaceLimits { AMinute = 5 }));
        using var wild = await shop.Calling(Role.Owner, Scope.Read);
        using var calm = await shop.Calling(Role.Owner, Scope.Read);

        for (int i = 0; i < 5; i++)
            Assert.Equal(200, (await wild.Get("/repairs")).Code);
        var slowed = await wild.Get("/repairs");

        Assert.Equal((429, "/api#too-many"), (slowed.Code, ProgramRuleTests.Type(slowed)));
        Assert.InRange(int.Parse(slowed.One("Retry-After"), System.Globalization.CultureInfo.InvariantCulture), 1, 60);
        Assert.Equal(200, (await calm.Get("/repairs")).Code);
    }

    private static IEnumerable<string> Names(JsonNode? node) => node switch
    {
        JsonObject map => map.SelectMany(entry => Names(entry.Value).Append(entry.Key)),
        JsonArray list => list.SelectMany(Names),
        _ => [],
    };
}
