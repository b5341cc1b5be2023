using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Databases;

/// <summary>A shop's data taken from an older version to this one, or left as it was.</summary>
public class UpgradeTests
{
    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Data_of_the_first_version_is_all_there_after_an_upgrade_and_a_copy_of_before_lies_beside_it(string database)
    {
        await using var shop = await TestShop.Open(database);
        await FillAndAge(shop);
        var steps = new List<string>();

        using var store = await shop.OpenAgain(step => steps.Add(step.Key));

        await using var db = store.Database.Open();
        Assert.Empty(await db.Database.GetPendingMigrationsAsync(TestShop.Stop));
        Assert.Equal(new LogCheck(2, null), await store.CheckLog(TestShop.Stop));
        Assert.Single((await store.RepairPage(new(), stop: TestShop.Stop)).Items);
        Assert.Equal(AppendOnly.Guards.Order(), (await store.Database.GuardsThere(db, TestShop.Stop)).Order());
        Assert.Equal("upgrade.copying", steps[0]);
        Assert.Equal("upgrade.done", steps[^1]);
        Assert.Equal((await MigrationsOf(shop)).Count - 1, steps.Count(step => step == "upgrade.changing"));
        string copy = Assert.Single(Directory.EnumerateFiles(shop.Folder.Copies, "before-upgrade-FirstShop-*"));
        Assert.False(File.Exists(shop.Folder.Upgrading));
        Assert.Equal(2, await EntriesOf(copy));

        // The second time there is nothing to do.
        steps.Clear();
        (await shop.OpenAgain(step => steps.Add(step.Key))).Dispose();
        Assert.Empty(steps);
    }

    [Fact]
    public async Task What_a_copy_of_PostgreSQL_holds_can_be_restored()
    {
        await using var shop = await TestShop.Open(On.Postgres);
        await FillAndAge(shop);
        using var store = await shop.OpenAgain(_ => { });
        await store.SaveRepair(new("later", "", "{}", null, null), null, "a", TestShop.Stop);

        var outcome = await store.RestoreBackup(Directory.EnumerateFiles(shop.Folder.Copies, "before-upgrade-*").Single(), "owner", TestShop.Stop);

        Assert.Null(outcome.Fault);
        Assert.Equal(["r0"], (await store.RepairPage(new(), stop: TestShop.Stop)).Items.Select(repair => repair.Id));
        Assert.Equal(new LogCheck(2, null), await store.CheckLog(TestShop.Stop));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_change_that_fails_leaves_everything_as_it_was(string database)
    {
        await using var shop = await TestShop.Open(database);
        await FillAndAge(shop);
        await Run(shop, """CREATE TABLE "Accounts" ("Id" TEXT)""");       // what the next version wants to make

        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() => shop.OpenAgain(_ => { }));

        Assert.Equal("upgrade.failed", refused.Key);
        await IsAsItWas(shop);
        await Run(shop, """DROP TABLE "Accounts" """);
        using var store = await shop.OpenAgain(_ => { });
        Assert.Equal(new LogCheck(2, null), await store.CheckLog(TestShop.Stop));
    }

    [Theory]
    [InlineData("""DELETE FROM "Repairs" """, "Repairs: 1 → 0")]
    [InlineData("""DROP TRIGGER "WorkLog_refuses_update" """, "WorkLog_refuses_update")]
    [InlineData("""DROP TRIGGER "WorkLog_refuses_update"; UPDATE "WorkLog" SET "Who" = 'x'; CREATE TRIGGER "WorkLog_refuses_update" BEFORE UPDATE ON "WorkLog" BEGIN SELECT RAISE(ABORT, ''); END""", "WorkLog.Who")]
    [InlineData("""DROP INDEX "IX_WorkLog_Id" """, "IX_WorkLog_Id")]
    [InlineData("""ALTER TABLE "Repairs" DROP COLUMN "Title" """, "no such column")]
    public async Task What_an_upgrade_would_lose_is_seen_before_it_counts(string loss, string seen)
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await FillAndAge(shop);

