using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Postgres;
using Seamwright.Storage.Sqlite;

namespace Seamwright.Storage;

/// <summary>
/// Everything a shop keeps. What can be asked stands in <c>Queries</c>, what can be done in <c>Actions</c>, each as a method on this
/// type; a query sees one moment, an action happens as a whole or not at all. May be used from many threads at once.
/// </summary>
public sealed class ShopStore : IDisposable
{
    /// <summary>Longest time for bringing a database up to date.</summary>
    public static TimeSpan MigrationLimit { get; } = TimeSpan.FromMinutes(5);

    private ShopStore(Database database, DataFolder folder, IClock clock)
    {
        Database = database;
        Folder = folder;
        Clock = clock;
    }

    /// <summary>Where photos, keys and copies lie, and the database where it is SQLite.</summary>
    public DataFolder Folder { get; }

    /// <summary>Which database it is, for people.</summary>
    public string Shown => Database.Shown;

    /// <summary>Now, as fine as every database keeps it. [µs]</summary>
    public Instant Now
    {
        get
        {
            long ticks = Clock.GetCurrentInstant().ToUnixTimeTicks();
            return Instant.FromUnixTimeTicks(ticks - ticks % 10);
        }
    }

    internal Database Database { get; }

    internal IClock Clock { get; }

    /// <summary>Free space on the disk of a folder. [bytes]</summary>
    internal Func<string, long> FreeSpace { get; set; } = FreeOnDisk;

    /// <summary>Opens a store; makes it where it is not there, and brings it up to date.</summary>
    /// <param name="folder">Data folder.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database; null = SQLite in the folder.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <exception cref="StoreUnusableException">It cannot be opened; the key says why.</exception>
    public static Task<ShopStore> Open(DataFolder folder, string? postgres, IClock clock, CancellationToken stop = default) => Open(folder, postgres, clock, null, stop);

    /// <summary>Opens a store; makes it where it is not there, and brings it up to date.</summary>
    /// <param name="folder">Data folder.</param>
    /// <param name="postgres">Connection string of a PostgreSQL database; null = SQLite in the folder.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="progress">Told each step where the data is brought up to date; null = nobody.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <exception cref="StoreUnusableException">It cannot be opened; the key says why.</exception>
    public static Task<ShopStore> Open(DataFolder folder, string? postgres, IClock clock, IProgress<UpgradeStep>? progress, CancellationToken stop) =>
        Open(folder, postgres, clock, FreeOnDisk, progress, stop);

    internal static async Task<ShopStore> Open(
        DataFolder folder, string? postgres, IClock clock, Func<string, long> freeSpace, IProgress<UpgradeStep>? progress, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(clock);
        try
        {
            folder.Create();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnusableException(e, "store.folder", folder.Path, e.Message.TrimEnd('.'));
        }

        Database database = postgres is null ? new SqliteDatabase(folder) : new PostgresDatabase(postgres);
        try
        {
            await database.Migrate(MigrationLimit, new(folder, clock.GetCurrentInstant(), freeSpace, progress), stop);
        }
        catch
        {
            database.Dispose();
            throw;
        }

        return new(database, folder, clock);
    }

    /// <inheritdoc/>
    public void Dispose() => Database.Dispose();

    /// <summary>A new id that sorts by time.</summary>
    public Guid NewId() => Guid.CreateVersion7(Clock.GetCurrentInstant().ToDateTimeOffset());

    private static long FreeOnDisk(string folder) => new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;

    internal async Task<T> Ask<T>(Func<ShopDb, Task<T>> query)
    {
        await using var db = Database.Open();
        db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        return await query(db);
    }

    /// <summary>Runs an action in a transaction of its own; what it saved counts only where it returns.</summary>
    /// <param name="action">What is done.</param>
    /// <param name="stop">Ends the waiting.</param>
    /// <param name="keep">Whether a result is worth keeping what was done; null = always.</param>
    internal async Task<T> InOne<T>(Func<ShopDb, Task<T>> action, CancellationToken stop, Predicate<T>? keep = null)
    {
        using var turn = await Database.WriterTurn(stop);
        await using var db = Database.Open();
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var result = await action(db);
        if (keep is null || keep(result))
            await transaction.CommitAsync(stop);
        return result;
    }
}
