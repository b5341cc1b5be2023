using System.Text;
using System.Text.Json;

namespace Seamwright.Program.Texts;

/// <summary>The sentences and words of one language by key, read from the program's embedded <c>Texts/&lt;language&gt;/*.json</c>.</summary>
public sealed class Sentences
{
    private readonly Dictionary<string, string> _byKey;

    private Sentences(Dictionary<string, string> byKey) => _byKey = byKey;

    /// <summary>All keys, in no particular order.</summary>
    public IReadOnlyCollection<string> Keys => _byKey.Keys;

    /// <summary>Reads a language.</summary>
    /// <param name="language">Folder name, for example <c>en</c>.</param>
    /// <exception cref="InvalidOperationException">The language is not part of the program, or a key stands in two files.</exception>
    public static Sentences Load(string language)
    {
        var byKey = new Dictionary<string, string>(capacity: 512, StringComparer.Ordinal);
        var assembly = typeof(Sentences).Assembly;
        foreach (string name in assembly.GetManifestResourceNames())
        {
            // A resource carries the separator of the machine that built it.
            if (!name.StartsWith(language, StringComparison.Ordinal) || name.Length <= language.Length || name[language.Length] is not ('/' or '\\'))
                continue;
            using var stream = assembly.GetManifestResourceStream(name)!;
            Read(stream, name, byKey);
        }
        return byKey.Count > 0
            ? new Sentences(byKey)
            : throw new InvalidOperationException($"The program has no texts in '{language}'.");
    }

    /// <summary>The text of a key, or null where there is none.</summary>
    public string? Find(string key) => _byKey.GetValueOrDefault(key);

    private static void Read(Stream stream, string file, Dictionary<string, string> byKey)
    {
        byte[] bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        ReadOnlySpan<byte> text = bytes;
        if (text.StartsWith(Encoding.UTF8.Preamble))
            text = text[Encoding.UTF8.Preamble.Length..];

        var reader = new Utf8JsonReader(text);
        string key = "";
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.PropertyName)
                key = reader.GetString()!;
            else if (reader.TokenType == JsonTokenType.String && !byKey.TryAdd(key, reader.GetString()!))
                throw new InvalidOperationException($"The text '{key}' of {file} stands in another file too.");
        }
    }
}
