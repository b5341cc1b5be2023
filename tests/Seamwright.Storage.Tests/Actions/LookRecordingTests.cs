using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Actions;

/// <summary>A factory look is recorded as one: its photos and its entry in the work log, or neither.</summary>
public class LookRecordingTests
{
    private static readonly byte[] Picture = [0xFF, 0xD8, 0xFF, 1, 2, 3];
    private static readonly Guid Id = Guid.Parse("0198f6a0-0000-7000-8000-00000000000a");

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Photos_and_entry_are_there_together_and_a_second_delivery_changes_nothing(string database)
    {
        await using var shop = await Open(database);

        var first = await shop.Store.RecordLook(Draft("brushed"), "technician", TestShop.Stop);
        var again = await shop.Store.RecordLook(Draft("brushed"), "technician", TestShop.Stop);
        var other = await shop.Store.RecordLook(Draft("otherwise"), "technician", TestShop.Stop);
        var somebody = await shop.Store.RecordLook(Draft("brushed"), "helper", TestShop.Stop);

        Assert.Equal(new LookOutcome.Recorded(1, Repeated: false), first);
        Assert.Equal(new LookOutcome.Recorded(1, Repeated: true), again);
        Assert.IsType<LookOutcome.OtherWithThisId>(other);
        Assert.IsType<LookOutcome.OtherWithThisId>(somebody);
        var look = Assert.Single(await shop.Store.LooksOf("r0", TestShop.Stop));
        Assert.Equal(("technician", "J1", "brushed"), (look.Who, look.Place, look.Note));
        var photo = Assert.Single(await shop.Store.PhotosOf("r0", TestShop.Stop));
        Assert.Equal([photo.Id], look.Photos);
        Assert.Equal(Picture, await File.ReadAllBytesAsync(shop.Store.Folder.PhotoPath(photo.Hash), TestShop.Stop));
        Assert.Equal(new LogCheck(1, null), await shop.Store.CheckLog(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_many_deliveries_at_once_one_is_written(string database)
    {
        await using var shop = await Open(database);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => shop.Store.RecordLook(Draft("brushed"), "technician", TestShop.Stop)));

        Assert.Single(outcomes, outcome => outcome is LookOutcome.Recorded { Repeated: false });
        Assert.Equal(9, outcomes.Count(outcome => outcome is LookOutcome.Recorded { Repeated: true }));
        Assert.Single(await shop.Store.PhotosOf("r0", TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_a_repair_that_is_not_there_nothing_is_recorded(string database)
    {
        await using var shop = await Open(database);

        Assert.IsType<LookOutcome.NoRepair>(await shop.Store.RecordLook(Draft("brushed") with { Repair = "strange" }, "technician", TestShop.Stop));
        await Assert.ThrowsAsync<ArgumentException>(() => shop.Store.RecordLook(Draft("brushed") with { Photos = [new(new byte[] { 1, 2, 3 }, "")] }, "technician", TestShop.Stop));

        Assert.Empty(await shop.Store.WorkAfter(0, stop: TestShop.Stop));
    }

    private static LookDraft Draft(string note) => new(Id, "r0", "J1", note, Offset.FromHours(1), [new(Picture, new string('a', 64))]);

    private static async Task<TestShop> Open(string database)
    {
        var shop = await TestShop.Open(database);
        await shop.Store.SaveRepair(new("r0", "Repair 0", "{}", null, null), null, "a", TestShop.Stop);
        return shop;
    }
}
