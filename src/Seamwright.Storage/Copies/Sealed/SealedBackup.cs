using System.Globalization;

namespace Seamwright.Storage.Copies.Sealed;

/// <summary>Backups that nobody can read without their passphrase.</summary>
public static class SealedBackup
{
    /// <summary>Writes a sealed backup; the file appears only when what it seals was restored on trial and comes out of it again as it went in.</summary>
    /// <returns>What the backup holds, or what was wrong.</returns>
    /// <param name="store">The store.</param>
    /// <param name="path">The file; one that is there is replaced.</param>
    /// <param name="passphrase">The passphrase.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It cannot be written.</exception>
    public static async Task<(BackupManifest? Manifest, BackupFault? Fault)> WriteSealedBackup(
        this ShopStore store, string path, string passphrase, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        if (Sealing.Weakness(passphrase) is { } weak)
            return (null, weak);
        string plain = Plain(store.Folder, "sealing");
        try
        {
            var (manifest, fault) = await Backup.WriteFile(store, plain, Trial.Of, stop);
            fault ??= await Sealing.SealFile(plain, Path.GetFullPath(path), passphrase, stop);
            if (fault is null)
                await Backup.NoteGood(store, manifest, path, by, stop);
            return (manifest, fault);
        }
        finally
        {
            File.Delete(plain);
        }
    }

    /// <summary>Restores a sealed backup: opens all of it first, then does as with an open one.</summary>
    /// <param name="store">The store.</param>
    /// <param name="path">The backup.</param>
    /// <param name="passphrase">Its passphrase.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="stop">Ends it; the old data stays.</param>
    /// <exception cref="IOException">The disk fails; the old data stays.</exception>
    public static async Task<RestoreOutcome> RestoreSealedBackup(this ShopStore store, string path, string passphrase, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        string plain = Plain(store.Folder, "opened");
        try
        {
            return await Open(path, plain, passphrase, stop) is { } fault ? new(null, fault, null) : await Restore.Restored(store, plain, Path.GetFileName(path), by, stop);
        }
        finally
        {
            File.Delete(plain);
        }
    }

    /// <summary>Looks whether a passphrase belongs to a sealed backup and all of it can be opened; keeps nothing.</summary>
    /// <returns>What is wrong; null = nothing.</returns>
    /// <param name="path">The backup.</param>
    /// <param name="passphrase">Its passphrase.</param>
    /// <param name="stop">Ends it.</param>
    public static async Task<BackupFault?> CheckSeal(string path, string passphrase, CancellationToken stop = default)
    {
        await using var source = File.OpenRead(path);
        return (await Sealing.Unseal(source, Stream.Null, passphrase, stop)).Fault;
    }

    /// <summary>What is to be told where a sealed backup comes without its passphrase.</summary>
    /// <param name="path">The backup.</param>
    public static BackupFault NeedsPassphrase(string path) => BackupFault.Of("sealed.needs-passphrase", path);

    private static async Task<BackupFault?> Open(string path, string plain, string passphrase, CancellationToken stop)
    {
        if (!File.Exists(path))
            return BackupFault.Of("backup.not-there", path);
        await using var source = File.OpenRead(path);
        await using var target = PrivateFile.Begin(plain);
        return (await Sealing.Unseal(source, target, passphrase, stop)).Fault;
    }

    // In the data folder, which only its owner may look into; what a killed process left is cleared away with the next daily copy.
    private static string Plain(DataFolder folder, string what) =>
        Path.Combine(folder.Copies, $"{what}-{Guid.CreateVersion7().ToString("N", CultureInfo.InvariantCulture)}.part");
}
