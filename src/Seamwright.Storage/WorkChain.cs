using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage;

/// <summary>Links each entry of the work log to the one before, so that a changed, missing or swapped entry shows.</summary>
internal static class WorkChain
{
    /// <summary>What stands before the first entry.</summary>
    public static string Beginning { get; } = new('0', 64);

    /// <summary>SHA-256 over the previous hash and every field, each with its length, so that no two entries read alike.</summary>
    public static string HashOf(WorkRow row)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> number = stackalloc byte[8];
        foreach (long value in (ReadOnlySpan<long>)[row.Sequence, row.At.ToUnixTimeTicks(), row.OffsetSeconds, row.Recorded.ToUnixTimeTicks()])
        {
            BinaryPrimitives.WriteInt64BigEndian(number, value);
            hash.AppendData(number);
        }

        foreach (string? text in (ReadOnlySpan<string?>)[row.Previous, row.Id.ToString("D"), row.Who, row.Kind, row.Repair, row.Facts])
        {
            byte[] bytes = text is null ? [] : Encoding.UTF8.GetBytes(text);
            BinaryPrimitives.WriteInt64BigEndian(number, text is null ? -1 : bytes.Length);
            hash.AppendData(number);
            hash.AppendData(bytes);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Whether an entry follows the one before it and is as it was written.</summary>
    public static bool Follows(WorkRow row, long lastSequence, string lastHash) =>
        row.Sequence == lastSequence + 1 && row.Previous == lastHash && row.Hash == HashOf(row);
}
