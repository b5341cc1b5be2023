using Microsoft.AspNetCore.Authorization;
using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Doors;

/// <summary>What browsers are told with every answer (OWASP ASVS 5.0.0, 3.3, 3.4, 3.5, 14.3.2).</summary>
public class HeaderTests(BusyShop busy)
{
    private WebShop Shop => busy.Shop;

    [Fact]
    public async Task Every_answer_forbids_foreign_scripts_frames_and_guessing_of_types()
    {
        using var owner = await Shop.Signed(Role.Owner);
        using var anybody = Shop.Anybody();
        string[] more = ["/no/such/page", "/repairs/no-such-repair", "/app.css", "/live.js", "/mark.svg", "/repairs?part=x"];

        foreach (string path in Shop.Endpoints.Where(RoutePaths.IsOwn).Select(endpoint => RoutePaths.Of(endpoint, busy.AnyRepair)).Concat(more).Distinct())
        {
            foreach (var visitor in new[] { owner, anybody })
            {
                var answer = await visitor.Get(path);
                string policy = answer.One("Content-Security-Policy");
                Assert.True(policy.Contains("default-src 'none'", StringComparison.Ordinal), $"{path} ({answer.Code}) has no policy.");
                Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
                Assert.Contains("object-src 'none'", policy, StringComparison.Ordinal);
                Assert.Contains("base-uri 'none'", policy, StringComparison.Ordinal);
                Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
                Assert.Equal("nosniff", answer.One("X-Content-Type-Options"));
                Assert.Equal("same-origin", answer.One("Referrer-Policy"));
                Assert.Equal("same-origin", answer.One("Cross-Origin-Opener-Policy"));
                Assert.Equal("", answer.One("Server"));
            }
        }
    }

    [Fact]
    public async Task Pages_of_people_who_signed_in_are_kept_by_no_cache()
    {
        using var owner = await Shop.Signed(Role.Owner);

        foreach (var endpoint in Shop.Endpoints.Where(endpoint => RoutePaths.IsOwn(endpoint) && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null))
        {
            string path = RoutePaths.Of(endpoint, busy.AnyRepair);
            Assert.True((await owner.Get(path)).One("Cache-Control").Contains("no-store", StringComparison.Ordinal), path);
        }
    }

    [Fact]
    public async Task Every_cookie_is_for_this_host_secure_and_out_of_reach_of_scripts_and_other_sites()
    {
        using var visitor = Shop.Anybody();
        var cookies = (await visitor.Get("/sign-in")).All("Set-Cookie").Concat((await visitor.SignIn(Role.Painter, WebShop.Password)).All("Set-Cookie")).ToList();

        Assert.Contains(cookies, cookie => cookie.StartsWith("__Host-seamwright=", StringComparison.Ordinal));
        foreach (string cookie in cookies)
        {
            Assert.StartsWith("__Host-", cookie, StringComparison.Ordinal);
            foreach (string part in (string[])["secure", "httponly", "samesite=strict", "path=/"])
                Assert.Contains(part, cookie, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task A_step_sent_without_the_token_of_its_page_is_refused()
    {
        using var owner = await Shop.Signed(Role.Owner);
        using var manager = await Shop.Signed(Role.Manager);
        var foreign = (await manager.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");
        (string Path, string Form)[] steps = [("/me", "password"), ("/accounts", "new-account"), ("/shop", "shop"), ("/air", "reading"), ("/sheet", "sheet"), ("/pack", "pack"), ("/nozzles", "nozzles"), ("/shelf/B1", "gone"), ($"/repairs/{busy.AnyRepair}/look", "look"), ("/start/quarter-panel", "start-repair"), ("/sign-in", "sign-in"), ("/sign-out", "")];

        foreach (var (path, form) in steps)
        {
            Assert.Equal((path, 400), (path, (await owner.Post(path, [new("_handler", form)])).Code));
            Assert.Equal((path, 400), (path, (await owner.Post(path, [new("_handler", form), foreign])).Code));
        }
        Assert.Equal(200, (await owner.Get("/")).Code);
    }

    [Fact]
    public async Task A_step_that_is_refused_or_too_large_is_answered_by_a_page_that_says_so()
    {
        using var owner = await Shop.Signed(Role.Owner);

        var without = await owner.Post("/me", [new("_handler", "password")]);
        var large = await owner.Post("/me", [new("_handler", "password"), new("name", new string('x', 9 * 1024 * 1024))]);

        Assert.Equal((400, "Not taken"), (without.Code, without.Page.QuerySelector("main h1")?.TextContent));
        Assert.Equal((413, "Too large"), (large.Code, large.Page.QuerySelector("main h1")?.TextContent));
    }

    [Fact]
    public async Task Looking_at_every_page_changes_nothing()
    {
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);

        foreach (var endpoint in Shop.Endpoints.Where(endpoint => RoutePaths.IsOwn(endpoint) && endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null))
            await owner.Get(RoutePaths.Of(endpoint, busy.AnyRepair));
        foreach (string path in (string[])["/sign-out", "/shop?_handler=shop", "/air?_handler=reading&temperature=18&humidity=40", "/accounts?_handler=new-account&name=x"])
            await owner.Get(path);

        Assert.Equal(before, await Content.Of(Shop.Store));
        Assert.Equal(200, (await owner.Get("/")).Code);
    }
}
