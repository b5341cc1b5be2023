using System.Security.Cryptography;
using NodaTime;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>A photo to be kept.</summary>
/// <param name="Repair">The repair.</param>
/// <param name="Place">Joint, cavity or bare area it shows; null = the car.</param>
/// <param name="Kind">What it is for, for example <c>look-before</c>.</param>
/// <param name="Taken">When it was taken.</param>
public sealed record PhotoDraft(string Repair, string? Place, string Kind, Instant Taken);

/// <summary>What became of a photo.</summary>
public abstract record PhotoOutcome
{
    private PhotoOutcome()
    {
    }

    /// <summary>It is kept.</summary>
    /// <param name="Id">Its id.</param>
    /// <param name="Hash">SHA-256 of its bytes, hexadecimal.</param>
    public sealed record Kept(Guid Id, string Hash) : PhotoOutcome;

    /// <summary>Its bytes are those of no picture that can be kept (JPEG, PNG, WebP).</summary>
    public sealed record NoPicture : PhotoOutcome;

    /// <summary>It is too large.</summary>
    /// <param name="MostBytes">Largest size. [bytes]</param>
    public sealed record TooLarge(long MostBytes) : PhotoOutcome;
}

/// <summary>Keeps photos: bytes under their hash in the data folder, what is known of them in the database.</summary>
public static class KeepingPhotos
{
    /// <summary>Largest photo. [bytes]</summary>
    public const long MostBytes = 25_000_000;

    /// <summary>Keeps a photo. Its bytes are on the disk before it counts as kept.</summary>
    /// <param name="store">The store.</param>
    /// <param name="draft">What is known of it.</param>
    /// <param name="bytes">The picture.</param>
    /// <param name="by">Who took it.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<PhotoOutcome> KeepPhoto(this ShopStore store, PhotoDraft draft, ReadOnlyMemory<byte> bytes, string by, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(draft);
        if (bytes.Length > MostBytes)
            return new PhotoOutcome.TooLarge(MostBytes);
        if (TypeOf(bytes.Span) is not { } type)
            return new PhotoOutcome.NoPicture();

        string hash = Convert.ToHexStringLower(SHA256.HashData(bytes.Span));
        await WriteFile(store.Folder, hash, bytes, stop);
        var row = RowOf(store.NewId(), draft, hash, bytes.Length, type, by, store.Now);
        return await store.InOne<PhotoOutcome>(async db =>
        {
            db.Photos.Add(row);
            await db.SaveChangesAsync(stop);
            return new PhotoOutcome.Kept(row.Id, hash);
        }, stop);
    }

    /// <summary>Where the bytes of a photo lie; spread over folders, as some systems grow slow with tens of thousands of files in one.</summary>
    /// <param name="folder">Data folder.</param>
    /// <param name="hash">Hash of the bytes.</param>
    public static string PhotoPath(this DataFolder folder, string hash)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(hash);
        if (hash.Length != 64 || !hash.All(char.IsAsciiHexDigitLower))
            throw new ArgumentException("A photo's hash has 64 hexadecimal digits.", nameof(hash));
        return Path.Combine(folder.Photos, hash[..2], hash);
    }

    internal static PhotoRow RowOf(Guid id, PhotoDraft draft, string hash, long bytes, string type, string by, Instant recorded) => new()
    {
        Id = id,
        Repair = draft.Repair,
        Place = draft.Place,
        Kind = draft.Kind,
        Taken = draft.Taken,
        Recorded = recorded,
        TakenBy = by,
        Hash = hash,
        Bytes = bytes,
        Type = type,
    };

    internal static async Task WriteFile(DataFolder folder, string hash, ReadOnlyMemory<byte> bytes, CancellationToken stop)
    {
        string path = folder.PhotoPath(hash);
        if (File.Exists(path))
            return;
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        string half = $"{path}.{Guid.CreateVersion7():N}.part";
        await using (var stream = new FileStream(half, FileMode.CreateNew, FileAccess.Write, FileShare.None))
        {
            await stream.WriteAsync(bytes, stop);
            stream.Flush(flushToDisk: true);
        }

        File.Move(half, path, overwrite: true);
    }

    /// <summary>The media type of a picture that can be kept, by its first bytes: what the sender calls it proves nothing; null = no such picture.</summary>
    /// <param name="bytes">The picture, or its beginning.</param>
    public static string? TypeOf(ReadOnlySpan<byte> bytes) => bytes switch
    {
        [0xFF, 0xD8, 0xFF, ..] => "image/jpeg",
        [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, ..] => "image/png",
        [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'E', (byte)'B', (byte)'P', ..] => "image/webp",
        _ => null,
    };
}
