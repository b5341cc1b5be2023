using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Databases;
using Database = Seamwright.Storage.Databases.Database;

namespace Seamwright.Storage.Sqlite;

/// <summary>
/// Brings a shop's database up to date on a copy, looks at the copy, and only then writes it over the shop's own, in one transaction of the database. Until that moment, and
/// where anything fails or the power goes, the shop's own is as it was.
/// </summary>
internal sealed class SqliteUpgrade(DataFolder folder, Upgrading how)
{
    // Copy, changed copy, and what the last transaction keeps to go back by.
    private const int Copies = 3;
    private const long Besides = 20_000_000;

    /// <summary>Does it.</summary>
    /// <exception cref="StoreUnusableException">It cannot be done; everything is as it was.</exception>
    public async Task Run(CancellationToken stop)
    {
        using var alone = SqliteAlone.Take(folder.Database);
        Clear();
        long needed = Copies * new FileInfo(folder.Database).Length + Besides;
        if (how.FreeSpace(folder.Path) < needed)
            throw new StoreUnusableException("upgrade.no-space", (needed / 1_000_000).ToString(CultureInfo.InvariantCulture));
        string? copy = null;
        bool isDone = false;
        try
        {
            how.Tell("upgrade.copying", folder.Database);
            copy = Copy(alone.Connection);
            File.Copy(copy, folder.Upgrading);
            await Change(folder.Upgrading, stop);
            how.Tell("upgrade.writing");
            using (var changed = Plain(folder.Upgrading))
                changed.BackupDatabase(alone.Connection);
            isDone = true;
            how.Tell("upgrade.done", copy);
        }
        catch (Exception e) when (e is DbException or IOException or UnauthorizedAccessException || e is not StoreUnusableException && e.GetBaseException() is DbException)
        {
            throw new StoreUnusableException(e, "upgrade.failed", e.GetBaseException().Message.TrimEnd('.'));
        }
        finally
        {
            Clear();
            if (!isDone && copy is not null)
                File.Delete(copy);
        }
    }

    // The database's own copying, into a file that appears when it was looked at.
    private string Copy(SqliteConnection source)
    {
        string copy = how.CopyOf(SchemaOf(source), ".db");
        string half = copy + ".part";
        PrivateFile.Begin(half).Dispose();
        using (var target = Plain(half))
        {
            source.BackupDatabase(target);
            using var check = target.CreateCommand();
            check.CommandText = "PRAGMA integrity_check";
            if (check.ExecuteScalar() is not "ok" and var broken)
                throw new StoreUnusableException("upgrade.was-broken", Convert.ToString(broken, CultureInfo.InvariantCulture) ?? "");
        }

        File.Move(half, copy, overwrite: true);
        return copy;
    }

    private async Task Change(string file, CancellationToken stop)
    {
        using var database = new SqliteDatabase(folder, file);
        await using var db = database.Open();
        var before = await TableFacts.OfAll(database, db, stop);
        var pending = (await db.Database.GetPendingMigrationsAsync(stop)).ToList();
        var migrator = db.GetService<IMigrator>();
        for (int i = 0; i < pending.Count; i++)
        {
            how.Tell("upgrade.changing", i + 1, pending.Count, Database.SchemaName(pending[i]));
            await migrator.MigrateAsync(pending[i], stop);
        }

        await database.PutGuards(db, stop);
        how.Tell("upgrade.checking");
        if (await UpgradeCheck.Fault(database, db, before, stop) is { } fault)
            throw new StoreUnusableException("upgrade.not-whole", fault);
    }

    private void Clear()
    {
        foreach (string end in (ReadOnlySpan<string>)["", "-wal", "-shm", "-journal"])
            File.Delete(folder.Upgrading + end);
    }

    private static string SchemaOf(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = """SELECT "MigrationId" FROM "__EFMigrationsHistory" ORDER BY "MigrationId" DESC LIMIT 1""";
        return Database.SchemaName((string)command.ExecuteScalar()!);
    }

    private static SqliteConnection Plain(string file)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        connection.Open();
        return connection;
    }
}
