using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Actions;

/// <summary>Things that only one repair can have.</summary>
public class TakingTests
{
    private static readonly Instant Slot = Instant.FromUtc(2027, 3, 1, 13, 0);

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_fifty_who_take_the_last_pack_exactly_one_gets_it(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var other = await shop.OpenAgain();
        await Repairs(shop.Store, 5);
        await shop.Store.SavePack(new("B1", "MSS", "", null, "{}"), null, "keeper", TestShop.Stop);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 50).Select(async i =>
            (Repair: $"r{i % 5}", Outcome: await Task.Run(() => (i % 2 == 0 ? shop.Store : other).TakePack("B1", $"r{i % 5}", $"p{i}", TestShop.Stop)))));

        string holder = (await shop.Store.Pack("B1", TestShop.Stop))!.TakenFor!;
        Assert.All(outcomes, one => Assert.Equal(one.Repair == holder, one.Outcome is TakeOutcome.Taken));
        Assert.All(outcomes.Select(one => one.Outcome).OfType<TakeOutcome.HeldBy>(), held => Assert.Equal(holder, held.Repair));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_fifty_who_take_a_paint_slot_exactly_one_gets_it(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var other = await shop.OpenAgain();
        await Repairs(shop.Store, 50);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 50).Select(i =>
            Task.Run(() => (i % 2 == 0 ? shop.Store : other).TakeSlot(Slot, $"r{i}", "estimator", TestShop.Stop))));

        Assert.Single(outcomes.OfType<TakeOutcome.Taken>());
        Assert.Equal(49, outcomes.OfType<TakeOutcome.HeldBy>().Count());
        Assert.Single(await shop.Store.SlotsTaken(Slot, TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_repair_holds_one_slot_and_frees_the_other_when_it_moves(string database)
    {
        await using var shop = await TestShop.Open(database);
        await Repairs(shop.Store, 2);
        var later = Slot + Duration.FromHours(2);

        await shop.Store.TakeSlot(Slot, "r0", "a", TestShop.Stop);
        await shop.Store.TakeSlot(later, "r0", "a", TestShop.Stop);

        Assert.IsType<TakeOutcome.Taken>(await shop.Store.TakeSlot(Slot, "r1", "a", TestShop.Stop));
        Assert.Equal(later, (await shop.Store.RepairLineOf("r0", TestShop.Stop))!.Slot);
        Assert.True(await shop.Store.GiveSlotBack("r0", TestShop.Stop));
        Assert.False(await shop.Store.GiveSlotBack("r0", TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_delivered_repair_gives_its_packs_back_and_a_gone_pack_cannot_be_taken(string database)
    {
        await using var shop = await TestShop.Open(database);
        await Repairs(shop.Store, 1);
        await shop.Store.SavePack(new("B1", "MSS", "", null, "{}"), null, "keeper", TestShop.Stop);
        await shop.Store.TakePack("B1", "r0", "a", TestShop.Stop);

        await shop.Store.MoveRepair("r0", RepairState.Delivered, 1, "a", TestShop.Stop);
        string? taken = (await shop.Store.Pack("B1", TestShop.Stop))!.TakenFor;
        await shop.Store.PackIsGone("B1", TestShop.Stop);

        Assert.Null(taken);
        Assert.IsType<TakeOutcome.NotThere>(await shop.Store.TakePack("B1", "r0", "a", TestShop.Stop));
        Assert.IsType<TakeOutcome.NotThere>(await shop.Store.TakePack("B2", "r0", "a", TestShop.Stop));
        Assert.Empty(await shop.Store.PacksInTheShop(TestShop.Stop));
    }

    private static async Task Repairs(ShopStore store, int count)
    {
        for (int i = 0; i < count; i++)
            await store.SaveRepair(new($"r{i}", $"Repair {i}", "{}", null, null), null, "a", TestShop.Stop);
    }
}
