using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace Seamwright.Storage.Databases;

/// <summary>What differs between the databases.</summary>
internal abstract class Database : IDisposable
{
    /// <summary>Which database it is, for people: a file or a server, never a password.</summary>
    public abstract string Shown { get; }

    /// <summary>A new context; whoever asks disposes of it.</summary>
    public abstract ShopDb Open();

    /// <summary>Brings the schema up to date; does nothing where it is. Data that is there is changed as a whole or not at all.</summary>
    /// <exception cref="StoreUnusableException">It cannot be done, or the data is newer than the program.</exception>
    public abstract Task Migrate(TimeSpan limit, Upgrading how, CancellationToken stop);

    /// <summary>Lets one writer in at a time where the database knows only one.</summary>
    public abstract Task<IDisposable> WriterTurn(CancellationToken stop);

    /// <summary>Holds back every other writer of the work log until the transaction ends.</summary>
    public abstract Task HoldLog(ShopDb db, CancellationToken stop);

    /// <summary>A bulk writer of rows into one table, inside the context's transaction.</summary>
    public abstract Task<IBulkWriter> Bulk(ShopDb db, IEntityType table, CancellationToken stop);

    /// <summary>Whether the database said that such a key is there already.</summary>
    public abstract bool IsTwice(DbException exception);

    /// <summary>Statements that make tables refuse changes; each may be run again.</summary>
    public abstract IEnumerable<string> Guards { get; }

    /// <summary>Statements that take the guards away, for a restore inside its transaction.</summary>
    public abstract IEnumerable<string> GuardsAway { get; }

    /// <summary>Names of the guards that are there.</summary>
    public abstract Task<IReadOnlyList<string>> GuardsThere(ShopDb db, CancellationToken stop);

    /// <summary>What the database's own check found wrong; empty = nothing.</summary>
    public abstract Task<IReadOnlyList<string>> Integrity(ShopDb db, CancellationToken stop);

    /// <summary>Names of the tables that are there, the migration tool's own left out.</summary>
    public abstract Task<IReadOnlyList<string>> Tables(ShopDb db, CancellationToken stop);

    /// <summary>Names of the indexes that are there.</summary>
    public abstract Task<IReadOnlyList<string>> Indexes(ShopDb db, CancellationToken stop);

    /// <summary>Rows of a table.</summary>
    public static async Task<long> Count(ShopDb db, string table, CancellationToken stop)
    {
        // The name comes from the model.
#pragma warning disable EF1002
        return (await db.Database.SqlQueryRaw<long>($"SELECT count(*) AS \"Value\" FROM {TableShape.Quoted(table)}").ToListAsync(stop))[0];
#pragma warning restore EF1002
    }

    /// <summary>Begins a transaction that sees one moment of all tables and changes nothing.</summary>
    public abstract Task BeginSnapshot(ShopDb db, CancellationToken stop);

    /// <inheritdoc/>
    public virtual void Dispose()
    {
    }

    /// <summary>Migrations in their own order, without the moment in their names: both databases name them alike.</summary>
    public static string SchemaName(string migration) => migration[(migration.IndexOf('_', StringComparison.Ordinal) + 1)..];

    /// <summary>How the schema stands to the program's. Tells data of a newer program apart from data to be brought up to date.</summary>
    protected static async Task<Standing> StandingOf(ShopDb db, CancellationToken stop)
    {
        var known = db.Database.GetMigrations().ToList();
        var applied = (await db.Database.GetAppliedMigrationsAsync(stop)).ToList();
        if (applied.FirstOrDefault(migration => !known.Contains(migration)) is { } newer)
            throw new StoreUnusableException("store.newer", SchemaName(newer));
        return applied.Count == known.Count ? Standing.UpToDate : applied.Count == 0 ? Standing.Empty : Standing.Older;
    }

    /// <summary>How a database stands to the program.</summary>
    protected enum Standing
    {
        /// <summary>Nothing is there.</summary>
        Empty,

        /// <summary>An older version wrote it.</summary>
        Older,

        /// <summary>It is as the program has it.</summary>
        UpToDate,
    }

    internal async Task PutGuards(ShopDb db, CancellationToken stop)
    {
        foreach (string statement in Guards)
            await db.Database.ExecuteSqlRawAsync(statement, stop);
    }
}
