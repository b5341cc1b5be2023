using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Forms;

/// <summary>Text that means harm, through every text field and back: it is shown as it was typed and never becomes part of the page (OWASP ASVS 5.0.0, 1.2.1).</summary>
public class HostileTextTests(FormShop given) : IClassFixture<FormShop>
{
    private WebShop Shop => given.Shop;

    public static TheoryData<string, string> Texts => new()
    {
        { "script", "<script id=hostile>alert(1)</script>" },
        { "attribute", "\"><b id=hostile onclick='alert(1)'>" },
        { "quotes", "' OR 1=1; DROP TABLE accounts; --" },
        { "line breaks", "one\r\ntwo\nthree" },
        { "right to left", "\u202Eevil\u202C \u200F\u2066x\u2069" },
        { "half a pair", "\uFFFD\U0001F4A9" },
        { "braces", "{0} {{x}} @Model %s ${7*7}" },
        { "long", new string('x', 10_000) },
    };

    [Theory]
    [MemberData(nameof(Texts))]
    public async Task In_every_field_of_every_form_it_is_no_fault_and_no_markup(string what, string text)
    {
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);

        foreach (var row in BadInputTests.Forms)
        {
            var (path, form) = row.Data;
            path = path.Replace("{repair}", given.Repair, StringComparison.Ordinal);
            var answer = await owner.Post(path, (await owner.Get(path)).Form(form).Everywhere(text));
            Assert.Equal((what, path, 422), (what, path, answer.Code));
            Assert.Null(answer.Page.GetElementById("hostile"));
        }
        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Fact]
    public async Task A_nul_is_refused_with_the_whole_form()
    {
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);

        Assert.Equal(400, (await owner.Fill("/start/rear-panel", "start-repair", ("name", "before\0after"))).Code);
        Assert.Equal(400, (await owner.Fill("/accounts", "new-account", ("name", "before\0after"), ("password", WebShop.Password))).Code);

        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public async Task As_the_title_of_a_repair_it_is_refused_or_shown_as_typed_everywhere(string what, string text)
    {
        using var owner = await Shop.Signed(Role.Owner);

        var begun = await owner.Fill("/start/rear-panel", "start-repair", ("name", text));

        Assert.True(begun.Code is 302 or 422, $"{what}: {begun.Code}");
        Assert.Null(begun.Page.GetElementById("hostile"));
        if (begun.Code == 422)
        {
            Assert.Equal(["name"], begun.Marked);
            return;
        }
        string repair = new Uri(Shop.Address, begun.To).AbsolutePath;
        Assert.Equal(200, (await owner.Get(repair)).Code);
        while (Shop.Desk.State.Vehicle(repair.Split('/')[^1]) is null)
            await Task.Delay(50, TestContext.Current.CancellationToken);
        Shop.Desk.StopSearch();
        foreach (string path in (string[])["/", "/repairs", repair, $"{repair}/change", $"{repair}/what-if"])
        {
            var page = await owner.Get(path);
            Assert.Equal((path, 200), (path, page.Code));
            Assert.Null(page.Page.GetElementById("hostile"));
        }
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public async Task As_somebodys_name_it_is_refused_or_shown_as_typed(string what, string text)
    {
        using var owner = await Shop.Signed(Role.Owner);

        var added = await owner.Fill("/accounts", "new-account", ("name", text), ("password", WebShop.Password), ("roles", Role.Painter));

        Assert.True(added.Code is 302 or 422, $"{what}: {added.Code}");
        var page = added.Code == 302 ? await owner.Get("/accounts") : added;
        Assert.Null(page.Page.GetElementById("hostile"));
        if (added.Code == 302)
            Assert.Contains(page.Page.QuerySelectorAll("tbody th"), cell => cell.TextContent.Trim() == text.Trim());
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public async Task At_the_door_it_is_refused_like_any_other_name(string what, string text)
    {
        using var visitor = Shop.Anybody();

        var answer = await visitor.SignIn(text, text);

        Assert.Equal((what, 422), (what, answer.Code));
        Assert.Null(answer.Page.GetElementById("hostile"));
    }
}
