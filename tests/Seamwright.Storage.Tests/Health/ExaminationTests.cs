using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Health;
using Xunit;

namespace Seamwright.Storage.Tests.Health;

/// <summary>What the doctor sees.</summary>
public class ExaminationTests
{
    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_store_with_a_fresh_backup_is_in_order(string database)
    {
        await using var shop = await TestShop.Open(database);
        await shop.Store.WriteBackup(Path.Combine(shop.Folder.Path, "b"), "owner", TestShop.Stop);

        Assert.Empty(await Bad(shop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Each_fault_is_seen(string database)
    {
        await using var shop = await TestShop.Open(database);
        Assert.Equal(["doctor.no-backup"], await Bad(shop));

        await shop.Store.WriteBackup(Path.Combine(shop.Folder.Path, "b"), "owner", TestShop.Stop);
        shop.Clock.Start += Duration.FromDays(8);
        Assert.Equal(["doctor.backup-old"], await Bad(shop));

        shop.Clock.Start -= Duration.FromDays(9);
        Assert.Equal(["doctor.clock-behind"], await Bad(shop));

        shop.Clock.Start += Duration.FromDays(1);
        var kept = (PhotoOutcome.Kept)await shop.Store.KeepPhoto(new("r0", null, "look-before", shop.Store.Now), new byte[] { 0xFF, 0xD8, 0xFF, 0 }, "a", TestShop.Stop);
        File.Delete(shop.Folder.PhotoPath(kept.Hash));
        Assert.Equal(["doctor.photos-missing"], await Bad(shop));

        await shop.Store.AppendWork(new WorkFact(Guid.CreateVersion7(), shop.Store.Now, Offset.Zero, "a", "k", null, "{}"), TestShop.Stop);
        await using (var db = shop.Store.Database.Open())
        {
            foreach (string statement in shop.Store.Database.GuardsAway)
                await db.Database.ExecuteSqlRawAsync(statement, TestShop.Stop);
            await db.Database.ExecuteSqlRawAsync("""UPDATE "WorkLog" SET "Who" = 'x'""", TestShop.Stop);
        }

        Assert.Equal(["doctor.guards-missing", "doctor.log-broken", "doctor.photos-missing"], await Bad(shop));
    }

    [Fact]
    public async Task Looking_where_nothing_is_makes_nothing()
    {
        using var folder = new TemporaryFolder();

        var lines = await Examination.Examine(folder.Data, null, SystemClock.Instance, TestShop.Stop);

        Assert.Equal("doctor.no-data", Assert.Single(lines).Key);
        Assert.False(folder.Data.Exists);
    }

    [Fact]
    public async Task A_damaged_file_is_seen_and_left_as_it_is()
    {
        using var folder = new TemporaryFolder();
        folder.Data.Create();
        await File.WriteAllBytesAsync(folder.Data.Database, new byte[9000], TestShop.Stop);

        var lines = await Examination.Examine(folder.Data, null, SystemClock.Instance, TestShop.Stop);

        Assert.Contains(lines, line => line is { IsGood: false, Key: "doctor.unreadable" or "doctor.schema-older" });
    }

    private static async Task<IEnumerable<string>> Bad(TestShop shop) =>
        (await Examination.Examine(shop.Folder, shop.Connection, shop.Clock, TestShop.Stop)).Where(line => !line.IsGood).Select(line => line.Key).Order();
}
