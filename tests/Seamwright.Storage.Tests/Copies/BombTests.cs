using System.IO.Compression;
using System.Text;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Queries;
using Xunit;

namespace Seamwright.Storage.Tests.Copies;

/// <summary>Archives that are made to fill a machine.</summary>
public class BombTests
{
    [Theory]
    [InlineData("endless list", "backup.too-large")]
    [InlineData("table of nothing", "backup.too-large")]
    [InlineData("small by its own account", "backup.rows-missing")]     // nobody reads beyond what it says of itself, and ten bytes of it are no rows
    [InlineData("table twice", "backup.stranger")]
    public async Task An_archive_that_unfolds_into_far_more_than_its_size_is_refused_and_everything_stays(string kind, string key)
    {
        await using var shop = await TestShop.Open(On.Sqlite);
        await shop.Store.SaveRepair(new("r0", "r", "{}", null, null), null, "a", TestShop.Stop);
        string file = Path.Combine(shop.Folder.Path, "b");
        await shop.Store.WriteBackup(file, "owner", TestShop.Stop);
        await Bomb.MakeOf(file, kind);
        Assert.InRange(new FileInfo(file).Length, 1, 2_000_000);

        long before = GC.GetTotalAllocatedBytes(precise: true);
        var (_, fault) = await BackupCheck.Check(file, TestShop.Stop);
        long asked = GC.GetTotalAllocatedBytes(precise: true) - before;
        var outcome = await shop.Store.RestoreBackup(file, "owner", TestShop.Stop);

        Assert.Equal(kind == "small by its own account" ? null : key, fault?.Key);
        Assert.Equal(key, outcome.Fault?.Key);
        Assert.Single((await shop.Store.RepairPage(new(), stop: TestShop.Stop)).Items);
        // Other tests run beside this one; what it unfolds to would be twice this as text.
        Assert.True(asked < 64_000_000 || kind != "endless list", $"{asked} bytes were asked for.");
    }

    [Fact]
    public async Task A_row_that_never_ends_is_refused_before_it_fills_the_memory()
    {
        var endless = new Endless((byte)'7');

        await Assert.ThrowsAsync<FormatException>(async () =>
        {
            await foreach (var _ in RowLines.Of(endless, 1_000_000, TestShop.Stop))
                Assert.Fail("There is no row in it.");
        });
        Assert.InRange(endless.Given, 1_000_000, 2_000_000);
    }

    [Fact]
    public async Task Rows_of_every_length_are_read_as_they_were_written()
    {
        string[] rows = [.. Enumerable.Range(0, 300).Select(i => new string((char)('a' + i % 26), i * i % 200_000))];
        using var text = new MemoryStream(Encoding.UTF8.GetBytes(string.Join('\n', rows)));

        var read = new List<string>();
        await foreach (var line in RowLines.Of(text, 200_000, TestShop.Stop))
            read.Add(Encoding.UTF8.GetString(line.Span));

        Assert.Equal(rows, read);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(70_000)]        // more than the short form of a directory can count
    public void A_directory_of_a_size_that_a_shop_can_have_is_let_in(int files)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (int i = 0; i < files; i++)
                zip.CreateEntry($"photos/{i:x64}", CompressionLevel.NoCompression);
        }

        Assert.True(ArchiveLimits.HasSmallDirectory(stream));
    }

    [Theory]
    [InlineData(0, 0)]                  // the directory is nearly all of the file
    [InlineData(0, 30)]                 // a remark at the end: it could be anywhere
    [InlineData(uint.MaxValue, 0)]      // elsewhere, and nothing says where
    public void A_directory_that_would_fill_the_memory_is_not_read(uint begins, int remark)
    {
        using var folder = new TemporaryFolder();
        using var stream = File.Create(folder.At("b"));
        stream.SetLength(ArchiveLimits.LargestDirectory + 1);
        stream.Seek(0, SeekOrigin.End);
        using (var writer = new BinaryWriter(stream, Encoding.UTF8, leaveOpen: true))
        {
            writer.Write(0x06054b50u);
            writer.Write(new byte[12]);
            writer.Write(begins);
            writer.Write((ushort)remark);
            writer.Write(new byte[remark]);
        }

        Assert.False(ArchiveLimits.HasSmallDirectory(stream));
    }

    [Theory]
    [InlineData("""{"seamwright":"backup/1","schema":"s","written":"2027-03-01T06:30:00Z","tables":{},"files":{"keys/a":{"bytes":1,"sha256":""},"keys/a":{"bytes":2,"sha256":""}}}""")]
    [InlineData("""{"seamwright":"backup/1","schema":"s","written":"2027-03-01T06:30:00Z","tables":{"Audit":-1},"files":{}}""")]
    [InlineData("""{"seamwright":"backup/1","schema":"s","written":"2027-03-01T06:30:00Z","tables":{},"files":{"keys/a":{"bytes":9223372036854775807,"sha256":""}}}""")]
    [InlineData("""{"seamwright":"backup/1","schema":"s","written":"yesterday","tables":{},"files":{}}""")]
    [InlineData("""{"seamwright":"backup/1"}""")]
    [InlineData("[]")]
    [InlineData("")]
    public void A_list_of_contents_that_none_of_ours_can_be_is_none(string text) => Assert.Null(ManifestText.Read(text));

    /// <summary>One byte over and over, for ever.</summary>
    private sealed class Endless(byte value) : Stream
    {
        public long Given { get; private set; }

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => Given; set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count)
        {
            Array.Fill(buffer, value, offset, count);
            Given += count;
            return count;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
