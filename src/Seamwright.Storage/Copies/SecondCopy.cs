using System.Security.Cryptography;
using Seamwright.Storage.Copies.Sealed;

namespace Seamwright.Storage.Copies;

/// <summary>A copy of a copy, in another place.</summary>
internal static class SecondCopy
{
    public static async Task<BackupFault?> Make(string file, CopyRule rule, CancellationToken stop)
    {
        string folder = rule.Second!;
        // Made by hand, never by us: where a disk is not plugged in, its folder would be made on the first disk.
        if (!Directory.Exists(folder))
            return BackupFault.Of("copies.second-not-there", folder);
        string target = Path.Combine(folder, Path.GetFileNameWithoutExtension(file) + (rule.Passphrase is null ? CopyShelf.Open : CopyShelf.Sealed));
        try
        {
            var fault = rule.Passphrase is { } passphrase ? await Sealing.SealFile(file, target, passphrase, stop) : await CopyOpen(file, target, stop);
            if (fault is null)
                KeepingCopies.ThinOut(folder, rule.Zone);
            return fault;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return BackupFault.Of("copies.second-disk", folder, e.Message.TrimEnd('.'));
        }
    }

    private static async Task<BackupFault?> CopyOpen(string file, string target, CancellationToken stop)
    {
        string half = target + ".part";
        try
        {
            await using (var source = File.OpenRead(file))
            await using (var copy = PrivateFile.Begin(half))
            {
                await source.CopyToAsync(copy, stop);
                copy.Flush(flushToDisk: true);
            }

            if (await HashOf(half, stop) != await HashOf(file, stop))
                return BackupFault.Of("copies.second-damaged", target);
            File.Move(half, target, overwrite: true);
            return null;
        }
        finally
        {
            File.Delete(half);
        }
    }

    private static async Task<string> HashOf(string file, CancellationToken stop)
    {
        await using var stream = File.OpenRead(file);
        return Convert.ToHexString(await SHA256.HashDataAsync(stream, stop));
    }
}
