using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Postgres;
using Seamwright.Storage.Sqlite;
using Xunit;

namespace Seamwright.Storage.Tests;

/// <summary>The databases on which every test of the store runs.</summary>
public static class On
{
    public const string Sqlite = "sqlite";
    public const string Postgres = "postgres";

    public static TheoryData<string> Both => [Sqlite, Postgres];
}

/// <summary>An empty store of its own for one test, on one of the databases; it is gone after the test.</summary>
internal sealed class TestShop : IAsyncDisposable
{
    // The databases are brought up to date once; each test copies the result, which takes milliseconds.
    private static readonly SemaphoreSlim Turn = new(1);
    private static string? _sqliteTemplate;
    private static string? _postgresTemplate;

    private readonly DirectoryInfo _folder;
    private readonly string? _postgres;

    private TestShop(DirectoryInfo folder, string? postgres, ShopStore store, SteppingClock clock)
    {
        _folder = folder;
        _postgres = postgres;
        Store = store;
        Clock = clock;
    }

    public ShopStore Store { get; }

    public SteppingClock Clock { get; }

    public DataFolder Folder => Store.Folder;

    public string? Connection => _postgres;

    public static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static string? Server => Environment.GetEnvironmentVariable("SEAMWRIGHT_TEST_POSTGRES");

    public static async Task<TestShop> Open(string database)
    {
        Assert.SkipWhen(database == On.Postgres && Server is null, "No PostgreSQL to test on: run ./test or scripts/with-postgres.");
        var folder = Directory.CreateTempSubdirectory("seamwright-store-");
        var clock = new SteppingClock();
        await Turn.WaitAsync(Stop);
        string? connection = null;
        try
        {
            if (database == On.Postgres)
                connection = await CopyOfPostgres();
            else
                await CopySqlite(new DataFolder(folder.FullName));
        }
        finally
        {
            Turn.Release();
        }

        return new(folder, connection, await ShopStore.Open(new DataFolder(folder.FullName), connection, clock, Stop), clock);
    }

    /// <summary>Lets go of the connections that only rest, as after the process has ended.</summary>
    public void Rest()
    {
        if (_postgres is null)
        {
            using var connection = new Microsoft.Data.Sqlite.SqliteConnection(new Microsoft.Data.Sqlite.SqliteConnectionStringBuilder { DataSource = Folder.Database, ForeignKeys = true, DefaultTimeout = 20 }.ToString());
            Microsoft.Data.Sqlite.SqliteConnection.ClearPool(connection);
        }
    }

    /// <summary>A second store on the same data, as another process would have.</summary>
    public Task<ShopStore> OpenAgain() => ShopStore.Open(Folder, _postgres, Clock, Stop);

    /// <summary>A second store, with somebody to whom each step of an upgrade is told.</summary>
    public Task<ShopStore> OpenAgain(Action<UpgradeStep> step, Func<string, long>? freeSpace = null) =>
        ShopStore.Open(Folder, _postgres, Clock, freeSpace ?? (_ => long.MaxValue), new Told(step), Stop);

    private sealed class Told(Action<UpgradeStep> step) : IProgress<UpgradeStep>
    {
        public void Report(UpgradeStep value) => step(value);
    }

    /// <summary>The same on a disk that has so much room.</summary>
    /// <param name="freeSpace">Free space of a folder. [bytes]</param>
    public async Task<ShopStore> OpenAgain(Func<string, long> freeSpace)
    {
        var store = await OpenAgain();
        store.FreeSpace = freeSpace;
        return store;
    }

    public async ValueTask DisposeAsync()
    {
        Store.Dispose();
        _folder.Delete(recursive: true);
        if (_postgres is not null)
            await Command($"DROP DATABASE \"{new NpgsqlConnectionStringBuilder(_postgres).Database}\" WITH (FORCE)");
    }

    private static async Task CopySqlite(DataFolder folder)
    {
        if (_sqliteTemplate is null)
        {
            var first = new DataFolder(Directory.CreateTempSubdirectory("seamwright-template-").FullName);
            (await ShopStore.Open(first, null, SystemClock.Instance, Stop)).Dispose();
            AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(first.Path, recursive: true);
            _sqliteTemplate = first.Database;
        }

        folder.Create();
        File.Copy(_sqliteTemplate, folder.Database);
    }

    private static async Task<string> CopyOfPostgres()
    {
        if (_postgresTemplate is null)
        {
            string name = $"template_{Guid.NewGuid():N}";
            await Command($"CREATE DATABASE \"{name}\"");
            using var database = new PostgresDatabase(To(name));
            await database.Migrate(TimeSpan.FromMinutes(1), new(new DataFolder(Path.GetTempPath()), SystemClock.Instance.GetCurrentInstant(), _ => long.MaxValue, null), Stop);
            _postgresTemplate = name;
        }

        string copy = $"shop_{Guid.NewGuid():N}";
        await Command($"CREATE DATABASE \"{copy}\" TEMPLATE \"{_postgresTemplate}\"");
        return To(copy);
    }

    public static async Task<string> EmptyPostgres()
    {
        string name = $"empty_{Guid.NewGuid():N}";
        await Command($"CREATE DATABASE \"{name}\"");
        return To(name);
    }

    private static string To(string database) => new NpgsqlConnectionStringBuilder(Server) { Database = database, MaxPoolSize = 20 }.ToString();

    private static async Task Command(string sql)
    {
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(Server) { Pooling = false }.ToString());
        await connection.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(Stop);
    }
}

/// <summary>A clock that moves a little at each look, finer than a database keeps.</summary>
internal sealed class SteppingClock : IClock
{
    private long _looks;

    public Instant Start { get; set; } = Instant.FromUtc(2027, 3, 1, 6, 30);

    public Instant GetCurrentInstant() => Start + Duration.FromNanoseconds(1_234_567 * Interlocked.Increment(ref _looks));
}
