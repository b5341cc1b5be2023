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
            var map = JsonNode.Parse(text)!.AsObject();
            if (map["seamwright"]?.GetValue<string>() != Line)
                return null;
            return new(
                map["schema"]!.GetValue<string>(),
                InstantPattern.ExtendedIso.Parse(map["written"]!.GetValue<string>()).Value,
                map["tables"]!.AsObject().ToImmutableSortedDictionary(table => table.Key, table => table.Value!.GetValue<long>(), StringComparer.Ordinal),
                map["files"]!.AsObject().ToImmutableSortedDictionary(
                    file => file.Key, file => new BackupFile(file.Value!["bytes"]!.GetValue<long>(), file.Value["sha256"]!.GetValue<string>()), StringComparer.Ordinal));
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or NullReferenceException or NodaTime.Text.UnparsableValueException or FormatException)
        {
            return null;
        }
    }
}
