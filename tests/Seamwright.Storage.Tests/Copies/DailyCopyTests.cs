using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Xunit;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>The daily copy: made, proven by restoring it, looked at again, reported.</summary>
public class DailyCopyTests
{
    private static readonly CopyRule Rule = new(CopyRule.UsualTime, DateTimeZone.Utc);

    private static readonly byte[] Picture = [0xFF, 0xD8, 0xFF, 0xE0, 9, 9];

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_good_copy_lies_in_both_places_and_leaves_nothing_else_behind(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var disk = new TemporaryFolder();
        Directory.CreateDirectory(disk.At("usb"));
        await shop.Store.SaveRepair(new("r0", "r", "{}", null, null), null, "a", TestShop.Stop);
        await shop.Store.KeepPhoto(new("r0", null, "look-before", shop.Store.Now), Picture, "a", TestShop.Stop);

        var faults = await shop.Store.MakeDailyCopy(Rule with { Second = disk.At("usb") }, "daily copy", TestShop.Stop);

        Assert.Empty(faults);
        var copy = Assert.Single(CopyShelf.In(shop.Folder.Copies));
        Assert.Equal(await File.ReadAllBytesAsync(copy.Path, TestShop.Stop), await File.ReadAllBytesAsync(Assert.Single(Directory.GetFiles(disk.At("usb"))), TestShop.Stop));
        Assert.Equal([copy.Path], Directory.GetFileSystemEntries(shop.Folder.Copies));
        var state = await shop.Store.CopiesNow(TestShop.Stop);
        Assert.True(state.IsFresh(shop.Store.Now));
        Assert.False(state.IsFresh(shop.Store.Now + Duration.FromHours(49)));
        Assert.Null((await shop.Store.RestoreBackup(copy.Path, "a", TestShop.Stop)).Fault);
    }

    [Fact]
    public async Task A_copy_that_cannot_be_restored_is_not_kept_and_not_called_good()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        Assert.Empty(await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop));
        var good = await shop.Store.CopiesNow(TestShop.Stop);
        await shop.Store.AppendWork(new WorkFact(Guid.CreateVersion7(), shop.Store.Now, Offset.Zero, "a", "k", null, "{}"), TestShop.Stop);
        // Every hash of the archive is right; that its log is forged shows only when it is restored.
        await Forge(shop);
        shop.Clock.Start += Duration.FromDays(1);

        var faults = await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop);

        Assert.Equal("backup.chain", Assert.Single(faults).Key);
        var state = await shop.Store.CopiesNow(TestShop.Stop);
        Assert.Equal("backup.chain", Assert.Single(state.Faults).Key);
        Assert.Equal((good.LastGood, good.Copies.Length), (state.LastGood, state.Copies.Length));
        Assert.Single(Directory.GetFileSystemEntries(shop.Folder.Copies));
    }

    [Fact]
    public async Task A_copy_that_was_damaged_since_is_named_within_a_day_and_never_counts_again()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await shop.Store.KeepPhoto(new("r0", null, "look-before", shop.Store.Now), Picture, "a", TestShop.Stop);
        await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop);
        string first = CopyShelf.In(shop.Folder.Copies).Single().Path;
        byte[] bytes = await File.ReadAllBytesAsync(first, TestShop.Stop);
        bytes[bytes.AsSpan().IndexOf(Picture)] ^= 1;
        await File.WriteAllBytesAsync(first, bytes, TestShop.Stop);
        shop.Clock.Start += Duration.FromDays(1);

        await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop);

        var state = await shop.Store.CopiesNow(TestShop.Stop);
        Assert.Equal([Path.GetFileName(first)], state.Damaged);
        Assert.NotEqual(first, Assert.Single(state.Copies).Path);
        var lines = await Seamwright.Storage.Health.Examination.Glance(shop.Store, TestShop.Stop);
        Assert.Contains(lines, line => line is { IsGood: false, Key: "doctor.copies-damaged" } && line.Args[0] == Path.GetFileName(first));
    }

    [Fact]
    public async Task A_second_disk_that_is_not_plugged_in_is_told_and_the_first_copy_counts()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        string usb = Path.Combine(shop.Folder.Path, "not-plugged-in");

        var faults = await shop.Store.MakeDailyCopy(Rule with { Second = usb }, "daily copy", TestShop.Stop);

        Assert.Equal("copies.second-not-there", Assert.Single(faults).Key);
        Assert.False(Directory.Exists(usb));
        Assert.True((await shop.Store.CopiesNow(TestShop.Stop)).IsFresh(shop.Store.Now));
    }

    [Fact]
    public async Task Where_the_disk_has_no_room_to_try_it_the_copy_is_refused_with_the_room_it_needs()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        using var full = await shop.OpenAgain(_ => 10);

        var faults = await full.MakeDailyCopy(Rule, "daily copy", TestShop.Stop);

        Assert.Equal("backup.no-space", Assert.Single(faults).Key);
        Assert.Empty(CopyShelf.In(shop.Folder.Copies));
    }

    [Fact]
    public async Task A_photo_that_the_shop_itself_has_lost_does_not_stand_in_the_way_of_every_backup()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        var kept = (PhotoOutcome.Kept)await shop.Store.KeepPhoto(new("r0", null, "look-before", shop.Store.Now), Picture, "a", TestShop.Stop);
        File.Delete(shop.Folder.PhotoPath(kept.Hash));

        Assert.Empty(await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop));
    }

    [Fact]
    public async Task A_week_of_days_keeps_a_copy_of_each_and_leftovers_of_killed_ones_go()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        string trial = Directory.CreateDirectory(Path.Combine(shop.Folder.Copies, "trial-left")).FullName;
        Directory.SetLastWriteTimeUtc(trial, new DateTime(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        for (int day = 0; day < 9; day++)
        {
            await shop.Store.MakeDailyCopy(Rule, "daily copy", TestShop.Stop);
            shop.Clock.Start += Duration.FromDays(1);
        }

        // Monday 1 March to Tuesday 9 March: seven days; the month's and the weeks' last are among them.
        Assert.Equal(Enumerable.Range(3, 7), CopyShelf.In(shop.Folder.Copies).Select(copy => copy.Written.InUtc().Day));
        Assert.False(Directory.Exists(trial));
    }

    private static async Task Forge(TestShop shop)
    {
        await using var db = shop.Store.Database.Open();
        foreach (string statement in shop.Store.Database.GuardsAway)
            await db.Database.ExecuteSqlRawAsync(statement, TestShop.Stop);
        await db.Database.ExecuteSqlRawAsync("""UPDATE "WorkLog" SET "Who" = 'x'""", TestShop.Stop);
    }
}
