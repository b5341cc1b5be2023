using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime.Text;

namespace Seamwright.Storage.Copies;

/// <summary>The manifest as it stands in the archive.</summary>
internal static class ManifestText
{
    /// <summary>Kind and version of the archive.</summary>
    public const string Line = "backup/1";

    // A terabyte, or a million million rows: the sum of half a million of them is still a number.
    private const long Most = 1_000_000_000_000;

    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    public static string Of(BackupManifest manifest) => new JsonObject
    {
        ["seamwright"] = Line,
        ["schema"] = manifest.Schema,
        ["written"] = InstantPattern.ExtendedIso.Format(manifest.Written),
        ["tables"] = new JsonObject(manifest.Tables.Select(table => KeyValuePair.Create(table.Key, (JsonNode?)table.Value))),
        ["files"] = new JsonObject(manifest.Files.Select(file => KeyValuePair.Create(file.Key, (JsonNode?)new JsonObject { ["bytes"] = file.Value.Bytes, ["sha256"] = file.Value.Sha256 }))),
    }.ToJsonString(Indented);

    /// <summary>The manifest of a text; null where it is none that we know.</summary>
    public static BackupManifest? Read(string text)
    {
        try
        {
            // Not as nodes: a list of half a million files would take ten times its text.
            using var list = JsonDocument.Parse(text);
            var map = list.RootElement;
            if (map.GetProperty("seamwright").GetString() != Line)
                return null;
            return new(
                map.GetProperty("schema").GetString()!,
                InstantPattern.ExtendedIso.Parse(map.GetProperty("written").GetString()!).Value,
                Named(map.GetProperty("tables"), Count),
                Named(map.GetProperty("files"), file => new BackupFile(Count(file.GetProperty("bytes")), file.GetProperty("sha256").GetString()!)));
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or KeyNotFoundException or ArgumentException or UnparsableValueException or FormatException)
        {
            return null;
        }
    }

    private static ImmutableSortedDictionary<string, T> Named<T>(JsonElement map, Func<JsonElement, T> value)
    {
        var named = ImmutableSortedDictionary.CreateBuilder<string, T>(StringComparer.Ordinal);
        foreach (var one in map.EnumerateObject())
        {
            if (!named.TryAdd(one.Name, value(one.Value)))
                throw new FormatException($"{one.Name} is there twice.");
        }

        return named.ToImmutable();
    }

    private static long Count(JsonElement number) => number.GetInt64() is >= 0 and <= Most and var count ? count : throw new FormatException("No such number can be.");
}
