using Seamwright.Program.Web.Access;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Forms;

/// <summary>Every form survives bad input: the field named, what was typed kept, nothing saved (WCAG 2.2, 3.3.1 to 3.3.3).</summary>
public class BadInputTests(FormShop given) : IClassFixture<FormShop>
{
    private WebShop Shop => given.Shop;

    /// <summary>Every form that saves something, for somebody who is signed in.</summary>
    public static TheoryData<string, string> Forms => new()
    {
        { "/start/rear-panel", "start-repair" },
        { "/start/quarter-panel", "start-repair" },
        { "/repairs/{repair}/change", "change-repair" },
        { "/shop", "shop" },
        { "/sheet", "sheet" },
        { "/sheet?id=MS1", "sheet" },
        { "/pack", "pack" },
        { "/air", "reading" },
        { "/accounts", "new-account" },
        { "/me", "password" },
    };

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task An_empty_form_names_the_fields_and_saves_nothing(string path, string form)
    {
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);

        var refused = await owner.Post(Path(path), (await owner.Get(Path(path))).Form(form).Everywhere(""));

        Assert.Equal(422, refused.Code);
        AssertNamed(refused);
        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Theory]
    [MemberData(nameof(Forms))]
    public async Task A_form_full_of_nonsense_keeps_it_names_the_fields_and_saves_nothing(string path, string form)
    {
        const string Nonsense = "of no use";
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);
        var sent = (await owner.Get(Path(path))).Form(form).Everywhere(Nonsense);

        // A name may be anything, and so may a password that was never set; the rest may not.
        if (form == "new-account")
            sent = [.. sent.Select(entry => entry.Key == "password" ? new(entry.Key, "123") : entry)];
        var refused = await owner.Post(Path(path), sent);

        Assert.Equal(422, refused.Code);
        AssertNamed(refused);
        if (form != "password")
            Assert.Contains(refused.Page.QuerySelectorAll("main form input"), input => input.GetAttribute("value") == Nonsense);
        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Theory]
    [InlineData("temperature", "warm")]
    [InlineData("temperature", "18.5")]
    [InlineData("temperature", "900 °C")]
    [InlineData("humidity", "140 %")]
    [InlineData("humidity", "-1 %")]
    public async Task A_reading_that_cannot_be_is_refused_at_its_field_and_the_other_one_kept(string field, string typed)
    {
        using var owner = await Shop.Signed(Role.Painter);
        (string, string?)[] entries = [("temperature", "18 °C"), ("humidity", "40 %")];

        var refused = await owner.Fill("/air", "reading", [.. entries.Where(entry => entry.Item1 != field), (field, typed)]);

        Assert.Equal(422, refused.Code);
        Assert.Equal([field], refused.Marked);
        Assert.Equal(typed, refused.ValueOf(field));
        Assert.All(entries.Where(entry => entry.Item1 != field), entry => Assert.Equal(entry.Item2, refused.ValueOf(entry.Item1)));
    }

    [Fact]
    public async Task A_seam_that_was_struck_out_stays_struck_out_and_can_be_taken_back_while_the_form_is_mended()
    {
        using var technician = await Shop.Signed(Role.Technician);
        var page = await technician.Get("/start/rear-panel");
        string keep = page.Form("start-repair").Names.First(name => name.EndsWith(".keep", StringComparison.Ordinal));

        var refused = await technician.Post("/start/rear-panel", page.Form("start-repair").With((keep, null), ("promise", "")));

        Assert.Equal(422, refused.Code);
        Assert.DoesNotContain(keep, refused.FindForm("start-repair")!.Names);
        Assert.NotNull(refused.Page.QuerySelector($"input[name=\"{keep}\"]"));
    }

    [Fact]
    public async Task Of_two_who_correct_one_repair_the_second_is_told_and_overwrites_nothing()
    {
        using var one = await Shop.Signed(Role.Technician);
        using var other = await Shop.Signed(Role.Estimator);
        string path = Path("/repairs/{repair}/change");
        var seenByOne = (await one.Get(path)).Form("change-repair").With(("name", "Grey van, corrected"));
        var seenByOther = (await other.Get(path)).Form("change-repair").With(("name", "Grey van, my way"));

        Assert.Equal(302, (await one.Post(path, seenByOne)).Code);
        var told = await other.Post(path, seenByOther);

        Assert.Equal(422, told.Code);
        Assert.Contains(told.Wrongs, line => line.Contains(Role.Technician, StringComparison.Ordinal));
        Assert.Equal("Grey van, my way", told.ValueOf("name"));
        Assert.Equal("Grey van, corrected", (await other.Get(path)).ValueOf("name"));
    }

    [Fact]
    public async Task Of_two_who_change_the_shop_the_second_is_told_and_overwrites_nothing()
    {
        using var one = await Shop.Signed(Role.Owner);
        using var other = await Shop.Signed(Role.Manager);
        var seenByOther = (await other.Get("/shop")).Form("shop").With();

        Assert.Equal(302, (await one.Fill("/shop", "shop")).Code);
        var told = await other.Post("/shop", seenByOther);

        Assert.Equal(422, told.Code);
        Assert.Contains(told.Wrongs, line => line.Contains(Role.Owner, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Saving_a_form_as_it_stands_changes_nothing_in_what_is_kept()
    {
        using var owner = await Shop.Signed(Role.Owner);
        string before = await Content.Of(Shop.Store);

        foreach (var (path, form) in ((string, string)[])[("/shop", "shop"), ("/sheet?id=MS1", "sheet"), ("/sheet?id=E2S", "sheet"), (Path("/repairs/{repair}/change"), "change-repair")])
            Assert.Equal((path, 302), (path, (await owner.Fill(path, form)).Code));

        Assert.Equal(before, await Content.Of(Shop.Store));
    }

    [Theory]
    [InlineData("/repairs?part=x")]
    [InlineData("/repairs?part=-3")]
    [InlineData("/repairs?part=2147483647")]
    [InlineData("/repairs?q=%25_%27%22%3Cscript%3E")]
    [InlineData("/repairs/{repair}?seam=%3Cscript%3E")]
    [InlineData("/repairs/{repair}/what-if?joint=%3Cscript%3E&material=MS1")]
    [InlineData("/repairs/{repair}/what-if?joint=J1&material=nothing")]
    [InlineData("/repairs/{repair}/what-if?slot=never&heat=hot&humid=wet&person=%2Bnobody&delivery=99999999999")]
    [InlineData("/sheet?id=no-such-sheet")]
    [InlineData("/pack?id=no-such-pack")]
    [InlineData("/shelf?part=2147483647&show=nothing&q=%25_%27%22%3Cscript%3E")]
    public async Task An_address_that_was_typed_wrongly_is_no_fault_of_the_program(string path)
    {
        using var owner = await Shop.Signed(Role.Owner);

        var answer = await owner.Get(Path(path));

        Assert.True(answer.Code < 500, $"{path}: {answer.Code}");
        Assert.Null(answer.Page.QuerySelector("main script"));
    }

    private string Path(string path) => path.Replace("{repair}", given.Repair, StringComparison.Ordinal);

    /// <summary>Every line above the form leads to an input that is there and marked; screen readers hear the list at once.</summary>
    private static void AssertNamed(Answer refused)
    {
        var list = refused.Page.QuerySelector(".wrongs");
        Assert.NotNull(list);
        Assert.Equal("alert", list.GetAttribute("role"));
        Assert.NotEmpty(refused.Wrongs);
        Assert.All(refused.Wrongs, Assert.NotEmpty);
        foreach (var link in list.QuerySelectorAll("a"))
        {
            string id = link.GetAttribute("href")!.TrimStart('#');
            Assert.True(refused.Page.GetElementById(id) is not null, $"\"{link.TextContent}\" leads to {id}, which is not there.");
        }
        foreach (var marked in refused.Page.QuerySelectorAll("[aria-invalid=true]"))
            Assert.All(marked.GetAttribute("aria-describedby")!.Split(' '), id => Assert.NotNull(refused.Page.GetElementById(id)));
        Assert.True(list.QuerySelector("a") is not null, $"No line leads to a field: {string.Join(" | ", refused.Wrongs)}");
    }
}
