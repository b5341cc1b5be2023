using System.Collections.Immutable;

namespace Seamwright.Files.Trees;

/// <summary>Where files are read from: the disk, or documents in memory under the names that files would have.</summary>
internal abstract class FileSource
{
    /// <summary>The disk.</summary>
    public static FileSource Disk { get; } = new OnDisk();

    /// <summary>Documents in memory.</summary>
    public static FileSource InMemory(ImmutableDictionary<string, ReadOnlyMemory<byte>> documents) => new Documents(documents);

    public abstract bool IsFolder(string path);

    public abstract bool IsFile(string path);

    public abstract Stream Open(string path);

    private sealed class OnDisk : FileSource
    {
        public override bool IsFolder(string path) => Directory.Exists(path);

        public override bool IsFile(string path) => File.Exists(path);

        public override Stream Open(string path) => new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
    }

    private sealed class Documents(ImmutableDictionary<string, ReadOnlyMemory<byte>> documents) : FileSource
    {
        public override bool IsFolder(string path) => false;

        public override bool IsFile(string path) => documents.ContainsKey(path);

        public override Stream Open(string path) => new MemoryStream(documents[path].ToArray(), writable: false);
    }
}
