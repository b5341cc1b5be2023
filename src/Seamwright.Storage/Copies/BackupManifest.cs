using System.Collections.Immutable;
using NodaTime;

namespace Seamwright.Storage.Copies;

/// <summary>What a backup holds.</summary>
/// <param name="Schema">The last change of the model it was written with.</param>
/// <param name="Written">When it was written.</param>
/// <param name="Tables">Rows of each table.</param>
/// <param name="Files">Every file of the archive with its size and hash.</param>
public sealed record BackupManifest(string Schema, Instant Written, ImmutableSortedDictionary<string, long> Tables, ImmutableSortedDictionary<string, BackupFile> Files)
{
    // Rows with their indexes take about the room of their text, the writing of them once more; an empty database some.
    internal long RoomToRestore => Files.Values.Sum(file => file.Bytes) * 2 + 10_000_000;
}

/// <summary>A file of a backup.</summary>
/// <param name="Bytes">Its size. [bytes]</param>
/// <param name="Sha256">SHA-256 of its bytes, hexadecimal.</param>
public sealed record BackupFile(long Bytes, string Sha256);

/// <summary>What is wrong with a backup.</summary>
/// <param name="Key">Key of the sentence.</param>
/// <param name="Args">Values for the sentence's places.</param>
public sealed record BackupFault(string Key, ImmutableArray<string> Args)
{
    internal static BackupFault Of(string key, params string[] args) => new(key, [.. args]);

    internal static BackupFault NoSpace(long needed) => Of("backup.no-space", (needed / 1_000_000 + 1).ToString(System.Globalization.CultureInfo.InvariantCulture));
}
