using System.Text.Json.Nodes;
using NodaTime;
using Seamwright.Air;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;
using Seamwright.Units;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Stored;

/// <summary>Files into the store and out again.</summary>
public sealed class StoredShopTests : IAsyncLifetime
{
    private static readonly string BusyWeek = Path.Combine(Repository.Examples, "busy-week");

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("seamwright-stored-");
    private ShopStore _store = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() =>
        _store = await ShopStore.Open(new(Path.Combine(_folder.FullName, "data")), null, SystemClock.Instance, Stop);

    public ValueTask DisposeAsync()
    {
        _store.Dispose();
        _folder.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task Stored_repairs_are_read_as_their_files_are()
    {
        await Import(BusyWeek);
        var shop = await StoredShop.Load(_store, null, Stop);

        foreach (string path in RepairReader.RepairsBelow(BusyWeek))
        {
            var fromFile = RepairReader.Read(path).Input!;
            var fromStore = Input(shop.Read((await _store.RepairDocument(Path.GetFileName(path), Stop))!));

            Assert.Equal(Facts.Of(fromFile.Repair), Facts.Of(fromStore.Repair));
            Assert.Equal(Facts.Of(fromFile.Shop), Facts.Of(fromStore.Shop));
            Assert.Equal(fromFile.Sheets.OrderBy(sheet => sheet.Id.Value).Select(Facts.Of), fromStore.Sheets.OrderBy(sheet => sheet.Id.Value).Select(Facts.Of));
            Assert.Equal(Facts.Of(fromFile.Stock), Facts.Of(fromStore.Stock));
            Assert.Equal(fromFile.Climate.At(fromFile.Repair.Now), fromStore.Climate.At(fromFile.Repair.Now));
        }
    }

    [Theory]
    [InlineData("busy-week")]
    [InlineData("cold-night")]
    [InlineData("quarter-panel-us")]
    [InlineData("hem-tape")]
    public async Task What_was_exported_imports_as_what_is_there(string example)
    {
        await Import(Path.Combine(Repository.Examples, example));
        string folder = Path.Combine(_folder.FullName, "files");

        await ShopExport.Write(_store, folder, Stop);
        var again = ShopImport.Read(folder);
        var outcome = await _store.FillShop(again.Draft!, replace: false, "test", Stop);

        Assert.Empty(outcome.Clashes);
        Assert.Equal((0, 0), (outcome.Added, outcome.Changed));
        Assert.Null(await ShopExport.Write(_store, folder, Stop));
    }

    [Fact]
    public async Task A_folder_that_clashes_changes_nothing_unless_asked_to()
    {
        await Import(BusyWeek);
        var load = ShopImport.Read(BusyWeek).Draft!;
        var other = load with { Repairs = [.. load.Repairs.Select((repair, i) => repair with { Json = i == 0 ? "{}" : repair.Json }), load.Repairs[0] with { Id = "new" }] };

        var refused = await _store.FillShop(other, replace: false, "test", Stop);
        bool there = await _store.RepairDocument("new", Stop) is not null;
        var replaced = await _store.FillShop(other, replace: true, "test", Stop);

        Assert.Equal([load.Repairs[0].Id], refused.Clashes);
        Assert.False(there);
        Assert.Equal((1, 1), (replaced.Added, replaced.Changed));
    }

    [Fact]
    public async Task A_form_is_told_the_field_and_nothing_is_stored()
    {
        await Import(BusyWeek);
        var shop = await StoredShop.Load(_store, null, Stop);
        var document = JsonNode.Parse((await _store.RepairDocument("front-rail", Stop))!.Json)!;
        document["joints"]![0]!["length"] = "0.62 kg";
        document["joints"]![1]!["beneath"]!["coat"] = "P-XX";

        var repair = Drafts.Repair(shop, "front-rail", document.ToJsonString());
        var broken = Drafts.Repair(shop, "front-rail", """{"id": """);
        var sheet = Drafts.Sheet("""{"id":"X","name":"x","use":"seam-sealr"}""");
        var pack = Drafts.Packs("""{"id":"Z","material":"MSS","left":"1 h"}""", null, DateTimeZone.Utc);
        var other = Drafts.Shop("""{"name":"x"}""");

        Assert.Null(repair.Draft);
        Assert.Contains(repair.Problems, problem => problem is { File: "repair.json", Field: "joints[J1].length" });
        Assert.Contains(repair.Problems, problem => problem.Field == "joints[J2].beneath.coat");
        Assert.Contains(broken.Problems, problem => problem.Key == "file.json");
        Assert.Contains(sheet.Problems, problem => problem.Field == "sheets[X].use");
        Assert.Contains(pack.Problems, problem => problem.Field == "packs[Z].left");
        Assert.Contains(other.Problems, problem => problem.Key == "key.missing");
    }

    [Fact]
    public void A_counted_pack_becomes_packs_of_their_own()
    {
        var packs = Drafts.Packs("""{"id":"B","material":"MSS","count":3,"expires":"2027-06"}""", null, DateTimeZone.Utc).Draft!;

        Assert.Equal(["B-1", "B-2", "B-3"], packs.Select(pack => pack.Id));
        Assert.All(packs, pack => Assert.Equal(new LocalDate(2027, 6, 30), pack.Expires));
        Assert.Equal("""{"id":"B-2","material":"MSS","expires":"2027-06"}""", packs[1].Json);
    }

    [Fact]
    public async Task A_slot_that_another_repair_has_taken_is_no_offer()
    {
        await Import(BusyWeek);
        var wanted = RepairReader.Read(Path.Combine(BusyWeek, "front-rail")).Input!.Repair.PaintSlots[0];
        await _store.TakeSlot(wanted, "rear-panel", "test", Stop);
        var shop = await StoredShop.Load(_store, null, Stop);

        var loser = Input(shop.Read((await _store.RepairDocument("front-rail", Stop))!));
        var holder = Input(shop.Read((await _store.RepairDocument("rear-panel", Stop))!));

        Assert.DoesNotContain(wanted, loser.Repair.PaintSlots);
        Assert.Contains(wanted, holder.Repair.PaintSlots);
    }

    [Fact]
    public async Task Planned_from_now_with_the_fresh_reading_of_the_shops_air()
    {
        await Import(BusyWeek);
        var now = Instant.FromUtc(2027, 3, 1, 13, 30);
        await _store.AddReadings("bay", [new(now - Duration.FromMinutes(5), new AirState(Temperature.FromCelsius(17.5), RelativeHumidity.FromPercent(61)))], Stop);
        var shop = await StoredShop.Load(_store, now, Stop);

        var input = Input(shop.Read((await _store.RepairDocument("front-rail", Stop))!));

        Assert.Equal(now, input.Repair.Now);
        Assert.All(input.Repair.PaintSlots, slot => Assert.True(slot >= now));
        Assert.Equal(17.5, input.Climate.At(now).Temperature.Celsius, 1e-6);
        Assert.Equal(0.61, input.Climate.At(now).Humidity.Fraction, 1e-6);
    }

    [Fact]
    public async Task A_car_whose_promise_has_passed_is_still_planned_and_late()
    {
        await Import(BusyWeek);
        var shop = await StoredShop.Load(_store, Instant.FromUtc(2027, 3, 1, 6, 30), Stop);
        var document = (await _store.RepairDocument("side-outer", Stop))!;
        string late = NodeJson.ObjectOf(document.Json)!["promise"]!.GetValue<string>();

        var input = Input(shop.Read(document.Id, document.Json.Replace(late, "2027-02-26T12:00", StringComparison.Ordinal)));
        var plan = RepairPlanner.Answer(input, new() { Alternatives = false, Deterministic = true }).Recommended!;

        Assert.True(plan.ReadyForDelivery > input.Repair.Promise);
        Assert.True(plan.Cost.Lateness.Amount > 0);
    }

    [Fact]
    public async Task Repairs_of_two_shops_are_not_mixed()
    {
        using var folder = new Folder();
        foreach (string name in new[] { "one", "two" })
        {
            Directory.CreateDirectory(folder.At(name));
            foreach (string file in new[] { "repair.yaml", "shop.yaml", "materials.yaml", "stock.yaml" })
                File.Copy(folder.At(file), folder.At($"{name}/{file}"));
        }

        File.Delete(folder.At("repair.yaml"));
        folder.Spoil("two/shop.yaml", "Invented shop", "Other invented shop");

        var read = ShopImport.Read(folder.Path);

        Assert.Equal("store.import-other-shop", Assert.Single(read.Problems).Key);
        Assert.Equal(0, (await _store.RepairPage(new(), stop: Stop)).Total);
    }

    private async Task Import(string path)
    {
        var read = ShopImport.Read(path);
        Assert.True(read.Problems.IsEmpty, string.Join('\n', read.Problems.Select(Repository.Shown)));
        await _store.FillShop(read.Draft!, replace: false, "test", Stop);
    }

    private static Seamwright.Work.RepairInput Input(Reading reading)
    {
        Assert.True(reading.Problems.IsEmpty, string.Join('\n', reading.Problems.Select(Repository.Shown)));
        return reading.Input!;
    }
}
