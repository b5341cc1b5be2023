using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Doors;

/// <summary>Who may open what: read from the route table, so that a page added tomorrow is held to it too (OWASP ASVS 5.0.0, 8.2.1, 8.2.2, 8.3.1).</summary>
public partial class EndpointRuleTests(BusyShop busy)
{
    private WebShop Shop => busy.Shop;

    [Fact]
    public void Every_endpoint_names_a_right_or_lets_anybody_in()
    {
        var without = Own.Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null)
            .Where(endpoint => endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>() is not { Count: > 0 } rules || rules.Any(rule => rule.Policy is null || !IsKnown(endpoint, rule.Policy)))
            .Select(endpoint => endpoint.RoutePattern.RawText);

        Assert.Empty(without);
    }

    [Fact]
    public void Anybody_may_open_only_doors_errors_signs_of_life_and_files()
    {
        string[] open = ["/begin", "/sign-in", "/sign-out", "/fault", "/not-here", "/drawing.css", "/health/live", "/health/ready"];

        var more = Shop.Endpoints.Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null)
            .Select(endpoint => "/" + endpoint.RoutePattern.RawText!.TrimStart('/')).Where(path => !open.Contains(path) && !StaticFile().IsMatch(path));

        Assert.Empty(more.Distinct());
    }

    [Fact]
    public async Task Without_signing_in_every_closed_page_leads_to_the_door_and_every_stream_answers_401()
    {
        using var anybody = Shop.Anybody();

        foreach (var endpoint in Closed)
        {
            var answer = await anybody.Get(PathOf(endpoint));
            bool isStream = PathOf(endpoint).StartsWith("/live", StringComparison.Ordinal);
            Assert.True(
                isStream ? answer.Code == 401 : answer.Code == 302 && new Uri(Shop.Address, answer.To).AbsolutePath == "/sign-in",
                $"{PathOf(endpoint)}: {answer.Code} {answer.To}");
        }
    }

    [Theory]
    [InlineData(Role.Owner)]
    [InlineData(Role.Manager)]
    [InlineData(Role.Estimator)]
    [InlineData(Role.Painter)]
    [InlineData(Role.Technician)]
    [InlineData(Role.Keeper)]
    public async Task A_role_opens_what_it_has_the_right_to_and_nothing_else(string role)
    {
        using var visitor = await Shop.Signed(role);

        foreach (var endpoint in Closed)
        {
            bool may = endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().All(rule => Right.Roles[rule.Policy!].Contains(role));
            foreach (var method in Methods(endpoint))
            {
                var answer = await visitor.Send(method, PathOf(endpoint), method == HttpMethod.Post ? new FormUrlEncodedContent([]) : null);
                // Sent without its form, a step that is allowed is still refused, as one that cannot be told from a foreign site's.
                int[] fine = !may ? [403] : method == HttpMethod.Post ? [400] : [200];
                Assert.True(fine.Contains(answer.Code), $"{role} {method} {PathOf(endpoint)}: {answer.Code}, not {string.Join(" or ", fine)}");
            }
        }
    }

    [Fact]
    public void Rights_are_no_wider_than_the_shop_agreed_on()
    {
        // Ours: the list in docs/web.md. Money is for three, accounts for one.
        Assert.Equal([Role.Owner, Role.Manager, Role.Estimator], Right.Roles[Right.SeeMoney]);
        Assert.Equal([Role.Owner], Right.Roles[Right.ManageAccounts]);
        Assert.Equal([Role.Owner, Role.Manager], Right.Roles[Right.ChangeShop]);
        Assert.Equal([Role.Owner, Role.Manager], Right.Roles[Right.LookAfter]);
        Assert.Equal([Role.Owner, Role.Manager], Right.Roles[Right.ManageKeys]);
        Assert.DoesNotContain(Role.Painter, Right.Roles[Right.ChangeRepairs]);
        Assert.DoesNotContain(Role.Keeper, Right.Roles[Right.ChangeRepairs]);
        Assert.DoesNotContain(Role.Technician, Right.Roles[Right.ChangeMaterials]);
    }

    [Theory]
    [InlineData(Role.Owner)]
    [InlineData(Role.Technician)]
    public async Task A_name_that_is_not_there_answers_404_on_every_page_that_takes_one(string role)
    {
        using var visitor = await Shop.Signed(role);
        var token = (await visitor.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");

        foreach (var endpoint in Closed.Where(endpoint => endpoint.RoutePattern.Parameters.Count > 0))
        {
            if (!endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().All(rule => Right.Roles[rule.Policy!].Contains(role)))
                continue;
            foreach (string strange in (string[])["no-such-thing", "%3Cscript%3E", "..%2F..%2Fshop"])
            {
                string path = Parameter().Replace("/" + endpoint.RoutePattern.RawText!.TrimStart('/'), strange);
                Assert.Equal((path, 404), (path, (await visitor.Get(path)).Code));
                // There is no such form on a page that is not there, and nothing to be sent to what is only looked at.
                int[] fine = Methods(endpoint).Contains(HttpMethod.Post) || RoutePaths.IsPage(endpoint) ? [400, 404] : [403, 405];
                Assert.Contains((await visitor.Post(path, [token, new("_handler", "change-repair"), new("version", "1")])).Code, fine);
            }
        }
    }

    [Fact]
    public async Task A_role_that_may_look_at_the_air_but_not_change_it_cannot_send_a_reading()
    {
        using var estimator = await Shop.Signed(Role.Estimator);
        var token = (await estimator.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");

        Assert.Null((await estimator.Get("/air")).FindForm("reading"));
        Assert.Equal(400, (await estimator.Post("/air", [token, new("_handler", "reading"), new("temperature", "18 °C"), new("humidity", "40 %")])).Code);
    }

    [Theory]
    [InlineData(Role.Painter)]
    [InlineData(Role.Technician)]
    [InlineData(Role.Keeper)]
    public async Task Roles_without_money_read_no_amount_anywhere(string role)
    {
        using var visitor = await Shop.Signed(role);
        using var estimator = await Shop.Signed(Role.Estimator);
        string repair = $"/repairs/{busy.AnyRepair}";
        string currency = Shop.Desk.State.Shop!.Currency;

        foreach (string path in (string[])["/", "/repairs", repair, $"{repair}?seam=J1", $"{repair}/what-if"])
            Assert.DoesNotContain(currency, (await visitor.Get(path)).Page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains(currency, (await estimator.Get(repair)).Page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Endpoints_that_the_framework_adds_are_closed_by_the_fall_back()
    {
        using var painter = await Shop.Signed(Role.Painter);

        foreach (string path in (string[])["/_framework/opaque-redirect", "/no/such/file.txt"])
            Assert.Contains((await painter.Get(path)).Code, (int[])[403, 404]);
    }

    // What ASP.NET Core adds by itself has no rule of ours.
    private IEnumerable<RouteEndpoint> Own => Shop.Endpoints.Where(RoutePaths.IsOwn);

    // Other programs come in by keys; ProgramRuleTests goes through their doors.
    private IEnumerable<RouteEndpoint> Closed => Own.Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null && !RoutePaths.IsForPrograms(endpoint));

    private static bool IsKnown(RouteEndpoint endpoint, string rule) =>
        RoutePaths.IsForPrograms(endpoint) ? Scope.Of(rule) is { } scope && (scope == Scope.Describe || Scope.Rights.ContainsKey(scope)) : Right.Roles.ContainsKey(rule);

    private static IEnumerable<HttpMethod> Methods(RouteEndpoint endpoint) =>
        (endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"]).Where(method => method is "GET" or "POST").Select(method => new HttpMethod(method));

    private string PathOf(RouteEndpoint endpoint) => RoutePaths.Of(endpoint, busy.AnyRepair);

    [GeneratedRegex(@"\.(css|js|svg|png|woff2|webmanifest)(\.(gz|br))?$")]
    private static partial Regex StaticFile();

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Parameter();
}
