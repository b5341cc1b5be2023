using System.Data.Common;
using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies.Older;
using Seamwright.Storage.Databases;
using Seamwright.Storage.Queries;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Copies;

/// <summary>What became of a restore.</summary>
/// <param name="Manifest">What was restored; null where nothing was.</param>
/// <param name="Fault">Why nothing was restored; null where it was. The data is then as it was before.</param>
/// <param name="Before">Backup of what was there before.</param>
public sealed record RestoreOutcome(BackupManifest? Manifest, BackupFault? Fault, string? Before);

/// <summary>
/// Puts a backup in place of everything that is there, in one transaction: whoever reads meanwhile sees the old data until all of the new is
/// there and checked, and where anything fails, a pulled plug included, the old data simply stays.
/// </summary>
public static class Restore
{
    /// <summary>Checks a backup, backs up what is there, restores.</summary>
    /// <param name="store">The store; of either database, whichever the backup came from.</param>
    /// <param name="path">The backup.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="stop">Ends it; the old data stays.</param>
    /// <exception cref="IOException">The disk fails; the old data stays.</exception>
    public static Task<RestoreOutcome> RestoreBackup(this ShopStore store, string path, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return Sealed.Sealing.IsSealed(path)
            ? Task.FromResult(new RestoreOutcome(null, Sealed.SealedBackup.NeedsPassphrase(path), null))
            : Restored(store, path, Path.GetFileName(path), by, stop);
    }

    internal static async Task<RestoreOutcome> Restored(ShopStore store, string path, string name, string by, CancellationToken stop)
    {
        var (manifest, fault) = await BackupCheck.Check(path, stop);
        if (fault is not null || manifest is null)
            return new(null, fault, null);
        switch (Age(store, manifest))
        {
            case null:
                return new(null, BackupFault.Of("backup.newer", manifest.Schema), null);
            case true:
                return await RestoredOlder(store, path, manifest, name, by, stop);
        }

        long needed = manifest.RoomToRestore;
        if (store.FreeSpace(store.Folder.Path) < needed)
            return new(null, BackupFault.NoSpace(needed), null);

        string before = Path.Combine(store.Folder.Copies, $"before-restore-{store.Now.ToString("uuuuMMdd'T'HHmmss'-'ffffff", CultureInfo.InvariantCulture)}.seamwright");
        var (_, unreadable) = await Backup.WriteFile(store, before, null, stop);
        if (unreadable is not null)
            return new(null, unreadable, null);

        var refused = await Into(store, path, manifest, durable: true, stop);
        if (refused is not null)
            return new(null, refused, before);
        // The file that was just read is the youngest good backup of what is now there.
        await store.ChangeSetting(Backup.LastSetting, NodaTime.Text.InstantPattern.ExtendedIso.Format(manifest.Written), by, stop);
        await store.NoteAudit(by, "restored", name, "console", stop: stop);
        return new(manifest, null, before);
    }

    /// <summary>Puts a backup that was checked in place of what is there.</summary>
    /// <param name="store">The store.</param>
    /// <param name="path">The backup.</param>
    /// <param name="manifest">What it holds.</param>
    /// <param name="durable">Whether its files must have reached the disk before the rows that name them are there; not so where it is only tried.</param>
    /// <param name="stop">Ends it; the old data stays.</param>
    internal static async Task<BackupFault?> Into(ShopStore store, string path, BackupManifest manifest, bool durable, CancellationToken stop)
    {
        await using var stream = File.OpenRead(path);
        using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
        await PutFiles(store.Folder, zip, manifest, durable, stop);
        return await store.InOne<BackupFault?>(db => Replace(store, db, zip, manifest, stop), stop, keep: failed => failed is null);
    }

    // The older backup is first written anew as this version would: from there on there is one way.
    private static async Task<RestoreOutcome> RestoredOlder(ShopStore store, string path, BackupManifest manifest, string name, string by, CancellationToken stop)
    {
        string anew = Path.Combine(store.Folder.Copies, $"anew-{Guid.CreateVersion7().ToString("N", CultureInfo.InvariantCulture)}.part");
        try
        {
            var (_, fault) = await OlderBackup.BringUp(store, path, manifest, anew, stop);
            return fault is null ? await Restored(store, anew, name, by, stop) : new(null, fault, null);
        }
        finally
        {
            File.Delete(anew);
        }
    }

    // Whether a backup is older than this version; null = newer.
    private static bool? Age(ShopStore store, BackupManifest manifest)
    {
        using var db = store.Database.Open();
        return OlderBackup.MigrationOf(db, manifest) is { } migration ? migration != db.Database.GetMigrations().Last() : null;
    }

