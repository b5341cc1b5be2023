using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Actions;

/// <summary>Saving documents.</summary>
public class SavingTests
{
    private static readonly RepairDraft Rail = new(
        "front-rail", "Front rail, near side", """{"seamwright":"repair/1","id":"front-rail"}""", Instant.FromUtc(2027, 3, 1, 6, 30), Instant.FromUtc(2027, 3, 2, 15, 0));

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_repair_comes_back_as_it_was_saved(string database)
    {
        await using var shop = await TestShop.Open(database);

        var saved = await shop.Store.SaveRepair(Rail, null, "estimator", TestShop.Stop);
        var document = await shop.Store.RepairDocument("front-rail", TestShop.Stop);
        var line = await shop.Store.RepairLineOf("front-rail", TestShop.Stop);

        Assert.Equal(new SaveOutcome.Saved(1), saved);
        Assert.Equal((Rail.Json, 1, "estimator"), (document!.Json, document.Version, document.ChangedBy));
        Assert.Equal(new RepairLine("front-rail", Rail.Title, RepairState.Open, Rail.Arrives, Rail.Promised, null, 1), line);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task The_second_of_two_who_edit_the_same_repair_is_told_and_nothing_is_overwritten(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.SaveRepair(Rail, null, "a", TestShop.Stop);

        var first = await shop.Store.SaveRepair(Rail with { Json = """{"by":"a"}""" }, 1, "a", TestShop.Stop);
        var second = await shop.Store.SaveRepair(Rail with { Json = """{"by":"b"}""" }, 1, "b", TestShop.Stop);

        Assert.Equal(new SaveOutcome.Saved(2), first);
        var overtaken = Assert.IsType<SaveOutcome.Overtaken>(second);
        Assert.Equal(("""{"by":"a"}""", 2, "a"), (overtaken.Stored.Json, overtaken.Stored.Version, overtaken.Stored.ChangedBy));
        Assert.Equal("""{"by":"b"}""", overtaken.Yours);
        Assert.Equal("""{"by":"a"}""", (await shop.Store.RepairDocument("front-rail", TestShop.Stop))!.Json);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_many_who_save_at_once_on_the_same_version_exactly_one_does(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var other = await shop.OpenAgain();
        await shop.Store.SaveRepair(Rail, null, "a", TestShop.Stop);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(i => Task.Run(
            () => (i % 2 == 0 ? shop.Store : other).SaveRepair(Rail with { Json = $$"""{"by":{{i}}}""" }, 1, $"p{i}", TestShop.Stop))));

        Assert.Single(outcomes.OfType<SaveOutcome.Saved>());
        Assert.Equal(19, outcomes.OfType<SaveOutcome.Overtaken>().Count());
        Assert.Equal(2, (await shop.Store.RepairDocument("front-rail", TestShop.Stop))!.Version);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_many_who_make_a_repair_of_the_same_name_exactly_one_does(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var other = await shop.OpenAgain();

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 10).Select(i => Task.Run(
            () => (i % 2 == 0 ? shop.Store : other).SaveRepair(Rail with { Title = $"{i}" }, null, "a", TestShop.Stop))));

        Assert.Single(outcomes.OfType<SaveOutcome.Saved>());
        Assert.All(outcomes.Where(outcome => outcome is not SaveOutcome.Saved), outcome => Assert.IsType<SaveOutcome.Overtaken>(outcome));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Changing_what_is_not_there_says_so(string database)
    {
        await using var shop = await TestShop.Open(database);

        Assert.Equal(new SaveOutcome.NotThere("front-rail"), await shop.Store.SaveRepair(Rail, 3, "a", TestShop.Stop));
        Assert.Equal(new SaveOutcome.NotThere("PU1"), await shop.Store.RemoveSheet("PU1", 1, TestShop.Stop));
        Assert.Null(await shop.Store.RepairDocument("front-rail", TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Shop_sheets_packs_and_settings_are_kept(string database)
    {
        await using var shop = await TestShop.Open(database);
        var store = shop.Store;

        await store.SaveShopDocument(ShopDocument.Shop, """{"name":"Invented"}""", null, "owner", TestShop.Stop);
        await store.SaveSheet(new("PU1", "gun grade", "seam-sealer", "{}"), null, "keeper", TestShop.Stop);
        await store.SavePack(new("B2", "PU1", "L-1", new LocalDate(2027, 9, 30), "{}"), null, "keeper", TestShop.Stop);
        await store.SavePack(new("B1", "PU1", "", null, "{}"), null, "keeper", TestShop.Stop);
        await store.ChangeSetting("units", "us", "owner", TestShop.Stop);
        await store.ChangeSetting("language", "en", "owner", TestShop.Stop);
        await store.ChangeSetting("language", null, "owner", TestShop.Stop);

        Assert.Equal("""{"name":"Invented"}""", (await store.ShopDocumentOf(ShopDocument.Shop, TestShop.Stop))!.Json);
        Assert.Null(await store.ShopDocumentOf(ShopDocument.Climate, TestShop.Stop));
        Assert.Equal(["PU1"], (await store.Sheets(TestShop.Stop)).Select(sheet => sheet.Document.Id));
        Assert.Equal(["B1", "B2"], (await store.PacksInTheShop(TestShop.Stop)).Select(pack => pack.Document.Id));
        Assert.Equal(["B2", "B1"], (await store.PackPage("PU1", stop: TestShop.Stop)).Items.Select(pack => pack.Document.Id));
        Assert.Equal(new LocalDate(2027, 9, 30), (await store.Pack("B2", TestShop.Stop))!.Expires);
        Assert.Equal(["units"], (await store.Settings(TestShop.Stop)).Keys);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_list_of_repairs_is_sorted_filtered_and_paged(string database)
    {
        await using var shop = await TestShop.Open(database);
        for (int i = 0; i < 7; i++)
            await shop.Store.SaveRepair(new($"r{i}", i == 3 ? "Größe RAIL" : $"Repair {i}", "{}", null, i == 0 ? null : Instant.FromUtc(2027, 3, 10 - i, 8, 0)), null, "a", TestShop.Stop);
        await shop.Store.MoveRepair("r1", RepairState.Delivered, 1, "a", TestShop.Stop);

        var first = await shop.Store.RepairPage(new(RepairState.Open), 1, 4, TestShop.Stop);
        var second = await shop.Store.RepairPage(new(RepairState.Open), 2, 4, TestShop.Stop);
        var found = await shop.Store.RepairPage(new(Search: "größe rail"), stop: TestShop.Stop);

        Assert.Equal(["r6", "r5", "r4", "r3"], first.Items.Select(repair => repair.Id));
        Assert.Equal(["r2", "r0"], second.Items.Select(repair => repair.Id));
        Assert.Equal((6, 2), (first.Total, first.Parts));
        Assert.Equal(["r3"], found.Items.Select(repair => repair.Id));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Plans_are_kept_and_the_youngest_is_the_present_one(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.SaveRepair(Rail, null, "a", TestShop.Stop);
        var draft = new PlanDraft(null, "front-rail", "aa", 1, "0.1.0", """{"total":361.02}""", Rail.Arrives, 361.02m, "CU");

        var first = await shop.Store.KeepPlan(draft, "a", TestShop.Stop);
        var second = await shop.Store.KeepPlan(draft with { Parent = first, Cost = 12.5m }, "a", TestShop.Stop);

        Assert.Equal([second, first], (await shop.Store.PlansOf("front-rail", stop: TestShop.Stop)).Select(plan => plan.Id));
        Assert.Equal(12.5m, (await shop.Store.PresentPlans(TestShop.Stop))["front-rail"].Cost);
        Assert.Equal(draft.AnswerJson, await shop.Store.PlanAnswer(first, TestShop.Stop));
    }
}
