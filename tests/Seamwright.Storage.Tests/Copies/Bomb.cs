using System.Buffers.Binary;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Seamwright.Storage.Copies;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>Makes of a good backup one that unfolds into far more than its size, as somebody would who means harm: the list of contents fits it.</summary>
internal static class Bomb
{
    private const string Table = "tables/WorkLog.jsonl";
    private const long Unfolded = 64L * 1024 * 1024;
    private const uint DirectoryEntry = 0x02014b50;

    public static async Task MakeOf(string file, string kind)
    {
        string old = file + ".old";
        File.Move(file, old);
        await using (var target = File.Create(file))
        {
            using var from = ZipFile.OpenRead(old);
            using var to = new ZipArchive(target, ZipArchiveMode.Create);
            var manifest = ManifestText.Read(Text(from, Archive.Manifest))!;
            foreach (string name in manifest.Files.Keys)
            {
                if (name != Table || kind == "endless list")
                    Put(to, name, Bytes(from, name));
            }

            switch (kind)
            {
                case "endless list":
                    Put(to, Archive.Manifest, Zeros(), Unfolded);
                    break;
                case "table of nothing":
                    Put(to, Table, Zeros(), Unfolded);
                    Put(to, Archive.Manifest, Encoding.UTF8.GetBytes(With(manifest, Unfolded, HashOfZeros())));
                    break;
                case "small by its own account":
                    Put(to, Table, Zeros(), Unfolded);
                    Put(to, Archive.Manifest, Encoding.UTF8.GetBytes(With(manifest, 10, Convert.ToHexStringLower(SHA256.HashData(new byte[10])))));
                    break;
                case "table twice":
                    Put(to, Table, Bytes(from, Table));
                    Put(to, Table, Zeros(), Unfolded);
                    Put(to, Archive.Manifest, Bytes(from, Archive.Manifest));
                    break;
                default:
                    throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such bomb.");
            }
        }

        if (kind == "small by its own account")
            await SaySize(file, Table, 10);
    }

    private static string With(BackupManifest manifest, long bytes, string hash) =>
        ManifestText.Of(manifest with { Files = manifest.Files.SetItem(Table, new(bytes, hash)) });

    // The size in the archive's directory, which is what a reader believes (APPNOTE.TXT 4.3.12: 24 bytes from the entry's beginning).
    private static async Task SaySize(string file, string name, uint bytes)
    {
        byte[] all = await File.ReadAllBytesAsync(file);
        byte[] wanted = Encoding.UTF8.GetBytes(name);
        int found = 0;
        for (int i = 0; i + 46 + wanted.Length < all.Length; i++)
        {
            if (BinaryPrimitives.ReadUInt32LittleEndian(all.AsSpan(i)) == DirectoryEntry && all.AsSpan(i + 46, wanted.Length).SequenceEqual(wanted))
            {
                BinaryPrimitives.WriteUInt32LittleEndian(all.AsSpan(i + 24), bytes);
                found++;
            }
        }

        if (found != 1)
            throw new InvalidOperationException($"{name} was found {found} times in the directory.");
        await File.WriteAllBytesAsync(file, all);
    }

    private static string HashOfZeros()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        for (long rest = Unfolded; rest > 0; rest -= Zeros().Length)
            hash.AppendData(Zeros());
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static byte[] Zeros() => new byte[64 * 1024];

    private static void Put(ZipArchive zip, string name, byte[] piece, long bytes = 0)
    {
        using var entry = zip.CreateEntry(name, CompressionLevel.SmallestSize).Open();
        do
        {
            entry.Write(piece);
            bytes -= piece.Length;
        }
        while (bytes > 0);
    }

    private static byte[] Bytes(ZipArchive zip, string name)
    {
        using var entry = zip.GetEntry(name)!.Open();
        using var bytes = new MemoryStream();
        entry.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static string Text(ZipArchive zip, string name) => Encoding.UTF8.GetString(Bytes(zip, name));
}
