using NodaTime;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Programs;
using Xunit;

namespace Seamwright.Storage.Tests.Programs;

/// <summary>A request that is sent twice is done once (draft-ietf-httpapi-idempotency-key-header, 2.6).</summary>
public class KeptAnswerTests
{
    private static readonly Guid Run = Guid.Parse("0198f6a0-0000-7000-8000-00000000000a");

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_several_at_once_exactly_one_begins(string database)
    {
        await using var shop = await TestShop.Open(database);
        var request = await Request(shop);

        var known = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => shop.Store.BeginAnswer(request, stop: TestShop.Stop)));

        Assert.Single(known.OfType<AnswerKnown.Begun>());
        Assert.Equal(9, known.OfType<AnswerKnown.StillRunning>().Count());
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task An_answer_is_given_again_also_after_a_restart_and_forgotten_after_a_day(string database)
    {
        await using var shop = await TestShop.Open(database);
        var request = await Request(shop);
        var answer = new KeptAnswer(201, """{"id":"x"}""", "\"1\"", "/api/v1/repairs/x");
        await shop.Store.BeginAnswer(request, stop: TestShop.Stop);
        await shop.Store.KeepAnswer(request, answer, TestShop.Stop);

        using var again = await shop.OpenAgain();
        var later = request with { Run = Guid.NewGuid() };
        Assert.Equal(new AnswerKnown.Before(answer), await again.BeginAnswer(later, stop: TestShop.Stop));
        Assert.IsType<AnswerKnown.OtherRequest>(await again.BeginAnswer(later with { Request = "other" }, stop: TestShop.Stop));
        shop.Clock.Start += KeepingAnswers.KeptFor + Duration.FromMinutes(1);
        Assert.IsType<AnswerKnown.Begun>(await again.BeginAnswer(later with { Request = "other" }, stop: TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task What_was_cut_off_by_the_end_of_the_server_is_not_waited_for(string database)
    {
        await using var shop = await TestShop.Open(database);
        var request = await Request(shop);

        Assert.IsType<AnswerKnown.Begun>(await shop.Store.BeginAnswer(request, stop: TestShop.Stop));
        Assert.IsType<AnswerKnown.StillRunning>(await shop.Store.BeginAnswer(request, stop: TestShop.Stop));
        Assert.IsType<AnswerKnown.Begun>(await shop.Store.BeginAnswer(request with { Run = Guid.NewGuid() }, stop: TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task What_came_to_nothing_can_be_sent_again_and_no_key_fills_the_store(string database)
    {
        await using var shop = await TestShop.Open(database);
        var request = await Request(shop);

        await shop.Store.BeginAnswer(request, most: 1, TestShop.Stop);
        Assert.IsType<AnswerKnown.TooMany>(await shop.Store.BeginAnswer(request with { Name = "another" }, most: 1, TestShop.Stop));
        await shop.Store.ForgetAnswer(request, TestShop.Stop);
        Assert.IsType<AnswerKnown.Begun>(await shop.Store.BeginAnswer(request with { Name = "another" }, most: 1, TestShop.Stop));
    }

    private static async Task<NamedRequest> Request(TestShop shop)
    {
        var account = new Account { Id = shop.Store.NewId(), Name = "Ada", NormalName = "ADA", Roles = ["owner"] };
        await shop.Store.AddAccount(account, stop: TestShop.Stop);
        var now = shop.Store.Now;
        var key = new ProgramKey(shop.Store.NewId(), "ab", "seamkey_ab", "office", ["read"], account.Id, now, now + Duration.FromDays(30), null, null);
        await shop.Store.AddProgramKey(key, TestShop.Stop);
        return new(key.Id, "request one", "ff", Run);
    }
}
