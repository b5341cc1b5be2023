using Seamwright.Program.Web.Access;
using Seamwright.Storage.Accounts;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Doors;

/// <summary>Coming in, going out, and what ends a sign-in at the server (OWASP ASVS 5.0.0, 6.3.1, 7.2, 7.4, 8.3.2).</summary>
public class SignInTests(SignInTests.QuietShop quiet) : IClassFixture<SignInTests.QuietShop>
{
    private const string Session = "__Host-seamwright";

    private WebShop Shop => quiet.Shop;

    [Fact]
    public async Task A_wrong_password_and_a_name_that_nobody_has_are_refused_in_the_same_words()
    {
        await Shop.LetIn("wrong-password", Role.Painter);
        using var visitor = Shop.Anybody();

        var wrong = await visitor.SignIn("wrong-password", "not it at all");
        var nobody = await visitor.SignIn("nobody by this name", "not it at all");

        Assert.Equal((422, 422), (wrong.Code, nobody.Code));
        Assert.Equal(wrong.Page.QuerySelector(".wrongs")?.TextContent, nobody.Page.QuerySelector(".wrongs")?.TextContent);
        Assert.Equal("wrong-password", wrong.ValueOf("name"));
        Assert.Equal("", wrong.ValueOf("password"));
        Assert.DoesNotContain(Session, visitor.Cookies.Keys);
    }

    [Fact]
    public async Task After_ten_wrong_passwords_the_right_one_does_not_help_for_a_while()
    {
        await Shop.LetIn("guessed", Role.Painter);
        for (int i = 0; i < 10; i++)
        {
            using var guesser = Shop.Anybody();
            await guesser.SignIn("guessed", "guess number " + (char)('a' + i));
        }

        using var visitor = Shop.Anybody();
        Assert.Equal(422, (await visitor.SignIn("guessed", WebShop.Password)).Code);
        Assert.True((await Shop.AccountOf("guessed")).LockedUntil > Shop.Store.Now);
    }

