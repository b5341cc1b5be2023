using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Databases;

/// <summary>Opening a store.</summary>
public class OpeningTests
{
    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task A_new_database_gets_every_table_of_the_model_and_every_guard(string database)
    {
        await using var shop = await TestShop.Open(database);
        await using var db = shop.Store.Database.Open();

        var tables = await shop.Store.Database.Tables(db, TestShop.Stop);
        var guards = await shop.Store.Database.GuardsThere(db, TestShop.Stop);

        Assert.Equal(db.Model.GetEntityTypes().Select(type => type.GetTableName()).Order(), tables.Order());
        Assert.Equal(AppendOnly.Guards.Order(), guards.Order());
        Assert.Empty(await shop.Store.Database.Integrity(db, TestShop.Stop));
        Assert.False(db.Database.HasPendingModelChanges(), "The model has changed: run scripts/migration.");
    }

    [Fact]
    public void Both_databases_have_the_same_migrations_in_the_same_order()
    {
        using var sqlite = new Sqlite.SqliteShopDbFactory().CreateDbContext([]);
        using var postgres = new Postgres.PostgresShopDbFactory().CreateDbContext([]);

        Assert.Equal(sqlite.Database.GetMigrations().Select(Database.SchemaName), postgres.Database.GetMigrations().Select(Database.SchemaName));
    }

    [Fact]
    public async Task Every_connection_of_the_pool_keeps_what_was_acknowledged()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        var contexts = Enumerable.Range(0, 5).Select(_ => shop.Store.Database.Open()).ToList();

        foreach (var db in contexts)
        {
            await db.Database.OpenConnectionAsync(TestShop.Stop);
            Assert.Equal("wal", await Pragma<string>(db, "journal_mode"));
            Assert.Equal(2, await Pragma<long>(db, "synchronous"));         // FULL
            Assert.Equal(1, await Pragma<long>(db, "foreign_keys"));
            Assert.Equal(1, await Pragma<long>(db, "recursive_triggers"));
            Assert.True(await Pragma<long>(db, "busy_timeout") >= 5000);
        }

        foreach (var db in contexts)
            await db.DisposeAsync();
    }

    [Fact]
    public async Task A_migration_lock_left_by_a_killed_process_is_cleared()
    {
        using var folder = new TemporaryFolder();
        (await ShopStore.Open(folder.Data, null, SystemClock.Instance, TestShop.Stop)).Dispose();
        await using (var database = new Held(folder.Data))
        {
            // As after a kill in the middle: the lock's row is there, and so is work to do.
            await database.Run("""
                INSERT INTO "__EFMigrationsLock" VALUES (1, '2027-01-01 00:00:00');
                DELETE FROM "__EFMigrationsHistory";
                """ + string.Concat((await database.Tables()).Select(table => $"DROP TABLE \"{table}\";")));
        }

        using var store = await ShopStore.Open(folder.Data, null, SystemClock.Instance, TestShop.Stop);

        Assert.Empty((await store.RepairPage(new(), stop: TestShop.Stop)).Items);
    }

    [Fact]
    public async Task Two_processes_that_start_at_once_bring_it_up_to_date_once()
    {
        using var folder = new TemporaryFolder();

        var stores = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => ShopStore.Open(folder.Data, null, SystemClock.Instance, TestShop.Stop))));
        await Task.WhenAll(stores.Select((store, i) => store.SaveRepair(new($"r{i}", "", "{}", null, null), null, "a", TestShop.Stop)));

        Assert.Equal(4, (await stores[0].RepairPage(new(), stop: TestShop.Stop)).Total);
        Array.ForEach(stores, store => store.Dispose());
    }

    [Theory]
    [MemberData(nameof(On.Both), MemberType = typeof(On))]
    public async Task Data_of_a_newer_program_is_left_alone(string database)
    {
        await using var shop = await TestShop.Open(database);
        await using (var db = shop.Store.Database.Open())
            await db.Database.ExecuteSqlRawAsync("""INSERT INTO "__EFMigrationsHistory" VALUES ('20990101000000_Later', '10.0.15')""", TestShop.Stop);

        var refused = await Assert.ThrowsAsync<StoreUnusableException>(shop.OpenAgain);

        Assert.Equal(("store.newer", "Later"), (refused.Key, refused.Args[0]));
    }

    [Fact]
    public async Task A_file_that_is_no_database_is_told_and_left_as_it_is()
    {
        using var folder = new TemporaryFolder();
        folder.Data.Create();
        await File.WriteAllTextAsync(folder.Data.Database, new string('x', 5000), TestShop.Stop);

        var refused = await Assert.ThrowsAsync<StoreUnusableException>(() => ShopStore.Open(folder.Data, null, SystemClock.Instance, TestShop.Stop));

        Assert.Equal("store.sqlite", refused.Key);
        Assert.Equal(5000, new FileInfo(folder.Data.Database).Length);
    }

    private static async Task<T> Pragma<T>(ShopDb db, string name)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = "PRAGMA " + name;
        return (T)(await command.ExecuteScalarAsync(TestShop.Stop))!;
    }

    private sealed class Held(DataFolder folder) : IAsyncDisposable
    {
        private readonly Sqlite.SqliteDatabase _database = new(folder);

        public async Task<IReadOnlyList<string>> Tables()
        {
            await using var db = _database.Open();
            return await _database.Tables(db, TestShop.Stop);
        }

        public async Task Run(string sql)
        {
            await using var db = _database.Open();
            await db.Database.OpenConnectionAsync(TestShop.Stop);
            await db.Database.ExecuteSqlRawAsync("PRAGMA foreign_keys=OFF", TestShop.Stop);
            await db.Database.ExecuteSqlRawAsync(sql, TestShop.Stop);
        }

        public ValueTask DisposeAsync()
        {
            _database.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
