using System.Data;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;
using Seamwright.Storage.Copies.Older;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Postgres;

/// <summary>A database on a server.</summary>
internal sealed class PostgresDatabase : Database
{
    // Any number will do as long as all processes of all shops on this database use the same.
    private const long LogLock = 7_316_902;

    private const long UpgradeLock = 7_316_903;

    private readonly NpgsqlDataSource _source;
    private readonly DbContextOptions<PostgresShopDb> _options;

    /// <summary>Names a database; connects only when asked.</summary>
    /// <exception cref="StoreUnusableException">The connection string cannot be read.</exception>
    public PostgresDatabase(string connection)
    {
        try
        {
            var parts = new NpgsqlConnectionStringBuilder(connection);
            Shown = $"{parts.Host}/{parts.Database}";
            _source = NpgsqlDataSource.Create(parts);
        }
        catch (ArgumentException e)
        {
            throw new StoreUnusableException(e, "store.connection-string");
        }

        _options = new DbContextOptionsBuilder<PostgresShopDb>().UseNpgsql(_source).Options;
    }

    public override string Shown { get; }

    public override IEnumerable<string> Guards =>
    [
        """
        CREATE OR REPLACE FUNCTION seamwright_refuse() RETURNS trigger LANGUAGE plpgsql AS
        $$ BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$
        """,
        .. from table in AppendOnly.Tables
           from refused in AppendOnly.Refused
           select $"""
               CREATE OR REPLACE TRIGGER "{AppendOnly.Guard(table, refused)}" BEFORE {refused.ToUpperInvariant()}{(refused == "delete" ? " OR TRUNCATE" : "")} ON "{table}"
               FOR EACH STATEMENT EXECUTE FUNCTION seamwright_refuse()
               """,
    ];

    public override IEnumerable<string> GuardsAway =>
        from table in AppendOnly.Tables
        from refused in AppendOnly.Refused
        select $"DROP TRIGGER IF EXISTS \"{AppendOnly.Guard(table, refused)}\" ON \"{table}\"";

    public override ShopDb Open() => new PostgresShopDb(_options);

    public override async Task Migrate(TimeSpan limit, Upgrading how, CancellationToken stop)
    {
        using var inTime = CancellationTokenSource.CreateLinkedTokenSource(stop);
        inTime.CancelAfter(limit);
        try
        {
            await using var db = Open();
            switch (await StandingOf(db, inTime.Token))
            {
                case Standing.Empty:
                    await db.Database.MigrateAsync(inTime.Token);
                    await PutGuards(db, inTime.Token);
                    break;
                case Standing.Older:
                    await Upgrade(db, how, inTime.Token);
                    break;
            }
        }
        catch (Exception e) when (e is NpgsqlException or PostgresException)
        {
            throw new StoreUnusableException(e, "store.postgres", Shown, e.Message.TrimEnd('.'));
        }
        catch (OperationCanceledException e) when (!stop.IsCancellationRequested)
        {
            throw new StoreUnusableException(e, "store.migration-too-slow", Shown);
        }
    }

    // Everything in one transaction: this database can change its tables in one, too.
    private async Task Upgrade(ShopDb db, Upgrading how, CancellationToken stop)
    {
        string? copy = null;
        bool isDone = false;
        try
        {
            await using var transaction = await db.Database.BeginTransactionAsync(stop);
            await db.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({UpgradeLock})", stop);
            // Somebody else may have done it while this one waited.
            if (await StandingOf(db, stop) is Standing.UpToDate)
                return;
            foreach (string table in await Tables(db, stop))
                await Run(db, $"LOCK TABLE {TableShape.Quoted(table)} IN EXCLUSIVE MODE", stop);
            var before = await TableFacts.OfAll(this, db, stop);
            string last = (await db.Database.GetAppliedMigrationsAsync(stop)).Last();
            how.Tell("upgrade.copying", Shown);
            copy = await PlainBackup.Write(this, db, how, last, stop);
            var pending = (await db.Database.GetPendingMigrationsAsync(stop)).ToList();
            var migrator = db.GetService<IMigrator>();
            for (int i = 0; i < pending.Count; i++)
            {
                how.Tell("upgrade.changing", i + 1, pending.Count, SchemaName(pending[i]));
                await Run(db, migrator.GenerateScript(i == 0 ? last : pending[i - 1], pending[i], MigrationsSqlGenerationOptions.NoTransactions), stop);
            }

            await PutGuards(db, stop);
            how.Tell("upgrade.checking");
            if (await UpgradeCheck.Fault(this, db, before, stop) is { } fault)
                throw new StoreUnusableException("upgrade.not-whole", fault);
            await transaction.CommitAsync(stop);
            isDone = true;
            how.Tell("upgrade.done", copy);
        }
        catch (PostgresException e)
        {
            throw new StoreUnusableException(e, "upgrade.failed", e.MessageText.TrimEnd('.'));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnusableException(e, "upgrade.failed", e.Message.TrimEnd('.'));
        }
        finally
        {
            if (!isDone && copy is not null)
                File.Delete(copy);
        }
    }

    private static async Task Run(ShopDb db, string sql, CancellationToken stop)
    {
        await using var command = TableFacts.Command(db, sql);
        await command.ExecuteNonQueryAsync(stop);
    }

    public override Task<IDisposable> WriterTurn(CancellationToken stop) => Task.FromResult<IDisposable>(Free.One);

    public override Task HoldLog(ShopDb db, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({LogLock})", stop);

    public override async Task<IBulkWriter> Bulk(ShopDb db, IEntityType table, CancellationToken stop) =>
        await PostgresBulkWriter.Begin((NpgsqlConnection)db.Database.GetDbConnection(), new TableShape(table), stop);

    public override bool IsTwice(DbException exception) => exception is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation };

    public override async Task<IReadOnlyList<string>> GuardsThere(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>("SELECT tgname::text AS \"Value\" FROM pg_trigger WHERE NOT tgisinternal").ToListAsync(stop);

    // The server looks after its own pages; what can be asked is whether every index and key is in force.
    public override async Task<IReadOnlyList<string>> Integrity(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>(
            """
            SELECT indexrelid::regclass::text AS "Value" FROM pg_index WHERE NOT indisvalid
            UNION ALL SELECT conname::text FROM pg_constraint WHERE NOT convalidated
            """).ToListAsync(stop);

    public override async Task<IReadOnlyList<string>> Tables(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>(
            "SELECT table_name::text AS \"Value\" FROM information_schema.tables WHERE table_schema = current_schema() AND table_name NOT LIKE '\\_\\_EF%'")
            .ToListAsync(stop);

    public override async Task<IReadOnlyList<string>> Indexes(ShopDb db, CancellationToken stop) =>
        await db.Database.SqlQueryRaw<string>("SELECT indexname::text AS \"Value\" FROM pg_indexes WHERE schemaname = current_schema()").ToListAsync(stop);

    public override async Task BeginSnapshot(ShopDb db, CancellationToken stop)
    {
        await db.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, stop);
        await db.Database.ExecuteSqlRawAsync("SET TRANSACTION READ ONLY", stop);
    }

    public override void Dispose()
    {
        base.Dispose();
        _source.Dispose();
    }

    private sealed class Free : IDisposable
    {
        public static Free One { get; } = new();

        public void Dispose()
        {
        }
    }
}
