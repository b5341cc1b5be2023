using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Databases;

namespace Seamwright.Storage.Copies;

/// <summary>
/// Restores a backup where it does no harm, into a SQLite database and a folder of its own, and looks at what came out. Only what has been
/// restored once is known to restore.
/// </summary>
internal static class Trial
{
    /// <summary>Beginning of the names of the folders in which backups are tried.</summary>
    public const string Prefix = "trial-";

    /// <summary>Tries a backup that has been read back.</summary>
    /// <returns>What is wrong with it; null = it restores.</returns>
    public static async Task<BackupFault?> Of(ShopStore store, string path, BackupManifest manifest, CancellationToken stop)
    {
        long needed = manifest.RoomToRestore;
        if (store.FreeSpace(store.Folder.Path) < needed)
            return BackupFault.NoSpace(needed);
        var scratch = new DataFolder(Path.Combine(store.Folder.Copies, Prefix + Guid.CreateVersion7().ToString("N", CultureInfo.InvariantCulture)));
        try
        {
            using var trial = await ShopStore.Open(scratch, null, store.Clock, stop);
            return await Restore.Into(trial, path, manifest, durable: false, stop) ?? await Look(store, trial, manifest, stop);
        }
        catch (Exception e) when (e is StoreUnusableException or DbException || e.GetBaseException() is DbException)
        {
            return BackupFault.Of("backup.trial", e.GetBaseException().Message.TrimEnd('.'));
        }
        finally
        {
            if (scratch.Exists)
                Directory.Delete(scratch.Path, recursive: true);
        }
    }

    // The chain of the work log and the rows of each file were looked at inside the restore.
    private static async Task<BackupFault?> Look(ShopStore store, ShopStore trial, BackupManifest manifest, CancellationToken stop)
    {
        await using var db = trial.Database.Open();
        if ((await trial.Database.Integrity(db, stop)).Take(1).ToList() is [{ } broken])
            return BackupFault.Of("backup.trial", broken);
        if (AppendOnly.Guards.Except(await trial.Database.GuardsThere(db, stop)).FirstOrDefault() is { } guard)
            return BackupFault.Of("backup.trial", guard);
        foreach (var type in db.Model.GetEntityTypes())
        {
            string table = type.GetTableName()!;
            if (await Database.Count(db, table, stop) != manifest.Tables.GetValueOrDefault(table))
                return BackupFault.Of("backup.rows-missing", table);
        }

        await foreach (string hash in db.Photos.Select(row => row.Hash).Distinct().AsAsyncEnumerable().WithCancellation(stop))
        {
            string photo = trial.Folder.PhotoPath(hash);
            if (!File.Exists(photo))
            {
                // A photo that the shop itself has lost is told by the doctor; it must not stand in the way of every backup to come.
                if (File.Exists(store.Folder.PhotoPath(hash)))
                    return BackupFault.Of("backup.file-missing", $"photos/{hash}");
                continue;
            }

            await using var bytes = File.OpenRead(photo);
            if (Convert.ToHexStringLower(await SHA256.HashDataAsync(bytes, stop)) != hash)
                return BackupFault.Of("backup.file-damaged", $"photos/{hash}");
        }

        return null;
    }
}