    // Photos lie under their hash and keys under their own names: adding some changes nothing for whoever is at work.
    internal static async Task PutFiles(DataFolder folder, ZipArchive zip, BackupManifest manifest, bool durable, CancellationToken stop)
    {
        foreach (string name in manifest.Files.Keys.Where(name => !name.StartsWith("tables/", StringComparison.Ordinal)))
        {
            string target = Path.Combine(folder.Path, name.Replace('/', Path.DirectorySeparatorChar));
            if (File.Exists(target) && name.StartsWith("photos/", StringComparison.Ordinal))
                continue;
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            string half = target + ".part";
            await using (var source = await zip.GetEntry(name)!.OpenAsync(stop))
            await using (var file = new FileStream(half, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                await source.CopyToAsync(file, stop);
                file.Flush(flushToDisk: durable);
            }

            File.Move(half, target, overwrite: true);
        }
    }

    private static async Task<BackupFault?> Replace(ShopStore store, ShopDb db, ZipArchive zip, BackupManifest manifest, CancellationToken stop)
    {
        // Whoever has seen a version of the old data must not be able to save on top of the same number of the new.
        long jump = await HighestVersion(db, stop);
        foreach (string statement in store.Database.GuardsAway)
            await db.Database.ExecuteSqlRawAsync(statement, stop);
        var tables = Backup.InOrder(db.Model).Select(type => new TableShape(type)).ToList();
        foreach (var table in Enumerable.Reverse(tables))
            await Run(db, $"DELETE FROM {TableShape.Quoted(table.Name)}", stop);
        foreach (var table in tables)
        {
            long count = await Load(store, db, zip, table, stop);
            if (count != manifest.Tables.GetValueOrDefault(table.Name))
                return BackupFault.Of("backup.rows-missing", table.Name);
        }

        foreach (var table in tables.Where(table => table.Columns.Any(column => column.Name == nameof(DocumentRow.Version))))
            await Run(db, $"UPDATE {TableShape.Quoted(table.Name)} SET \"Version\" = \"Version\" + {jump.ToString(CultureInfo.InvariantCulture)}", stop);
        foreach (string statement in store.Database.Guards)
            await db.Database.ExecuteSqlRawAsync(statement, stop);
        var log = await LogOfTheShop.Check(db, stop);
        return log.FirstBroken is { } broken ? BackupFault.Of("backup.chain", broken.ToString(CultureInfo.InvariantCulture)) : null;
    }

    private static async Task<long> Load(ShopStore store, ShopDb db, ZipArchive zip, TableShape table, CancellationToken stop)
    {
        // A table that the backup does not know yet stays empty.
        if (zip.GetEntry($"tables/{table.Name}.jsonl") is not { } entry)
            return 0;
        long count = 0;
        await using var lines = await entry.OpenAsync(stop);
        await using var bulk = await store.Database.Bulk(db, table.Type, stop);
        try
        {
            await foreach (var line in RowLines.Of(lines, ArchiveLimits.LongestRow, stop))
            {
                using var row = JsonDocument.Parse(line);
                await bulk.Write(RowText.Read(row.RootElement, table));
                count++;
            }
        }
        catch (Exception e) when (e is JsonException or FormatException or InvalidOperationException or ArgumentException)
        {
            return -1;      // no count that a manifest can have
        }

        await bulk.Finish();
        return count;
    }

    private static async Task<long> HighestVersion(ShopDb db, CancellationToken stop) => new[]
    {
        await db.Repairs.MaxAsync(row => (long?)row.Version, stop) ?? 0,
        await db.Sheets.MaxAsync(row => (long?)row.Version, stop) ?? 0,
        await db.Packs.MaxAsync(row => (long?)row.Version, stop) ?? 0,
        await db.ShopDocuments.MaxAsync(row => (long?)row.Version, stop) ?? 0,
        await db.Settings.MaxAsync(row => (long?)row.Version, stop) ?? 0,
    }.Max();

    // Names come from the model and numbers from us: nothing of it was typed by anyone.
    private static async Task Run(ShopDb db, string sql, CancellationToken stop)
    {
        await using DbCommand command = db.Database.GetDbConnection().CreateCommand();
        command.Transaction = Microsoft.EntityFrameworkCore.Storage.DbContextTransactionExtensions.GetDbTransaction(db.Database.CurrentTransaction!);
#pragma warning disable CA2100
        command.CommandText = sql;
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync(stop);
    }
}
