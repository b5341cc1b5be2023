using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;
using Seamwright.Storage.Databases;
using Database = Seamwright.Storage.Databases.Database;

namespace Seamwright.Storage.Sqlite;

/// <summary>A shop's own database in one file.</summary>
internal sealed class SqliteDatabase : Database
{
    private const int KeyTwice = 1555;
    private const int UniqueTwice = 2067;

    private readonly DataFolder _folder;
    private readonly DbContextOptions<SqliteShopDb> _options;
    private readonly string _connection;

    // Waiting here is fair and costs nothing; waiting inside the database is by chance.
    private readonly SemaphoreSlim _writer = new(1);

    /// <summary>Names a database; opens it only when asked.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="file">Another file than the folder's own; null = that one.</param>
    public SqliteDatabase(DataFolder folder, string? file = null)
    {
        _folder = folder;
        _connection = new SqliteConnectionStringBuilder { DataSource = file ?? folder.Database, ForeignKeys = true, DefaultTimeout = 20 }.ToString();
        _options = new DbContextOptionsBuilder<SqliteShopDb>().UseSqlite(_connection).AddInterceptors(new SqliteSession()).Options;
    }

    public override string Shown => _folder.Database;

    public override IEnumerable<string> Guards =>
        from table in AppendOnly.Tables
        from refused in AppendOnly.Refused
        select $"""
            CREATE TRIGGER IF NOT EXISTS "{AppendOnly.Guard(table, refused)}" BEFORE {refused} ON "{table}"
            BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END
            """;

    public override IEnumerable<string> GuardsAway => AppendOnly.Guards.Select(guard => $"DROP TRIGGER IF EXISTS \"{guard}\"");

    public override ShopDb Open() => new SqliteShopDb(_options);

    public override async Task Migrate(TimeSpan limit, Upgrading how, CancellationToken stop)
    {
        try
        {
            if (await IsUpToDate(stop))
                return;
            using var turn = await MigrationTurn.Take(_folder.MigrationLock, limit, stop);
            using var inTime = CancellationTokenSource.CreateLinkedTokenSource(stop);
            inTime.CancelAfter(limit);
            Standing standing;
            await using (var db = Open())
            {
                await ClearAbandonedLock(db, stop);
                standing = await StandingOf(db, stop);
                if (standing is Standing.Empty)
                {
                    await db.Database.MigrateAsync(inTime.Token);
                    await PutGuards(db, stop);
                }
            }

            if (standing is Standing.Older)
            {
                // The upgrade wants to be the only one who has it open.
                ClearPool();
                await new SqliteUpgrade(_folder, how).Run(inTime.Token);
            }
        }
        catch (SqliteException e)
        {
            throw new StoreUnusableException(e, "store.sqlite", _folder.Database, e.Message.TrimEnd('.'));
        }
        catch (OperationCanceledException e) when (!stop.IsCancellationRequested)
        {
            throw new StoreUnusableException(e, "store.migration-too-slow", _folder.Database);
        }
    }

    public override async Task<IDisposable> WriterTurn(CancellationToken stop)
    {
        await _writer.WaitAsync(stop);
        return new Turn(_writer);
    }

    // A transaction of SQLite is the only writer from its beginning.
    public override Task HoldLog(ShopDb db, CancellationToken stop) => Task.CompletedTask;

    public override Task<IBulkWriter> Bulk(ShopDb db, IEntityType table, CancellationToken stop) => Task.FromResult<IBulkWriter>(
        new SqliteBulkWriter(db.Database.GetDbConnection(), db.Database.CurrentTransaction!.GetDbTransaction(), new TableShape(table)));

    public override bool IsTwice(DbException exception) => exception is SqliteException { SqliteExtendedErrorCode: KeyTwice or UniqueTwice };

    public override async Task<IReadOnlyList<string>> GuardsThere(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>("SELECT name AS \"Value\" FROM sqlite_master WHERE type = 'trigger'").ToListAsync(stop);

    public override async Task<IReadOnlyList<string>> Integrity(ShopDb db, CancellationToken stop)
    {
        var found = await db.Database.SqlQueryRaw<string>("SELECT integrity_check AS \"Value\" FROM pragma_integrity_check").ToListAsync(stop);
        var orphans = await db.Database.SqlQueryRaw<string>("SELECT \"table\" || ' → ' || parent AS \"Value\" FROM pragma_foreign_key_check").ToListAsync(stop);
        return [.. found.Where(line => line != "ok"), .. orphans.Distinct()];
    }

    public override async Task<IReadOnlyList<string>> Tables(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>(
            "SELECT name AS \"Value\" FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name NOT LIKE '\\_\\_EF%' ESCAPE '\\'")
            .ToListAsync(stop);

    public override async Task<IReadOnlyList<string>> Indexes(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>("SELECT name AS \"Value\" FROM sqlite_master WHERE type = 'index'").ToListAsync(stop);

    // In WAL mode a deferred transaction keeps seeing the moment of its first reading while others write on.
    public override async Task BeginSnapshot(ShopDb db, CancellationToken stop)
    {
        await db.Database.OpenConnectionAsync(stop);
        var connection = (SqliteConnection)db.Database.GetDbConnection();
        await db.Database.UseTransactionAsync(connection.BeginTransaction(deferred: true), stop);
        await db.Database.ExecuteSqlRawAsync("SELECT count(*) FROM \"Settings\"", stop);
    }

    public override void Dispose()
    {
        ClearPool();
        _writer.Dispose();
        base.Dispose();
    }

    private async Task<bool> IsUpToDate(CancellationToken stop)
    {
        if (!File.Exists(_folder.Database))
            return false;
        try
        {
            await using var db = Open();
            if (await StandingOf(db, stop) is Standing.UpToDate)
                return true;
        }
        catch (SqliteException e) when (SqliteAlone.IsTaken(e))
        {
            // Another process is bringing it up to date: its turn is waited for.
        }

        // Whoever has the turn must not wait for a connection that only rests here.
        ClearPool();
        return false;
    }

    private void ClearPool()
    {
        using var connection = new SqliteConnection(_connection);
        SqliteConnection.ClearPool(connection);
    }

    private static async Task ClearAbandonedLock(ShopDb db, CancellationToken stop)
    {
        var there = await db.Database.SqlQueryRaw<long>("SELECT count(*) AS \"Value\" FROM sqlite_master WHERE name = '__EFMigrationsLock'").ToListAsync(stop);
        if (there[0] > 0)
            await db.Database.ExecuteSqlRawAsync("DELETE FROM \"__EFMigrationsLock\"", stop);
    }

    private sealed class Turn(SemaphoreSlim writer) : IDisposable
    {
        public void Dispose() => writer.Release();
    }
}
