using NodaTime;
using Seamwright.Storage.Accounts;
using Xunit;

namespace Seamwright.Storage.Tests.Accounts;

/// <summary>Who may come in.</summary>
public class AccountTests
{
    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_several_first_owners_at_once_one_wins(string database)
    {
        await using var shop = await TestShop.Open(database);

        var saved = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => shop.Store.AddAccount(Named(shop, $"owner {i}"), onlyAsFirst: true, TestShop.Stop)));

        Assert.Single(saved, AccountSaved.Yes);
        Assert.Single(await shop.Store.AllAccounts(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_name_is_given_once_whatever_its_capitals(string database)
    {
        await using var shop = await TestShop.Open(database);

        Assert.Equal(AccountSaved.Yes, await shop.Store.AddAccount(Named(shop, "Ada"), stop: TestShop.Stop));
        Assert.Equal(AccountSaved.NameTaken, await shop.Store.AddAccount(Named(shop, "ADA"), stop: TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_change_based_on_an_older_version_is_refused(string database)
    {
        await using var shop = await TestShop.Open(database);
        var account = Named(shop, "Ada");
        await shop.Store.AddAccount(account, stop: TestShop.Stop);
        var seen = (await shop.Store.AccountOf(account.Id, TestShop.Stop))!;
        var also = (await shop.Store.AccountOf(account.Id, TestShop.Stop))!;
        seen.Closed = true;
        also.Roles = ["manager"];

        Assert.Equal(AccountSaved.Yes, await shop.Store.SaveAccount(seen, TestShop.Stop));
        Assert.Equal(AccountSaved.Overtaken, await shop.Store.SaveAccount(also, TestShop.Stop));

        var stored = (await shop.Store.AccountNamed("ADA", TestShop.Stop))!;
        Assert.True(stored.Closed);
        Assert.Equal(["owner"], stored.Roles);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_sign_in_opens_nothing_after_it_was_ended_or_its_time_is_over(string database)
    {
        await using var shop = await TestShop.Open(database);
        var account = Named(shop, "Ada");
        await shop.Store.AddAccount(account, stop: TestShop.Stop);
        var now = shop.Store.Now;
        await shop.Store.KeepSignIn(new("lasting", account.Id, [1], now, now + Duration.FromHours(12), "phone"), TestShop.Stop);
        await shop.Store.KeepSignIn(new("over", account.Id, [2], now - Duration.FromHours(13), now - Duration.FromHours(1), "desk"), TestShop.Stop);

        Assert.Equal([1], (await shop.Store.SignInOf("lasting", TestShop.Stop))!.Ticket);
        Assert.Null(await shop.Store.SignInOf("over", TestShop.Stop));
        Assert.Single(await shop.Store.SignInsOf(account.Id, TestShop.Stop));

        await shop.Store.EndSignIns(account.Id, TestShop.Stop);
        Assert.Null(await shop.Store.SignInOf("lasting", TestShop.Stop));
    }

    private static Account Named(TestShop shop, string name) =>
        new() { Id = shop.Store.NewId(), Name = name, NormalName = name.ToUpperInvariant(), Roles = ["owner"], Stamp = "1" };
}
