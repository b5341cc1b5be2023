using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Seamwright.Files.Trees;

namespace Seamwright.Stored;

/// <summary>Turns what was read from YAML or JSON into JSON that reads the same.</summary>
internal static partial class NodeJson
{
    /// <summary>Letters as they are: a degree sign must not become six characters.</summary>
    public static JsonSerializerOptions Options { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, WriteIndented = false };

    private static readonly JsonSerializerOptions Indented = new(Options) { WriteIndented = true };

    public static JsonNode? Of(Node node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Key, Of(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(Of)]),
        ScalarNode { IsNothing: true } => null,
        // A plain 14.00 stays a number with its zeros, a plain 07:30 or 2027-06 has to become a text.
        ScalarNode { Plain: true } scalar when Literal().IsMatch(scalar.Text) => JsonNode.Parse(scalar.Text),
        ScalarNode scalar => JsonValue.Create(scalar.Text),
        _ => throw new InvalidOperationException($"A tree has no {node.GetType().Name}."),
    };

    public static string Text(JsonNode? node) => node?.ToJsonString(Options) ?? "null";

    public static string IndentedText(JsonNode? node) => (node?.ToJsonString(Indented) ?? "null") + "\n";

    /// <summary>The object that a text holds; null where it holds none, or cannot be read: then the reader tells why.</summary>
    public static JsonObject? ObjectOf(string json)
    {
        try
        {
            // Asked for its entries at once, because keys that stand twice show only then.
            return JsonNode.Parse(json) is JsonObject map && map.Count >= 0 ? map : null;
        }
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            return null;
        }
    }

    [GeneratedRegex(@"^(true|false|-?(0|[1-9][0-9]*)(\.[0-9]+)?)$")]
    private static partial Regex Literal();
}
