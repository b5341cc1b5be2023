using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Storage.Programs;
using Seamwright.Storage.Queries;
using Seamwright.Web.Tests.Given;
using Xunit;

namespace Seamwright.Web.Tests.Api;

/// <summary>The page on which keys are made and taken back.</summary>
public class KeyPageTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_key_made_on_the_page_opens_is_shown_once_and_can_be_taken_back()
    {
        await using var shop = await WebShop.Open();
        using var manager = await shop.Signed(Role.Manager);

        var made = await manager.Fill("/keys", "new-key", ("name", "hygrometer in bay 2"), ("scopes", Scope.Read));
        string key = made.Page.QuerySelector("code.secret")!.TextContent;
        var before = await Ask(key);
        var page = await manager.Get("/keys");
        string form = $"take-back-{(await shop.Store.ProgramKeys(Stop)).Single().Id}";
        await manager.Fill("/keys", form);
        var after = await Ask(key);

        Assert.Equal((200, 200, 401), (made.Code, before.Code, after.Code));
        Assert.DoesNotContain(key, page.Text, StringComparison.Ordinal);
        Assert.Contains(key[..14], page.Text, StringComparison.Ordinal);
        Assert.Null((await manager.Get("/keys")).FindForm(form));
        var audit = (await shop.Store.AuditPage(stop: Stop)).Items.Select(line => (line.Who, line.What, line.Subject)).ToList();
        Assert.Contains(audit, line => line is (Role.Manager, "key-made", var subject) && subject.Contains("hygrometer in bay 2", StringComparison.Ordinal) && !subject.Contains(key, StringComparison.Ordinal));
        Assert.Contains(audit, line => line is (Role.Manager, "key-taken-back", _));

        async Task<Answer> Ask(string bearer)
        {
            using var program = shop.Anybody();
            return await program.Send(HttpMethod.Get, "/api/v1/shop", null, ("Authorization", $"Bearer {bearer}"));
        }
    }

    [Theory]
    [InlineData("name", "", "name")]
    [InlineData("ends", "2020-01-01", "ends")]
    [InlineData("ends", "2999-01-01", "ends")]
    [InlineData("ends", "soon", "ends")]
    public async Task What_is_wrong_in_the_form_is_told_at_its_field_and_no_key_is_made(string field, string value, string marked)
    {
        // The form is filled in on a day that is none of those tried.
        await using var shop = await WebShop.Open(clock: new Keeping.HandClock());
        using var owner = await shop.Signed(Role.Owner);

        var answer = await owner.Fill("/keys", "new-key", ("name", field == "name" ? value : "office"), ("scopes", Scope.Read), ("ends", field == "ends" ? value : "2026-12-24"));

        Assert.Equal(422, answer.Code);
        Assert.Equal([marked], answer.Marked);
        Assert.Empty(await shop.Store.ProgramKeys(Stop));
    }
}
