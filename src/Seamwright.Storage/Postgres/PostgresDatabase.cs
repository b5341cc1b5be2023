using System.Data;
using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Npgsql;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Postgres;

/// <summary>A database on a server.</summary>
internal sealed class PostgresDatabase : Database
{
    // Any number will do as long as all processes of all shops on this database use the same.
    private const long LogLock = 7_316_902;

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

    public override async Task Migrate(TimeSpan limit, CancellationToken stop)
    {
        using var inTime = CancellationTokenSource.CreateLinkedTokenSource(stop);
        inTime.CancelAfter(limit);
        try
        {
            await using var db = Open();
            if (await IsUpToDate(db, inTime.Token))
                return;
            await db.Database.MigrateAsync(inTime.Token);
            await PutGuards(db, inTime.Token);
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
