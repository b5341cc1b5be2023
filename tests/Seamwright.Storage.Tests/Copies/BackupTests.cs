using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Air;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Programs;
using Seamwright.Storage.Queries;
using Seamwright.Units;
using Xunit;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>Backups: everything in, everything out again, on and between both databases.</summary>
public class BackupTests
{
    private static readonly byte[] Picture = [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3];

    public static TheoryData<string, string> FromTo => new()
    {
        { On.Sqlite, On.Sqlite }, { On.Sqlite, On.Postgres }, { On.Postgres, On.Sqlite }, { On.Postgres, On.Postgres },
    };

    [Theory]
    [MemberData(nameof(FromTo))]
    public async Task A_backup_restored_elsewhere_holds_every_row_photo_and_key(string from, string to)
    {
        await using var shop = await TestShop.Open(from);
        await using var other = await TestShop.Open(to);
        await Fill(shop.Store);
        await other.Store.SaveRepair(new("stale", "goes away", "{}", null, null), null, "a", TestShop.Stop);
        string file = Path.Combine(shop.Folder.Path, "monday.seamwright");

        var (manifest, fault) = await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        var outcome = await other.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.Null(fault);
        Assert.Null(outcome.Fault);
        Assert.Equal(await Content(shop.Store), await Content(other.Store));
        Assert.All(manifest.Tables, table => Assert.True(table.Value > 0, $"{table.Key} is empty: this test proves nothing for it."));
        Assert.Equal(new LogCheck(3, null), await other.Store.CheckLog(TestShop.Stop));
        string photo = (await other.Store.PhotosOf("r0", TestShop.Stop)).Single().Hash;
        Assert.Equal(Picture, await File.ReadAllBytesAsync(other.Folder.PhotoPath(photo), TestShop.Stop));
        Assert.Equal("secret", await File.ReadAllTextAsync(Path.Combine(other.Folder.Keys, "key-1.xml"), TestShop.Stop));
        await using var db = other.Store.Database.Open();
        Assert.Equal(AppendOnly.Guards.Order(), (await other.Store.Database.GuardsThere(db, TestShop.Stop)).Order());
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_backup_holds_every_table_of_the_database(string database)
    {
        await using var shop = await TestShop.Open(database);
        string file = Path.Combine(shop.Folder.Path, "b");

        var (manifest, _) = await shop.Store.WriteBackup(file, "owner", TestShop.Stop);

        await using var db = shop.Store.Database.Open();
        Assert.Equal((await shop.Store.Database.Tables(db, TestShop.Stop)).Order(), manifest.Tables.Keys.Order());
    }

    [Fact]
    public async Task Only_its_owner_may_read_a_backup_wherever_it_lies()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows gives a file the rights of its folder.");
        await using var shop = await TestShop.Open(On.Sqlite);
        string file = Path.Combine(shop.Folder.Path, "b");

        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);

        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Whoever_saw_a_version_before_the_restore_cannot_overwrite_what_was_restored(string database)
    {
        await using var shop = await TestShop.Open(database);
        var draft = new RepairDraft("r0", "r", "{}", null, null);
        string file = Path.Combine(shop.Folder.Path, "b");
        await shop.Store.SaveRepair(draft, null, "a", TestShop.Stop);
        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        await shop.Store.SaveRepair(draft with { Json = """{"seen":1}""" }, 1, "a", TestShop.Stop);

        await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.IsType<SaveOutcome.Overtaken>(await shop.Store.SaveRepair(draft, 1, "a", TestShop.Stop));
        Assert.IsType<SaveOutcome.Overtaken>(await shop.Store.SaveRepair(draft, 2, "a", TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task What_was_there_before_a_restore_can_be_had_back(string database)
    {
        await using var shop = await TestShop.Open(database);
        string file = Path.Combine(shop.Folder.Path, "b");
        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        await Fill(shop.Store);
        string before = await Content(shop.Store);

        var outcome = await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);
        int none = (await shop.Store.RepairPage(new(), stop: TestShop.Stop)).Total;
        await shop.Store.RestoreBackup(outcome.Before!, "owner", TestShop.Stop);

        Assert.Equal(0, none);
        Assert.Equal(before, await Content(shop.Store));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_backup_of_the_first_version_is_brought_up_to_date_when_it_is_restored(string database)
    {
        await using var shop = await TestShop.Open(database);
        await Fill(shop.Store);
        string file = Path.Combine(shop.Folder.Path, "b");
        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        await Spoil.With(file, "older");
        var older = (await BackupCheck.Check(file, TestShop.Stop)).Manifest!;
        string before = await Content(shop.Store, InFirst);
        await shop.Store.SaveRepair(new("stale", "goes away", "{}", null, null), null, "a", TestShop.Stop);

        var outcome = await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.Null(outcome.Fault);
        Assert.Equal(before, await Content(shop.Store, InFirst));
        Assert.Equal("FirstShop", older.Schema);
        Assert.DoesNotContain("Accounts", older.Tables.Keys);
        Assert.Equal(new LogCheck(3, null), await shop.Store.CheckLog(TestShop.Stop));
        static bool InFirst(string table, string column) => Spoil.FirstTables.GetValueOrDefault(table)?.Columns.Any(one => one.Name == column) ?? false;
        Assert.Equal([Path.GetFileName(outcome.Before!)], Directory.EnumerateFileSystemEntries(shop.Folder.Copies).Select(Path.GetFileName));
    }

    [Theory]
    [InlineData("Accounts")]
    public async Task A_backup_that_an_earlier_version_wrote_can_be_restored(string schema)
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        string file = Path.Combine(AppContext.BaseDirectory, "Copies", "Archives", $"{schema}.seamwright");

        var outcome = await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.Null(outcome.Fault);
        Assert.Equal(5, (await shop.Store.RepairPage(new(), stop: TestShop.Stop)).Total);
    }

    [Theory]
    [InlineData("cut", "backup.no-archive")]
    [InlineData("no archive", "backup.no-archive")]
    [InlineData("row changed", "backup.file-damaged")]
    [InlineData("table missing", "backup.file-missing")]
    [InlineData("stranger", "backup.stranger")]
    [InlineData("no manifest", "backup.no-manifest")]
    [InlineData("newer", "backup.newer")]
    [InlineData("entry forged", "backup.chain")]
    [InlineData("row forged away", "backup.rows-missing")]
    [InlineData("older, row missing", "backup.rows-missing")]
    [InlineData("not there", "backup.not-there")]
    public async Task A_backup_with_a_defect_is_refused_and_everything_stays(string defect, string key)
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await Fill(shop.Store);
        string file = Path.Combine(shop.Folder.Path, "b");
        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        string before = await Content(shop.Store);

        await Spoil.With(file, defect);
        var outcome = await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.Equal(key, outcome.Fault?.Key);
        Assert.Null(outcome.Manifest);
        Assert.Equal(before, await Content(shop.Store));
        await using var db = shop.Store.Database.Open();
        Assert.Equal(AppendOnly.Guards.Order(), (await shop.Store.Database.GuardsThere(db, TestShop.Stop)).Order());
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_backup_is_of_one_moment_while_others_write_on(string database)
    {
        await using var shop = await TestShop.Open(database);
        using var done = new CancellationTokenSource();
        // Plan and log entry are written by turns: at no moment are there more entries than plans, or two fewer.
        var writing = Task.Run(async () =>
        {
            for (int i = 0; !done.IsCancellationRequested; i++)
            {
                await shop.Store.KeepPlan(new(null, null, "", null, "", "{}", null, null, "CU"), "a", TestShop.Stop);
                await shop.Store.AppendWork(Fact(i), TestShop.Stop);
            }
        }, TestShop.Stop);

        for (int i = 0; i < 4; i++)
        {
            var (manifest, fault) = await shop.Store.WriteBackup(Path.Combine(shop.Folder.Path, $"b{i}"), "owner", TestShop.Stop);
            Assert.Null(fault);
            Assert.InRange(manifest.Tables["Plans"] - manifest.Tables["WorkLog"], 0, 1);
        }

        await done.CancelAsync();
        await writing;
    }

    /// <summary>Everything that a backup would hold, as one text, without what the restore itself has to write.</summary>
    private static Task<string> Content(ShopStore store) => Content(store, (_, _) => true);

    private static async Task<string> Content(ShopStore store, Func<string, string, bool> counts)
    {
        var text = new System.Text.StringBuilder();
        await using var db = store.Database.Open();
        foreach (var type in Backup.InOrder(db.Model).Where(type => type.GetTableName() is not "Audit"))
        {
            var table = new TableShape(type);
            var rows = ((IQueryable<object>)db.GetType().GetMethod("Set", 1, [])!.MakeGenericMethod(type.ClrType).Invoke(db, [])!).AsNoTracking();
            foreach (string row in (await rows.ToListAsync(TestShop.Stop)).Select(row => Row(table, row, counts)).Where(row => row.Length > 0 && !row.Contains(Backup.LastSetting, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
                text.Append(table.Name).AppendLine(row);
        }

        return text.ToString();
    }

    // A restore raises versions, so that nobody saves on top of one that was seen before.
    private static string Row(TableShape table, object row, Func<string, string, bool> counts) => string.Join('|', table.Columns
        .Where(column => column.Name != "Version" && counts(table.Name, column.Name))
        .Select(column => $"{column.Name}={column.Property.GetGetter().GetClrValue(row)}"));

    private static async Task Fill(ShopStore store)
    {
        var stop = TestShop.Stop;
        await store.SaveShopDocument(ShopDocument.Shop, """{"name":"Größe – ≥ 3 µm"}""", null, "owner", stop);
        await store.SaveSheet(new("PU1", "gun grade", "seam-sealer", "{}"), null, "keeper", stop);
        await store.SaveRepair(new("r0", "Rail \"near\" side\n", """{"a":1.50}""", Instant.FromUtc(2027, 3, 1, 6, 30), null), null, "a", stop);
        await store.SavePack(new("B1", "PU1", "L-1", new LocalDate(2027, 9, 30), "{}"), null, "keeper", stop);
        await store.TakePack("B1", "r0", "technician", stop);
        await store.TakeSlot(Instant.FromUtc(2027, 3, 1, 13, 0), "r0", "estimator", stop);
        var plan = await store.KeepPlan(new(null, "r0", "aa", 1, "0.1.0", "{}", Instant.FromUtc(2027, 3, 1, 9, 0), 361.02m, "CU"), "a", stop);
        await store.KeepPlan(new(plan, "r0", "ab", null, "0.1.0", "{}", null, null, "CU"), "a", stop);
        await store.AppendWork([Fact(1), Fact(2), Fact(3) with { Repair = null, Offset = Offset.FromHoursAndMinutes(-3, -30) }], stop);
        await store.AddReadings("bay", [new(Instant.FromUtc(2027, 3, 1, 6, 0), new AirState(Temperature.FromCelsius(17.3), RelativeHumidity.FromPercent(61.7)))], stop);
        await store.KeepPhoto(new("r0", "J1", "look-before", Instant.FromUtc(2027, 3, 1, 7, 0)), Picture, "technician", stop);
        await store.ChangeSetting("units", "us", "owner", stop);
        await store.NoteAudit("owner", "signed-in", "", "console", stop: stop);
        var account = new Account { Id = store.NewId(), Name = "Ada", NormalName = "ADA", Roles = ["owner", "keeper"], PasswordHash = "hash", Stamp = "stamp", LockedUntil = Instant.FromUtc(2027, 3, 1, 9, 0) };
        await store.AddAccount(account, onlyAsFirst: true, stop);
        await store.KeepSignIn(new("ab12", account.Id, [1, 2, 3], store.Now, store.Now + Duration.FromHours(12), "browser"), stop);
        var key = new ProgramKey(store.NewId(), "cd34", "seamkey_abc", "hygrometer", ["read"], account.Id, store.Now, store.Now + Duration.FromDays(365), null, null);
        await store.AddProgramKey(key, stop);
        await store.BeginAnswer(new(key.Id, "first request", "ef56", store.NewId()), stop: stop);
        await File.WriteAllTextAsync(Path.Combine(store.Folder.Keys, "key-1.xml"), "secret", stop);
    }

    private static WorkFact Fact(int number) => new(
        new Guid(number, 1, 2, [3, 4, 5, 6, 7, 8, 9, 10]), Instant.FromUtc(2027, 3, 1, 8, 0), Offset.FromHours(1), "technician", "bead-applied", "r0", """{"joint":"J1"}""");
}
