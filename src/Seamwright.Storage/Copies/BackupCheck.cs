using System.Collections.Immutable;
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
            using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            if (zip.GetEntry(Archive.Manifest) is not { } entry)
                return (null, BackupFault.Of("backup.no-manifest", path));
            using var reader = new StreamReader(await entry.OpenAsync(stop));
            if (ManifestText.Read(await reader.ReadToEndAsync(stop)) is not { } manifest)
                return (null, BackupFault.Of("backup.other-kind", path));
            foreach (var (name, expected) in manifest.Files)
            {
                if (await Fault(zip, name, expected, stop) is { } fault)
                    return (null, fault);
            }

            var strangers = zip.Entries.Select(one => one.FullName).Where(name => name != Archive.Manifest && !manifest.Files.ContainsKey(name)).Take(1).ToImmutableArray();
            return strangers.IsEmpty ? (manifest, null) : (null, BackupFault.Of("backup.stranger", path, strangers[0]));
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

    private static async Task<BackupFault?> Fault(ZipArchive zip, string name, BackupFile expected, CancellationToken stop)
    {
        if (zip.GetEntry(name) is not { } entry)
            return BackupFault.Of("backup.file-missing", name);
        if (IsOutside(name))
            return BackupFault.Of("backup.stranger", "", name);
        if (entry.Length != expected.Bytes)
            return BackupFault.Of("backup.file-damaged", name);
        await using var content = await entry.OpenAsync(stop);
        try
        {
            return Convert.ToHexStringLower(await SHA256.HashDataAsync(content, stop)) == expected.Sha256 ? null : BackupFault.Of("backup.file-damaged", name);
        }
        catch (InvalidDataException)
        {
            return BackupFault.Of("backup.file-damaged", name);
        }
    }

    // A name with .. in it would be written outside the data folder.
    private static bool IsOutside(string name) =>
        name.Contains('\\', StringComparison.Ordinal) || name.StartsWith('/') || name.Contains(':', StringComparison.Ordinal)
        || name.Split('/').Any(part => part is ".." or "." or "")
        || !(name.StartsWith("tables/", StringComparison.Ordinal) || name.StartsWith("photos/", StringComparison.Ordinal) || name.StartsWith("keys/", StringComparison.Ordinal));
}
