using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;

namespace Seamwright.Files.Typed;

/// <summary>The files of one reading, each read once, in order.</summary>
/// <param name="problems">Where problems are told.</param>
/// <param name="source">Where the files are; null = on the disk.</param>
internal sealed class FileSet(ProblemList problems, FileSource? source = null)
{
    private readonly FileSource _source = source ?? FileSource.Disk;
    private readonly List<SourceFile> _files = [];

    public ProblemList Problems { get; } = problems;

    /// <summary>True where the moment of planning is the clock's and not written down: a promise that has passed is then no slip, the car is late.</summary>
    public bool IsLive { get; init; }

    /// <summary>Whether there is a file or folder of that name.</summary>
    public bool Has(string shown) => _source.IsFile(shown) || _source.IsFolder(shown);

    /// <summary>A file of keys and values, opened at its version line; null where there is a problem, which has been told.</summary>
    public MapReader? Open(string shown, Section section, string line)
    {
        var file = new SourceFile(shown, Problems, _source);
        _files.Add(file);
        if (file.Text(SourceFile.Limit) is not { } text)
            return null;
        if ((file.IsJson ? JsonTree.Read(text, file) : YamlTree.Read(text, file)) is not { } root)
            return null;
        var field = new Field(root, "", file);
        return HasLine(field, line) ? MapReader.Open(field, section) : null;
    }

    /// <summary>Text of a table.</summary>
    public (SourceFile File, string? Text) Table(string shown)
    {
        var file = new SourceFile(shown, Problems, _source);
        _files.Add(file);
        return (file, file.Text(SourceFile.LogLimit));
    }

    /// <summary>A file named in another one, as the user would type it; null where the name cannot be used.</summary>
    public static string? Beside(Field field)
    {
        if (field.Scalar() is not { } path)
            return null;
        if (Path.IsPathRooted(path) || path.StartsWith('~') || path.Contains('\\') || (path.Length > 1 && path[1] == ':'))
        {
            field.Problem("file.path-not-relative", Words.Quote(path));
            return null;
        }

        string shown = Path.Combine(field.File.Folder, path);
        return shown.StartsWith("./", StringComparison.Ordinal) ? shown[2..] : shown;
    }

    /// <summary>SHA-256 over the length and bytes of each file in order of reading.</summary>
    public string ContentHash()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var length = new byte[8];
        foreach (var file in _files)
        {
            BinaryPrimitives.WriteInt64LittleEndian(length, file.Bytes.LongLength);
            hash.AppendData(length);
            hash.AppendData(file.Bytes);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static bool HasLine(Field root, string line)
    {
        if (root.Node is not MapNode map)
        {
            root.Problem("file.no-keys", line);
            return false;
        }

        foreach (var entry in map.Entries)
        {
            if (entry.Key != "seamwright")
                continue;
            string found = (entry.Value as ScalarNode)?.Text.Trim() ?? "";
            if (found == line)
                return true;
            root.File.Problem(entry.Value.Mark, "seamwright", "file.other-kind", Words.Quote(found), line);
            return false;
        }

        root.Problem("file.no-version-line", line);
        return false;
    }
}
