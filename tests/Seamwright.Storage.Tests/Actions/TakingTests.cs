using Microsoft.EntityFrameworkCore;
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
        var before = (await shop.Store.Pack("B1", TestShop.Stop))!;
        var late = await shop.Store.PackIsGone("B1", before.Document.Version - 1, Leaving, TestShop.Stop);
        var gone = await shop.Store.PackIsGone("B1", before.Document.Version, Leaving, TestShop.Stop);

        Assert.Null(taken);
        Assert.IsType<SaveOutcome.Overtaken>(late);
        Assert.IsType<SaveOutcome.Saved>(gone);
        var told = await shop.Store.Ask(async db => await db.Audit.SingleAsync(row => row.What == "pack-gone"));
        Assert.Equal(("keeper", "B1", "here", """{"why":"thrown-away"}"""), (told.Who, told.Subject, told.Origin, told.Facts));
        Assert.NotNull((await shop.Store.Pack("B1", TestShop.Stop))!.Gone);
        Assert.IsType<TakeOutcome.NotThere>(await shop.Store.TakePack("B1", "r0", "a", TestShop.Stop));
        Assert.IsType<TakeOutcome.NotThere>(await shop.Store.TakePack("B2", "r0", "a", TestShop.Stop));
        Assert.Empty(await shop.Store.PacksInTheShop(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_pack_that_was_sent_away_by_mistake_comes_back(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.SavePack(new("B1", "MSS", "", null, "{}"), null, "keeper", TestShop.Stop);

        await shop.Store.PackIsGone("B1", 1, Leaving, TestShop.Stop);
        var early = await shop.Store.PackIsBack("B1", 1, "keeper", "here", TestShop.Stop);
        var back = await shop.Store.PackIsBack("B1", 2, "keeper", "here", TestShop.Stop);

        Assert.IsType<SaveOutcome.Overtaken>(early);
        Assert.IsType<SaveOutcome.Saved>(back);
        Assert.Equal(["B1"], (await shop.Store.PacksInTheShop(TestShop.Stop)).Select(pack => pack.Document.Id));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task New_packs_come_all_or_none(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.SavePack(new("B2", "MSS", "", null, "{}"), null, "keeper", TestShop.Stop);

        var refused = await shop.Store.AddPacks([new("B1", "MSS", "", null, "{}"), new("B2", "MSS", "", null, "{}")], "keeper", TestShop.Stop);
        await shop.Store.PackIsGone("B2", 1, Leaving, TestShop.Stop);
        var refusedStill = await shop.Store.AddPacks([new("B2", "MSS", "", null, "{}")], "keeper", TestShop.Stop);
        var added = await shop.Store.AddPacks([new("B3", "MSS", "L-1", null, "{}"), new("B4", "MSS", "L-1", null, "{}")], "keeper", TestShop.Stop);

        Assert.Equal(new PacksAdded.NameTaken("B2", IsGone: false), refused);
        Assert.Equal(new PacksAdded.NameTaken("B2", IsGone: true), refusedStill);
        Assert.IsType<PacksAdded.All>(added);
        Assert.Equal(["B3", "B4"], (await shop.Store.PacksInTheShop(TestShop.Stop)).Select(pack => pack.Document.Id));
    }

    private static PackLeaving Leaving { get; } = new(PackGone.ThrownAway, "keeper", "here");

    private static async Task Repairs(ShopStore store, int count)
    {
        for (int i = 0; i < count; i++)
            await store.SaveRepair(new($"r{i}", $"Repair {i}", "{}", null, null), null, "a", TestShop.Stop);
    }
}