        // As a change would that was written badly: on the copy, while it is changed.
        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() => shop.OpenAgain(step =>
        {
            if (step.Key != "upgrade.checking")
                return;
            using var connection = new SqliteConnection($"Data Source={shop.Folder.Upgrading};Pooling=False");
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = loss;
            command.ExecuteNonQuery();
        }));

        Assert.Contains(seen, refused.Args.Single(), StringComparison.Ordinal);
        await IsAsItWas(shop);
    }

    [Fact]
    public async Task Without_room_for_the_copies_nothing_is_begun()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await FillAndAge(shop);

        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() => shop.OpenAgain(_ => { }, _ => 1_000_000));

        Assert.Equal("upgrade.no-space", refused.Key);
        await IsAsItWas(shop);
    }

    [Fact]
    public async Task Data_that_another_program_has_open_is_not_brought_up_to_date()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await FillAndAge(shop);
        await using (var other = new SqliteConnection($"Data Source={shop.Folder.Database};Pooling=False"))
        {
            await other.OpenAsync(TestShop.Stop);
            await using var command = other.CreateCommand();
            command.CommandText = """SELECT count(*) FROM "Repairs" """;
            await command.ExecuteScalarAsync(TestShop.Stop);

            var refused = await Assert.ThrowsAsync<StoreUnusableException>(() => shop.OpenAgain(_ => { }));

            Assert.Equal("upgrade.in-use", refused.Key);
        }

        await IsAsItWas(shop);
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Of_several_that_start_at_once_one_does_it_and_all_go_on(string database)
    {
        await using var shop = await TestShop.Open(database);
        await FillAndAge(shop);

        var stores = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => Task.Run(() => shop.OpenAgain(_ => { }))));

        foreach (var store in stores)
        {
            Assert.Equal(new LogCheck(2, null), await store.CheckLog(TestShop.Stop));
            store.Dispose();
        }
        Assert.Single(Directory.EnumerateFiles(shop.Folder.Copies, "before-upgrade-*"));
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task An_upgrade_that_is_killed_at_any_step_is_done_by_the_next_start(string database)
    {
        await using var shop = await TestShop.Open(database);
        await FillAndAge(shop);

        // Longest first: what a kill leaves behind must not stand in the way of the next.
        foreach (string step in database == On.Sqlite ? (string[])["upgrade.copying", "upgrade.changing", "upgrade.checking", "upgrade.writing"] : ["upgrade.copying", "upgrade.changing", "upgrade.checking"])
        {
            await KillAt(shop, step);
            if (step != "upgrade.writing")
                Assert.Equal(2, await EntriesIn(shop));
        }

        using var store = await shop.OpenAgain(_ => { });
        Assert.Equal(new LogCheck(2, null), await store.CheckLog(TestShop.Stop));
        await using var db = store.Database.Open();
        Assert.Empty(await store.Database.Integrity(db, TestShop.Stop));
        Assert.Empty(await db.Database.GetPendingMigrationsAsync(TestShop.Stop));
        Assert.False(File.Exists(shop.Folder.Upgrading));
    }

    private static async Task KillAt(TestShop shop, string step)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Seamwright.Killed.dll"), shop.Folder.Path, step]) { RedirectStandardOutput = true, RedirectStandardError = true };
        if (shop.Connection is { } connection)
            start.Environment["SEAMWRIGHT_DATABASE"] = connection;
        using var process = Process.Start(start)!;
        string? line;
        do
            line = await process.StandardOutput.ReadLineAsync(TestShop.Stop);
        while (line is not null && line != step);
        process.Kill();
        await process.WaitForExitAsync(TestShop.Stop);
        Assert.True(line == step, line == step ? "" : await process.StandardError.ReadToEndAsync(TestShop.Stop));
    }

    private static async Task FillAndAge(TestShop shop)
    {
        await shop.Store.SaveRepair(new("r0", "Rail", "{}", null, null), null, "a", TestShop.Stop);
        for (int i = 0; i < 2; i++)
            await shop.Store.AppendWork(new WorkFact(new Guid(i, 1, 2, [3, 4, 5, 6, 7, 8, 9, 10]), Instant.FromUtc(2027, 3, 1, 8, 0), Offset.FromHours(1), "technician", "bead-applied", "r0", "{}"), TestShop.Stop);
        await using (var db = shop.Store.Database.Open())
            await db.GetService<IMigrator>().MigrateAsync(db.Database.GetMigrations().First(), TestShop.Stop);
        shop.Rest();
    }

    private static async Task IsAsItWas(TestShop shop)
    {
        Assert.Equal(2, await EntriesIn(shop));
        Assert.Equal([(await MigrationsOf(shop))[0]], await Ask<string>(shop, """SELECT "MigrationId" FROM "__EFMigrationsHistory" """));
        Assert.Empty(Directory.EnumerateFiles(shop.Folder.Copies));
        Assert.False(File.Exists(shop.Folder.Upgrading));
    }

    private static async Task<List<string>> MigrationsOf(TestShop shop)
    {
        await using var db = shop.Store.Database.Open();
        return [.. db.Database.GetMigrations()];
    }

    private static async Task<long> EntriesIn(TestShop shop) => (await Ask<long>(shop, """SELECT count(*) FROM "WorkLog" """)).Single();

    private static async Task<long> EntriesOf(string copy)
    {
        if (!copy.EndsWith(".db", StringComparison.Ordinal))
            return (await BackupCheck.Check(copy, TestShop.Stop)).Manifest!.Tables["WorkLog"];
        await using var connection = new SqliteConnection($"Data Source={copy};Pooling=False;Mode=ReadOnly");
        await connection.OpenAsync(TestShop.Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = """SELECT count(*) FROM "WorkLog" """;
        return (long)(await command.ExecuteScalarAsync(TestShop.Stop))!;
    }

    private static async Task Run(TestShop shop, string sql) => await Ask<object>(shop, sql);

    private static async Task<List<T>> Ask<T>(TestShop shop, string sql)
    {
        await using System.Data.Common.DbConnection connection = shop.Connection is { } postgres
            ? new NpgsqlConnection(postgres + ";Pooling=false") : new SqliteConnection($"Data Source={shop.Folder.Database};Pooling=False");
        await connection.OpenAsync(TestShop.Stop);
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // statements of this test
        command.CommandText = sql;
#pragma warning restore CA2100
        await using var reader = await command.ExecuteReaderAsync(TestShop.Stop);
        var values = new List<T>();
        while (await reader.ReadAsync(TestShop.Stop))
            values.Add(await reader.GetFieldValueAsync<T>(0, TestShop.Stop));
        return values;
    }
}
