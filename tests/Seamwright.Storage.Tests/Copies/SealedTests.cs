using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Copies.Sealed;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>Backups under a passphrase.</summary>
public class SealedTests
{
    private const string Words = "amber kettle ninety fjörd";
    private const int Chunk = SealHeader.ChunkSize + SealHeader.TagSize;

    // Deriving a key takes a third of a second on purpose; where only the chunks are looked at, few rounds will do.
    private const int FewRounds = 10;

    [Fact]
    public async Task A_sealed_backup_comes_back_with_its_passphrase_however_its_letters_were_typed()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await shop.Store.SaveRepair(new("r0", "r", "{}", null, null), null, "a", TestShop.Stop);
        string file = Path.Combine(shop.Folder.Path, "b.sealed");

        var (manifest, fault) = await shop.Store.WriteSealedBackup(file, Words, "owner", TestShop.Stop);
        await shop.Store.SaveRepair(new("r1", "later", "{}", null, null), null, "a", TestShop.Stop);
        var outcome = await shop.Store.RestoreSealedBackup(file, Words.Normalize(NormalizationForm.FormD), "owner", TestShop.Stop);

        Assert.Null(fault);
        Assert.Equal(1, manifest?.Tables["Repairs"]);
        Assert.Null(outcome.Fault);
        Assert.Equal(["r0"], (await shop.Store.RepairPage(new(), stop: TestShop.Stop)).Items.Select(repair => repair.Id));
        Assert.Empty(Directory.EnumerateFiles(shop.Folder.Copies, "*.part"));
    }

    [Theory]
    [InlineData(null, "sealed.needs-passphrase")]
    [InlineData("amber kettle ninety fjord", "sealed.wrong-passphrase")]
    public async Task Without_its_passphrase_nothing_of_it_is_restored(string? passphrase, string key)
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        string file = Path.Combine(shop.Folder.Path, "b.sealed");
        await shop.Store.WriteSealedBackup(file, Words, "owner", TestShop.Stop);
        await shop.Store.SaveRepair(new("r1", "later", "{}", null, null), null, "a", TestShop.Stop);

        var outcome = passphrase is null
            ? await shop.Store.RestoreBackup(file, "owner", TestShop.Stop)
            : await shop.Store.RestoreSealedBackup(file, passphrase, "owner", TestShop.Stop);

        Assert.Equal(key, outcome.Fault?.Key);
        Assert.Single((await shop.Store.RepairPage(new(), stop: TestShop.Stop)).Items);
    }

    [Fact]
    public async Task A_passphrase_that_is_soon_guessed_is_refused()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        string file = Path.Combine(shop.Folder.Path, "b.sealed");

        var (_, fault) = await shop.Store.WriteSealedBackup(file, "fourteen chars", "owner", TestShop.Stop);

        Assert.Equal("sealed.short", fault?.Key);
        Assert.False(File.Exists(file));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(SealHeader.ChunkSize)]
    [InlineData(SealHeader.ChunkSize + 1)]
    [InlineData(3 * SealHeader.ChunkSize)]
    public async Task What_was_sealed_comes_out_as_it_went_in_at_every_length(int length)
    {
        byte[] plain = Content(length);

        byte[] file = await Seal(plain);
        var (opened, fault) = await Open(file);

        Assert.Null(fault);
        Assert.Equal(plain, opened);
        Assert.Equal(SealHeader.Size + length + Math.Max(1, (length + SealHeader.ChunkSize - 1) / SealHeader.ChunkSize) * SealHeader.TagSize, file.Length);
    }

    [Fact]
    public async Task A_sealed_file_can_be_opened_by_what_the_page_of_its_format_says_and_no_code_of_ours()
    {
        byte[] plain = Content(SealHeader.ChunkSize + 100);
        byte[] file = await Seal(plain);

        // docs/formats/sealed-backup.md, step by step.
        byte[] keys = Rfc2898DeriveBytes.Pbkdf2(Words.Normalize(NormalizationForm.FormC), file[26..42], FewRounds, HashAlgorithmName.SHA512, 64);
        using var cipher = new AesGcm(keys.AsSpan(0, 32), 16);
        byte[] opened = new byte[plain.Length];
        void Decrypt(byte number, byte isLast, int from, int to, int plainFrom) => cipher.Decrypt(
            [.. file[42..49], 0, 0, 0, number, isLast], file.AsSpan(from..(to - 16)), file.AsSpan((to - 16)..to), opened.AsSpan(plainFrom, to - 16 - from), file.AsSpan(..81));
        Decrypt(0, 0, 81, 81 + 65552, 0);
        Decrypt(1, 1, 81 + 65552, file.Length, 65536);

        Assert.Equal("SeamwrightSealed", Encoding.ASCII.GetString(file[..16]));
        Assert.Equal(HMACSHA256.HashData(keys[32..], file[..49]), file[49..81]);
        Assert.Equal(plain, opened);
    }

    [Theory]
    [InlineData("cut in the last chunk")]
    [InlineData("cut between chunks")]
    [InlineData("cut after the header")]
    [InlineData("cut in the header")]
    [InlineData("appended")]
    [InlineData("chunk appended")]
    [InlineData("chunks swapped")]
    [InlineData("chunk twice")]
    [InlineData("chunk of another file")]
    [InlineData("bit turned")]
    [InlineData("mark turned")]
    public async Task A_sealed_file_in_which_anything_was_changed_is_refused(string defect)
    {
        byte[] file = await Seal(Content(3 * SealHeader.ChunkSize + 100));
        byte[] other = await Seal(Content(3 * SealHeader.ChunkSize + 100));
        var chunks = Enumerable.Range(0, 3).Select(i => file[(SealHeader.Size + i * Chunk)..(SealHeader.Size + (i + 1) * Chunk)]).ToList();
        byte[] header = file[..SealHeader.Size];
        byte[] last = file[(SealHeader.Size + 3 * Chunk)..];

        byte[] changed = defect switch
        {
            "cut in the last chunk" => file[..^50],
            "cut between chunks" => file[..^last.Length],
            "cut after the header" => header,
            "cut in the header" => header[..^1],
            "appended" => [.. file, 0],
            "chunk appended" => [.. file, .. last],
            "chunks swapped" => [.. header, .. chunks[1], .. chunks[0], .. chunks[2], .. last],
            "chunk twice" => [.. header, .. chunks[0], .. chunks[0], .. chunks[2], .. last],
            "chunk of another file" => [.. header, .. other[SealHeader.Size..(SealHeader.Size + Chunk)], .. chunks[1], .. chunks[2], .. last],
            "bit turned" => Turned(file, SealHeader.Size + Chunk + 7),
            "mark turned" => Turned(file, file.Length - 1),
            _ => throw new ArgumentOutOfRangeException(nameof(defect), defect, "No such defect."),
        };

        Assert.Equal("sealed.damaged", (await Open(changed)).Fault?.Key);
    }

    [Theory]
    [InlineData(16, "sealed.other-version")]        // version
    [InlineData(17, "sealed.other-version")]        // derivation
    [InlineData(18, "sealed.other-version")]        // more rounds than anybody would wait for
    [InlineData(22, "sealed.other-version")]        // chunk
    [InlineData(26, "sealed.wrong-passphrase")]     // salt
    [InlineData(42, "sealed.wrong-passphrase")]     // nonce
    [InlineData(49, "sealed.wrong-passphrase")]     // proof
    [InlineData(0, "sealed.damaged")]
    public async Task A_header_in_which_a_byte_was_changed_is_refused(int place, string key)
    {
        byte[] file = await Seal(Content(100));

        Assert.Equal(key, (await Open(Turned(file, place, 0x40))).Fault?.Key);
    }

    [Fact]
    public async Task A_header_that_asks_for_fewer_rounds_than_we_do_is_refused()
    {
        byte[] file = await Seal(Content(100));
        using var source = new MemoryStream(file);

        Assert.Equal("sealed.other-version", (await Sealing.Unseal(source, Stream.Null, Words, TestShop.Stop)).Fault?.Key);
    }

    [Fact]
    public async Task A_second_copy_lies_sealed_where_a_passphrase_is_set()
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        using var disk = new TemporaryFolder();
        Directory.CreateDirectory(disk.At("usb"));
        var rule = new CopyRule(CopyRule.UsualTime, DateTimeZone.Utc, disk.At("usb"), Words);

        var faults = await shop.Store.MakeDailyCopy(rule, "owner", TestShop.Stop);

        Assert.Empty(faults);
        string file = Assert.Single(Directory.EnumerateFiles(disk.At("usb")));
        Assert.EndsWith(".sealed", file, StringComparison.Ordinal);
        Assert.Null(await SealedBackup.CheckSeal(file, Words, TestShop.Stop));
    }

    private static byte[] Content(int length)
    {
        byte[] bytes = new byte[length];
        new Random(5).NextBytes(bytes);
        return bytes;
    }

    private static byte[] Turned(byte[] file, int place, byte bits = 1)
    {
        byte[] changed = [.. file];
        changed[place] ^= bits;
        return changed;
    }

    private static async Task<byte[]> Seal(byte[] plain)
    {
        using var source = new MemoryStream(plain);
        using var target = new MemoryStream();
        await Sealing.Seal(source, target, Words, TestShop.Stop, FewRounds);
        return target.ToArray();
    }

    private static async Task<(byte[] Plain, BackupFault? Fault)> Open(byte[] file)
    {
        using var source = new MemoryStream(file);
        using var target = new MemoryStream();
        var (_, fault) = await Sealing.Unseal(source, target, Words, TestShop.Stop, FewRounds);
        return (target.ToArray(), fault);
    }
}
