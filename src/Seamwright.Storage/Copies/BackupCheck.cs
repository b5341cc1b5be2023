using System.IO.Compression;
using System.Security.Cryptography;

namespace Seamwright.Storage.Copies;

/// <summary>Looks at a backup before anything is done with it.</summary>
public static class BackupCheck
{
    /// <summary>Checks that a file is a whole backup: every file of the manifest is there, of its size and hash, and no other.</summary>
    /// <returns>The manifest, or what is wrong.</returns>
    /// <param name="path">The file.</param>
    /// <param name="stop">Ends the reading.</param>
    public static async Task<(BackupManifest? Manifest, BackupFault? Fault)> Check(string path, CancellationToken stop = default)
    {
        try
        {
            await using var stream = File.OpenRead(path);
            if (!ArchiveLimits.HasSmallDirectory(stream))
                return (null, BackupFault.Of("backup.no-archive", path));
            using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            if (zip.GetEntry(Archive.Manifest) is not { } entry)
                return (null, BackupFault.Of("backup.no-manifest", path));
            await using var list = await entry.OpenAsync(stop);
            if (await ArchiveLimits.ReadText(list, ArchiveLimits.LargestManifest(zip.Entries.Count), stop) is not { } text)
                return (null, BackupFault.Of("backup.too-large", Archive.Manifest));
            if (ManifestText.Read(text) is not { } manifest)
                return (null, BackupFault.Of("backup.other-kind", path));
            if (Stranger(zip, manifest) is { } stranger)
                return (null, BackupFault.Of("backup.stranger", path, stranger));
            foreach (var (name, expected) in manifest.Files)
            {
                if (await Fault(zip, name, expected, stop) is { } fault)
                    return (null, fault);
            }

            return (manifest, null);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return (null, BackupFault.Of("backup.not-there", path));
        }
        catch (InvalidDataException)
        {
            return (null, BackupFault.Of("backup.no-archive", path));
        }
    }

    // Of two files with one name a reader might check the one and use the other.
    private static string? Stranger(ZipArchive zip, BackupManifest manifest)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        return zip.Entries.Select(one => one.FullName).FirstOrDefault(name => !seen.Add(name) || name != Archive.Manifest && !manifest.Files.ContainsKey(name));
    }

    private static async Task<BackupFault?> Fault(ZipArchive zip, string name, BackupFile expected, CancellationToken stop)
    {
        if (zip.GetEntry(name) is not { } entry)
            return BackupFault.Of("backup.file-missing", name);
        if (IsOutside(name))
            return BackupFault.Of("backup.stranger", "", name);
        if (entry.Length != expected.Bytes)
            return BackupFault.Of("backup.file-damaged", name);
        if (ArchiveLimits.IsBomb(entry))
            return BackupFault.Of("backup.too-large", name);
        await using var content = await entry.OpenAsync(stop);
        try
        {
            return await HashOf(content, expected.Bytes, stop) == expected.Sha256 ? null : BackupFault.Of("backup.file-damaged", name);
        }
        catch (InvalidDataException)
        {
            return BackupFault.Of("backup.file-damaged", name);
        }
    }

    // What an archive says of its sizes need not be so: what comes out is counted, and one byte too many ends it.
    private static async Task<string?> HashOf(Stream content, long bytes, CancellationToken stop)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] piece = new byte[64 * 1024];
        for (int read; (read = await content.ReadAsync(piece, stop)) > 0;)
        {
            bytes -= read;
            if (bytes < 0)
                return null;
            hash.AppendData(piece, 0, read);
        }

        return bytes == 0 ? Convert.ToHexStringLower(hash.GetHashAndReset()) : null;
    }

    // A name with .. in it would be written outside the data folder.
    private static bool IsOutside(string name) =>
        name.Contains('\\', StringComparison.Ordinal) || name.StartsWith('/') || name.Contains(':', StringComparison.Ordinal)
        || name.Split('/').Any(part => part is ".." or "." or "")
        || !(name.StartsWith("tables/", StringComparison.Ordinal) || name.StartsWith("photos/", StringComparison.Ordinal) || name.StartsWith("keys/", StringComparison.Ordinal));
}
