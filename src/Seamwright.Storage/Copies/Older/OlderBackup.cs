using System.Data.Common;
using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Sqlite;
using Database = Seamwright.Storage.Databases.Database;

namespace Seamwright.Storage.Copies.Older;

/// <summary>
/// Brings a backup of an older version up to date: it is put into a scratch database as that version had it, taken through the same changes as a shop's own
/// database, and written as a backup of this version.
/// </summary>
internal static class OlderBackup
{
    /// <summary>The migration after which a database looks as it did when a backup was written; null = none of ours.</summary>
    public static string? MigrationOf(ShopDb db, BackupManifest manifest) => db.Database.GetMigrations().FirstOrDefault(migration => Database.SchemaName(migration) == manifest.Schema);

    /// <summary>The model as it was after a migration.</summary>
    public static IModel ModelAt(ShopDb db, string migration)
    {
        var all = db.GetService<IMigrationsAssembly>();
        return all.CreateMigration(all.Migrations[migration], db.Database.ProviderName!).TargetModel;
    }

    /// <summary>Writes a backup of this version that holds what a checked older one holds.</summary>
    /// <returns>What the new one holds, or what is wrong with the older one.</returns>
    /// <param name="store">The store whose folder and clock are used; its data is not touched.</param>
    /// <param name="path">The older backup.</param>
    /// <param name="manifest">What it holds.</param>
    /// <param name="target">The file to write.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<(BackupManifest? Manifest, BackupFault? Fault)> BringUp(ShopStore store, string path, BackupManifest manifest, string target, CancellationToken stop)
    {
        // The rows lie there twice, once as the older version had them and once in the new file; so do the photos.
        long needed = 2 * manifest.RoomToRestore;
        if (store.FreeSpace(store.Folder.Path) < needed)
            return (null, BackupFault.NoSpace(needed));
        var scratch = new DataFolder(Path.Combine(store.Folder.Copies, Trial.Prefix + Guid.CreateVersion7().ToString("N", CultureInfo.InvariantCulture)));
        try
        {
            scratch.Create();
            if (await Fill(scratch, path, manifest, stop) is { } fault)
                return (null, fault);
            using var trial = await ShopStore.Open(scratch, null, store.Clock, stop);
            var (newer, wrong) = await Backup.WriteFile(trial, target, null, stop);
            return wrong is null ? (newer, null) : (null, wrong);
        }
        catch (Exception e) when (e is StoreUnusableException or DbException || e.GetBaseException() is DbException)
        {
            return (null, BackupFault.Of("backup.older", manifest.Schema, e.GetBaseException().Message.TrimEnd('.')));
        }
        finally
        {
            if (scratch.Exists)
                Directory.Delete(scratch.Path, recursive: true);
        }
    }

    private static async Task<BackupFault?> Fill(DataFolder scratch, string path, BackupManifest manifest, CancellationToken stop)
    {
        using var database = new SqliteDatabase(scratch);
        await using var db = database.Open();
        string migration = MigrationOf(db, manifest)!;
        await db.GetService<IMigrator>().MigrateAsync(migration, stop);

        await using var stream = File.OpenRead(path);
        using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
        await Restore.PutFiles(scratch, zip, manifest, durable: false, stop);
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        foreach (var type in Backup.InOrder(ModelAt(db, migration)))
        {
            var table = new TableShape(type);
            await using var rows = new SqliteBulkWriter(db.Database.GetDbConnection(), transaction.GetDbTransaction(), table);
            if (await Load(zip, table, rows, stop) != manifest.Tables.GetValueOrDefault(table.Name))
                return BackupFault.Of("backup.rows-missing", table.Name);
        }

        await transaction.CommitAsync(stop);
        return null;
    }

    private static async Task<long> Load(ZipArchive zip, TableShape table, SqliteBulkWriter rows, CancellationToken stop)
    {
        if (zip.GetEntry($"tables/{table.Name}.jsonl") is not { } entry)
            return 0;
        await using var lines = await entry.OpenAsync(stop);
        long count = 0;
        try
        {
            await foreach (var line in RowLines.Of(lines, ArchiveLimits.LongestRow, stop))
            {
                using var row = JsonDocument.Parse(line);
                await rows.Write([.. table.Columns.Select(column => OlderRow.Value(row.RootElement.GetProperty(column.Name), column.Property.ClrType))]);
                count++;
            }
        }
        catch (Exception e) when (e is JsonException or FormatException or InvalidOperationException or ArgumentException or KeyNotFoundException)
        {
            return -1;      // no count that a manifest can have
        }

        return count;
    }
}