    [Fact]
    public async Task One_address_has_twenty_tries_a_minute_and_is_then_told_to_wait()
    {
        using var guesser = Shop.Anybody();
        var form = (await guesser.Get("/sign-in")).Form("sign-in").With(("name", "somebody else"), ("password", "guess"));
        for (int i = 0; i < 20; i++)
            Assert.Equal(422, (await guesser.Post("/sign-in", form)).Code);

        var waiting = await guesser.Post("/sign-in", form);

        Assert.Equal(429, waiting.Code);
        Assert.Contains("minute", waiting.Page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(200, (await guesser.Get("/sign-in")).Code);
    }

    [Fact]
    public async Task Signing_out_ends_the_sign_in_at_the_server()
    {
        using var visitor = await Fresh("out");
        string key = visitor.Cookies[Session];

        var token = (await visitor.Get("/me")).Form("password").Entries.Single(entry => entry.Key == "__RequestVerificationToken");
        Assert.Equal(302, (await visitor.Post("/sign-out", [token])).Code);

        await AssertOver(key);
    }

    [Fact]
    public async Task A_new_password_ends_every_sign_in_and_goes_on_with_a_new_one()
    {
        using var here = await Fresh("renewed");
        using var elsewhere = await Shop.Signed("renewed");
        string key = here.Cookies[Session];
        string other = elsewhere.Cookies[Session];

        var changed = await here.Fill("/me", "password", ("old", WebShop.Password), ("new", "nine copper clamps"));

        Assert.Equal(302, changed.Code);
        await AssertOver(key);
        await AssertOver(other);
        Assert.NotEqual(key, here.Cookies[Session]);
        Assert.Equal(200, (await here.Get("/me")).Code);
        using var again = await Shop.Signed("renewed", "nine copper clamps");
        Assert.Equal(200, (await again.Get("/me")).Code);
    }

    [Fact]
    public async Task A_sign_in_never_goes_on_under_the_key_of_the_one_before()
    {
        using var visitor = await Fresh("twice");
        string key = visitor.Cookies[Session];

        Assert.Equal(302, (await visitor.SignIn("twice", WebShop.Password)).Code);

        Assert.NotEqual(key, visitor.Cookies[Session]);
        await AssertOver(key);
    }

    [Fact]
    public async Task Somebody_ends_own_sign_ins_one_by_one()
    {
        using var here = await Fresh("ends-own");
        using var elsewhere = await Shop.Signed("ends-own");
        var page = await here.Get("/me");
        var forms = page.Page.QuerySelectorAll("input[name=_handler]").Select(input => input.GetAttribute("value")!).Where(name => name.StartsWith("end-", StringComparison.Ordinal)).ToList();
        Assert.Equal(2, forms.Count);

        foreach (string form in forms)
            await here.Post("/me", page.Form(form).Entries);

        await AssertOver(elsewhere.Cookies[Session]);
    }

    [Fact]
    public async Task A_closed_account_is_out_at_the_next_request_and_cannot_come_back()
    {
        using var visitor = await Fresh("closed");
        using var owner = await Shop.Signed(Role.Owner);
        var account = (await Shop.AccountOf("closed"));

        Assert.Equal(302, (await owner.Fill("/accounts", $"toggle-{account.Id}")).Code);

        await AssertOver(visitor.Cookies[Session]);
        using var again = Shop.Anybody();
        Assert.Equal(422, (await again.SignIn("closed", WebShop.Password)).Code);
    }

    [Fact]
    public async Task Changed_roles_act_at_the_next_request()
    {
        using var visitor = await Fresh("demoted", Role.Manager);
        Assert.Equal(200, (await visitor.Get("/shop")).Code);

        var account = (await Shop.AccountOf("demoted"));
        account.Roles = [Role.Painter];
        account.Stamp = "another";
        Assert.Equal(AccountSaved.Yes, await Shop.Store.SaveAccount(account, TestContext.Current.CancellationToken));

        Assert.NotEqual(200, (await visitor.Get("/shop")).Code);
    }

    [Theory]
    [InlineData("/materials", "/materials")]
    [InlineData("https://example.org/", "/")]
    [InlineData("//example.org", "/")]
    [InlineData("/\\example.org", "/")]
    [InlineData("/\t/example.org", "/")]
    [InlineData("\\\\example.org", "/")]
    [InlineData("javascript:alert(1)", "/")]
    public async Task After_signing_in_one_is_sent_to_places_of_this_site_only(string asked, string expected)
    {
        using var visitor = Shop.Anybody();

        var answer = await visitor.SignIn(Role.Painter, WebShop.Password, $"/sign-in?back={Uri.EscapeDataString(asked)}");

        Assert.Equal(302, answer.Code);
        Assert.Equal(new Uri(Shop.Address, expected), new Uri(Shop.Address, answer.To));
    }

    [Fact]
    public async Task Fields_that_the_form_does_not_have_change_nothing()
    {
        using var owner = await Shop.Signed(Role.Owner);

        await owner.Fill("/accounts", "new-account", ("name", "overposted"), ("password", WebShop.Password), ("roles", Role.Keeper), ("closed", "true"), ("Version", "99"), ("LockedUntil", "2100-01-01"), ("PasswordHash", "x"));

        var made = (await Shop.AccountOf("overposted"));
        Assert.False(made.Closed);
        Assert.Null(made.LockedUntil);
        Assert.Equal([Role.Keeper], made.Roles);
        using var visitor = await Shop.Signed("overposted");
    }

    private async Task<Visitor> Fresh(string name, string role = Role.Painter)
    {
        await Shop.LetIn(name, role);
        return await Shop.Signed(name);
    }

    /// <summary>A cookie that was taken before is refused when it is shown again.</summary>
    private async Task AssertOver(string key)
    {
        using var thief = Shop.Anybody();
        thief.Cookies[Session] = key;
        Assert.Equal(302, (await thief.Get("/me")).Code);
    }

    /// <summary>A shop without repairs, so that nothing is planned meanwhile.</summary>
    public sealed class QuietShop : IAsyncLifetime
    {
        internal WebShop Shop { get; private set; } = null!;

        /// <inheritdoc/>
        public async ValueTask InitializeAsync() => Shop = await WebShop.Open();

        /// <inheritdoc/>
        public ValueTask DisposeAsync() => Shop.DisposeAsync();
    }
}
