using System.Collections.Immutable;
using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Copies;

/// <summary>Writes backups of a running store.</summary>
public static class Backup
{
    /// <summary>Setting with the moment of the last backup that is known to restore.</summary>
    public const string LastSetting = "backup.last";

    private static readonly MethodInfo WriteRowsOf = typeof(Backup).GetMethod(nameof(WriteRows), BindingFlags.NonPublic | BindingFlags.Static)!;

    /// <summary>
    /// Writes everything into one file, as of one moment, while others go on working: all tables, photos, keys, a manifest with sizes and
    /// hashes. The file appears only when it is whole, has been read back, and has been restored on trial.
    /// </summary>
    /// <returns>What the backup holds, or what was wrong when it was read back.</returns>
    /// <param name="store">The store.</param>
    /// <param name="path">The file; one that is there is replaced.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="stop">Ends the writing.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be written.</exception>
    public static async Task<(BackupManifest Manifest, BackupFault? Fault)> WriteBackup(this ShopStore store, string path, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        var (manifest, fault) = await WriteFile(store, path, Trial.Of, stop);
        if (fault is null)
            await NoteGood(store, manifest, path, by, stop);
        return (manifest, fault);
    }

    /// <summary>Writes down that there is a backup that is known to restore.</summary>
    internal static async Task NoteGood(ShopStore store, BackupManifest manifest, string path, string by, CancellationToken stop)
    {
        await store.ChangeSetting(LastSetting, NodaTime.Text.InstantPattern.ExtendedIso.Format(manifest.Written), by, stop);
        await store.NoteAudit(by, "backed-up", Path.GetFileName(path), "console", stop: stop);
    }

    /// <summary>Writes a backup that is read back and then held to a further trial; the file appears only where it stands both.</summary>
    internal static async Task<(BackupManifest Manifest, BackupFault? Fault)> WriteFile(
        ShopStore store, string path, Func<ShopStore, string, BackupManifest, CancellationToken, Task<BackupFault?>>? trial, CancellationToken stop)
    {
        string full = Path.GetFullPath(path);
        string half = $"{full}.{Environment.ProcessId}.part";
        try
        {
            BackupManifest manifest;
            await using (var stream = PrivateFile.Begin(half))
            {
                manifest = await Write(store, stream, stop);
                stream.Flush(flushToDisk: true);
            }

            var (_, fault) = await BackupCheck.Check(half, stop);
            if (fault is null && trial is not null)
                fault = await trial(store, half, manifest, stop);
            if (fault is not null)
                return (manifest, fault);
            File.Move(half, full, overwrite: true);
            return (manifest, null);
        }
        finally
        {
            File.Delete(half);
        }
    }

    private static async Task<BackupManifest> Write(ShopStore store, Stream stream, CancellationToken stop)
    {
        using var archive = new Archive(stream);
        var counts = ImmutableSortedDictionary.CreateBuilder<string, long>(StringComparer.Ordinal);
        await using var db = store.Database.Open();
        db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        await store.Database.BeginSnapshot(db, stop);
        var written = store.Now;
        string schema = Database.SchemaName(db.Database.GetMigrations().Last());
        foreach (var type in InOrder(db.Model))
        {
            var table = new TableShape(type);
            await archive.Put($"tables/{table.Name}.jsonl", compress: true, async target =>
                counts.Add(table.Name, await (Task<long>)WriteRowsOf.MakeGenericMethod(type.ClrType).Invoke(null, [db, table, target, stop])!));
        }

        // Files are only ever added, and before their rows: whatever the rows name is there.
        foreach (var (folder, name) in new[] { (store.Folder.Photos, "photos"), (store.Folder.Keys, "keys") })
        {
            foreach (string file in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Where(file => !file.EndsWith(".part", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
            {
                stop.ThrowIfCancellationRequested();
                string entry = $"{name}/{Path.GetRelativePath(folder, file).Replace('\\', '/')}";
                await archive.Put(entry, compress: false, async target =>
                {
                    await using var source = File.OpenRead(file);
                    await source.CopyToAsync(target, stop);
                });
            }
        }

        var manifest = new BackupManifest(schema, written, counts.ToImmutable(), archive.Files);
        await archive.PutManifest(ManifestText.Of(manifest));
        return manifest;
    }

    /// <summary>Tables so that each comes after those it refers to.</summary>
    internal static IEnumerable<IEntityType> InOrder(IModel model)
    {
        var waiting = model.GetEntityTypes().OrderBy(type => type.GetTableName(), StringComparer.Ordinal).ToList();
        while (waiting.Count > 0)
        {
            var next = waiting.First(type => type.GetForeignKeys().All(key => key.PrincipalEntityType == type || !waiting.Contains(key.PrincipalEntityType)));
            waiting.Remove(next);
            yield return next;
        }
    }

    private static async Task<long> WriteRows<TRow>(ShopDb db, TableShape table, Stream target, CancellationToken stop)
        where TRow : class
    {
        long count = 0;
        IQueryable<TRow> rows = db.Set<TRow>();
        bool first = true;
        foreach (var key in table.Type.FindPrimaryKey()!.Properties)
        {
            rows = first ? rows.OrderBy(row => EF.Property<object>(row, key.Name)) : ((IOrderedQueryable<TRow>)rows).ThenBy(row => EF.Property<object>(row, key.Name));
            first = false;
        }

        await using var json = new Utf8JsonWriter(target);
        await foreach (var row in rows.AsAsyncEnumerable().WithCancellation(stop))
        {
            RowText.Write(json, table, row);
            await json.FlushAsync(stop);
            json.Reset();
            target.Write("\n"u8);
            count++;
        }

        return count;
    }
}
