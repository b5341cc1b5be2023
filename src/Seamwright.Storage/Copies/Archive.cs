using System.Collections.Immutable;
using System.IO.Compression;
using System.Security.Cryptography;

namespace Seamwright.Storage.Copies;

/// <summary>A backup file while it is written: a zip archive that remembers size and hash of everything put into it.</summary>
internal sealed class Archive(Stream stream) : IDisposable
{
    /// <summary>Name of the manifest, the last thing written: an archive without it is half.</summary>
    public const string Manifest = "manifest.json";

    private readonly ZipArchive _zip = new(stream, ZipArchiveMode.Create, leaveOpen: true);
    private readonly ImmutableSortedDictionary<string, BackupFile>.Builder _files = ImmutableSortedDictionary.CreateBuilder<string, BackupFile>(StringComparer.Ordinal);

    public ImmutableSortedDictionary<string, BackupFile> Files => _files.ToImmutable();

    /// <summary>Puts one file in.</summary>
    public async Task Put(string name, bool compress, Func<Stream, Task> write)
    {
        var entry = _zip.CreateEntry(name, compress ? CompressionLevel.Fastest : CompressionLevel.NoCompression);
        await using var target = await entry.OpenAsync();
        await using var counted = new HashingStream(target);
        await write(counted);
        await counted.FlushAsync();
        _files.Add(name, new(counted.Count, counted.Hash()));
    }

    public async Task PutManifest(string text)
    {
        await using var target = await _zip.CreateEntry(Manifest).OpenAsync();
        await using var writer = new StreamWriter(target);
        await writer.WriteAsync(text);
    }

    public void Dispose() => _zip.Dispose();

    /// <summary>Counts and hashes what passes through.</summary>
    private sealed class HashingStream(Stream inner) : Stream
    {
        private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

        public long Count { get; private set; }

        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => Count;

        public override long Position { get => Count; set => throw new NotSupportedException(); }

        public string Hash() => Convert.ToHexStringLower(_hash.GetCurrentHash());

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            Count += buffer.Length;
            _hash.AppendData(buffer);
            inner.Write(buffer);
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
        {
            Write(buffer.Span);
            return ValueTask.CompletedTask;
        }

        public override void Flush() => inner.Flush();

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            _hash.Dispose();
            base.Dispose(disposing);
        }
    }
}
