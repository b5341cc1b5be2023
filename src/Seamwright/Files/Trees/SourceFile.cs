using System.Text;

namespace Seamwright.Files.Trees;

/// <summary>A file being read: its name for messages, its bytes, its text.</summary>
internal sealed class SourceFile
{
    /// <summary>Largest file of keys and values. [bytes]</summary>
    public const int Limit = 2_000_000;

    /// <summary>Largest climate log. [bytes]</summary>
    public const int LogLimit = 50_000_000;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private readonly FileSource _source;

    public SourceFile(string shown, ProblemList problems, FileSource? source = null)
    {
        Shown = shown;
        Problems = problems;
        _source = source ?? FileSource.Disk;
    }

    /// <summary>Path as the user would type it.</summary>
    public string Shown { get; }

    public ProblemList Problems { get; }

    /// <summary>Bytes as read, for the content hash.</summary>
    public byte[] Bytes { get; private set; } = [];

    public string Folder => Path.GetDirectoryName(Shown) is { Length: > 0 } folder ? folder : ".";

    public bool IsJson => Path.GetExtension(Shown).Equals(".json", StringComparison.OrdinalIgnoreCase);

    public void Problem(Mark mark, string field, string key, params string[] args) =>
        Problems.Add(new(Shown, mark.Line, mark.Column, field, key, [.. args]));

    /// <summary>Tells what is wrong with the file as a whole.</summary>
    public void WholeProblem(string key, params string[] args) => Problem(default(Mark), "", key, args);

    /// <summary>Reads the text; null where there is a problem, which has been told.</summary>
    public string? Text(int limit)
    {
        if (!Load(limit))
            return null;
        if (WithoutMark().IsEmpty)
        {
            WholeProblem("file.empty");
            return null;
        }

        try
        {
            string text = Strict.GetString(WithoutMark());
            return HasOnlyTextCharacters(text) ? text : null;
        }
        catch (DecoderFallbackException)
        {
            Problem(new(FirstBadLine(), 0), "", "file.not-utf8");
            return null;
        }
    }

    private bool Load(int limit)
    {
        try
        {
            if (_source.IsFolder(Shown))
            {
                WholeProblem("file.is-folder");
                return false;
            }

            if (!_source.IsFile(Shown))
            {
                WholeProblem("file.missing");
                return false;
            }

            using var stream = _source.Open(Shown);
            if (stream.CanSeek && stream.Length > limit)
            {
                WholeProblem("file.too-large", Words.Number(limit / 1_000_000));
                return false;
            }

            // A device or a growing file has no honest length: never take in more than the limit.
            using var taken = new MemoryStream();
            var buffer = new byte[64 * 1024];
            for (int count; (count = stream.Read(buffer)) > 0;)
            {
                taken.Write(buffer, 0, count);
                if (taken.Length > limit)
                {
                    WholeProblem("file.too-large", Words.Number(limit / 1_000_000));
                    return false;
                }
            }

            Bytes = taken.ToArray();
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            WholeProblem("file.unreadable");
            return false;
        }
    }

    private ReadOnlySpan<byte> WithoutMark() =>
        Bytes is [0xEF, 0xBB, 0xBF, ..] ? Bytes.AsSpan(3) : Bytes;

    private int FirstBadLine()
    {
        int line = 1;
        var rest = WithoutMark();
        while (!rest.IsEmpty)
        {
            int end = rest.IndexOf((byte)'\n');
            var one = end < 0 ? rest : rest[..end];
            try
            {
                Strict.GetCharCount(one);
            }
            catch (DecoderFallbackException)
            {
                return line;
            }

            if (end < 0)
                break;
            rest = rest[(end + 1)..];
            line++;
        }

        return line;
    }

    private bool HasOnlyTextCharacters(string text)
    {
        int line = 1;
        int start = 0;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c == '\n')
            {
                line++;
                start = i + 1;
            }
            else if ((c < ' ' && c is not ('\t' or '\r')) || c is '\u007f' or '\ufffe' or '\uffff')
            {
                Problem(new(line, i - start + 1), "", "file.control-character", $"U+{(int)c:X4}");
                return false;
            }
        }

        return true;
    }
}
