using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace Seamwright.Storage.Copies;

/// <summary>
/// How much a backup may ask of a machine before it is known to be one. A small file that unfolds into far more than its size must not fill
/// memory, nor keep the machine busy for hours. Anybody can make such a file; none of these limits is near what a shop has.
/// </summary>
internal static class ArchiveLimits
{
    /// <summary>Most bytes of an archive's directory; about half a million files, fifty years of the reference shop. [bytes]</summary>
    public const long LargestDirectory = 64 * 1024 * 1024;

    /// <summary>Longest row. [bytes]</summary>
    public const int LongestRow = 64 * 1024 * 1024;

    /// <summary>A file of the archive that unfolds to less than this may have any ratio. [bytes]</summary>
    public const long SmallFile = 16 * 1024 * 1024;

    /// <summary>Most bytes that come out of one byte. Those of the reference shop come to 17 at most; the packing could do 1,032 (RFC 1951, a run of 258 in two bits).</summary>
    public const long LargestRatio = 200;

    private const int EndSize = 22;
    private const int LocatorSize = 20;
    private const uint EndSignature = 0x06054b50;
    private const uint LocatorSignature = 0x07064b50;
    private const uint WideEndSignature = 0x06064b50;

    // A list of contents has some lines of its own and a few for each file.
    private const int ManifestBase = 1024 * 1024;
    private const int ManifestPerFile = 600;

    /// <summary>Most bytes of the list of contents of an archive with so many files.</summary>
    public static int LargestManifest(int files) => checked(ManifestBase + ManifestPerFile * files);

    /// <summary>Whether a file of the archive says of itself that it unfolds into more than any of ours does.</summary>
    public static bool IsBomb(ZipArchiveEntry entry) => entry.Length > SmallFile && entry.Length / LargestRatio > entry.CompressedLength;

    /// <summary>
    /// Whether the directory of an archive is small enough to be read; looks at the end of the file only, as reading the directory is what takes the memory
    /// (APPNOTE.TXT 6.3.10 of the zip format, 4.3.14 to 4.3.16). What looks like no archive is left to whoever reads it.
    /// </summary>
    public static bool HasSmallDirectory(Stream stream)
    {
        if (stream.Length < EndSize)
            return true;
        Span<byte> end = stackalloc byte[EndSize];
        ReadAt(stream, stream.Length - EndSize, end);
        // Our archives end without a remark. One that has it was made by somebody else, and its directory could be anywhere.
        if (BinaryPrimitives.ReadUInt32LittleEndian(end) != EndSignature)
            return false;
        long begins = BinaryPrimitives.ReadUInt32LittleEndian(end[16..]);
        long ends = stream.Length - EndSize;
        bool isWide = begins == uint.MaxValue || BinaryPrimitives.ReadUInt16LittleEndian(end[10..]) == ushort.MaxValue || BinaryPrimitives.ReadUInt16LittleEndian(end[4..]) == ushort.MaxValue;
        if (isWide)
        {
            if (ends < LocatorSize)
                return false;
            Span<byte> locator = stackalloc byte[LocatorSize];
            ReadAt(stream, ends - LocatorSize, locator);
            long wide = BinaryPrimitives.ReadInt64LittleEndian(locator[8..]);
            Span<byte> wideEnd = stackalloc byte[56];
            if (BinaryPrimitives.ReadUInt32LittleEndian(locator) != LocatorSignature || wide < 0 || wide > stream.Length - wideEnd.Length)
                return false;
            ReadAt(stream, wide, wideEnd);
            if (BinaryPrimitives.ReadUInt32LittleEndian(wideEnd) != WideEndSignature)
                return false;
            begins = BinaryPrimitives.ReadInt64LittleEndian(wideEnd[48..]);
        }

        return begins >= 0 && ends - begins <= LargestDirectory;
    }

    /// <summary>Reads a text that should be short.</summary>
    /// <returns>The text; null where it is longer.</returns>
    public static async Task<string?> ReadText(Stream stream, int most, CancellationToken stop)
    {
        using var text = new MemoryStream();
        byte[] piece = new byte[64 * 1024];
        for (int read; (read = await stream.ReadAsync(piece, stop)) > 0;)
        {
            if (text.Length + read > most)
                return null;
            text.Write(piece, 0, read);
        }

        return Encoding.UTF8.GetString(text.GetBuffer(), 0, (int)text.Length);
    }

    private static void ReadAt(Stream stream, long place, Span<byte> target)
    {
        stream.Position = place;
        stream.ReadExactly(target);
        stream.Position = 0;
    }
}
