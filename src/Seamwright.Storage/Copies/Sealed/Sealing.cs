using System.Security.Cryptography;

namespace Seamwright.Storage.Copies.Sealed;

/// <summary>
/// Seals a backup with a passphrase: AES-256-GCM in chunks, each bound to its place and the last one to being the last (the STREAM construction of
/// Hoang, Reyhanitabar, Rogaway, Vizár, "Online Authenticated-Encryption and its Nonce-Reuse Misuse-Resistance", 2015).
/// </summary>
public static class Sealing
{
    /// <summary>Fewest characters of a passphrase: whoever finds the file may guess as often as they like.</summary>
    public const int ShortestPassphrase = 15;

    /// <summary>Whether a file is a sealed backup, by how it begins.</summary>
    /// <param name="path">The file; may be missing.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static bool IsSealed(string path)
    {
        if (!File.Exists(path))
            return false;
        using var stream = File.OpenRead(path);
        Span<byte> begins = stackalloc byte[SealHeader.Beginning.Length];
        return stream.ReadAtLeast(begins, begins.Length, throwOnEndOfStream: false) == begins.Length && begins.SequenceEqual(SealHeader.Beginning);
    }

    /// <summary>Whether a passphrase is long enough to seal with.</summary>
    /// <param name="passphrase">The passphrase.</param>
    public static BackupFault? Weakness(string passphrase) => passphrase is null || passphrase.Length < ShortestPassphrase
        ? BackupFault.Of("sealed.short", ShortestPassphrase.ToString(System.Globalization.CultureInfo.InvariantCulture))
        : null;

    /// <summary>Seals a file and opens the result again; it appears only where what comes out is what went in.</summary>
    /// <param name="plain">The file to seal.</param>
    /// <param name="target">The sealed file; one that is there is replaced.</param>
    /// <param name="passphrase">The passphrase.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    internal static async Task<BackupFault?> SealFile(string plain, string target, string passphrase, CancellationToken stop)
    {
        if (Weakness(passphrase) is { } weak)
            return weak;
        string half = $"{target}.{Environment.ProcessId}.part";
        try
        {
            byte[] expected;
            await using (var source = File.OpenRead(plain))
            await using (var sealedFile = PrivateFile.Begin(half))
            {
                expected = await Seal(source, sealedFile, passphrase, stop);
                sealedFile.Flush(flushToDisk: true);
            }

            await using (var sealedFile = File.OpenRead(half))
            {
                var (hash, fault) = await Unseal(sealedFile, Stream.Null, passphrase, stop);
                if (fault is not null || !expected.AsSpan().SequenceEqual(hash))
                    return fault ?? BackupFault.Of("sealed.damaged");
            }

            File.Move(half, target, overwrite: true);
            return null;
        }
        finally
        {
            File.Delete(half);
        }
    }

    /// <summary>Seals a stream.</summary>
    /// <returns>SHA-256 of what was sealed.</returns>
    internal static async Task<byte[]> Seal(Stream source, Stream target, string passphrase, CancellationToken stop, int rounds = SealHeader.Rounds)
    {
        using var header = SealHeader.Make(passphrase, rounds);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        target.Write(header.Bytes);
        byte[] plain = new byte[SealHeader.ChunkSize];
        byte[] next = new byte[SealHeader.ChunkSize];
        byte[] chunk = new byte[SealHeader.ChunkSize + SealHeader.TagSize];
        int length = await source.ReadAtLeastAsync(plain, plain.Length, throwOnEndOfStream: false, stop);
        for (uint number = 0; ; number = checked(number + 1))
        {
            int following = await source.ReadAtLeastAsync(next, next.Length, throwOnEndOfStream: false, stop);
            header.Encrypt(number, following == 0, plain.AsSpan(0, length), chunk);
            hash.AppendData(plain, 0, length);
            await target.WriteAsync(chunk.AsMemory(0, length + SealHeader.TagSize), stop);
            if (following == 0)
                return hash.GetHashAndReset();
            (plain, next, length) = (next, plain, following);
        }
    }

    /// <summary>Opens a sealed stream. What was written to the target counts only where there is no fault.</summary>
    /// <returns>SHA-256 of what came out, and what is wrong.</returns>
    internal static async Task<(byte[] Hash, BackupFault? Fault)> Unseal(
        Stream source, Stream target, string passphrase, CancellationToken stop, int leastRounds = SealHeader.Rounds)
    {
        byte[] first = new byte[SealHeader.Size];
        int there = await source.ReadAtLeastAsync(first, first.Length, throwOnEndOfStream: false, stop);
        var (header, fault) = SealHeader.Read(first[..there], passphrase, leastRounds);
        if (header is null)
            return ([], fault);
        using (header)
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            byte[] chunk = new byte[SealHeader.ChunkSize + SealHeader.TagSize];
            byte[] next = new byte[chunk.Length];
            byte[] plain = new byte[SealHeader.ChunkSize];
            int length = await source.ReadAtLeastAsync(chunk, chunk.Length, throwOnEndOfStream: false, stop);
            for (uint number = 0; ; number = checked(number + 1))
            {
                int following = await source.ReadAtLeastAsync(next, next.Length, throwOnEndOfStream: false, stop);
                if (!header.Decrypt(number, following == 0, chunk.AsSpan(0, length), plain))
                    return ([], BackupFault.Of("sealed.damaged"));
                hash.AppendData(plain, 0, length - SealHeader.TagSize);
                await target.WriteAsync(plain.AsMemory(0, length - SealHeader.TagSize), stop);
                if (following == 0)
                    return (hash.GetHashAndReset(), null);
                (chunk, next, length) = (next, chunk, following);
            }
        }
    }
}
