using System.Collections.Immutable;
using System.Text.Json.Nodes;

namespace Seamwright.Program.Web.Photos;

/// <summary>The places of a repair that a look can be noted of, read from its document as it is stored: also while it is not planned, and after it is closed.</summary>
internal static class LookPlaces
{
    private static readonly string[] Lists = ["joints", "bare_areas", "cavities"];

    /// <summary>Names of the places with what people call them, seams first.</summary>
    /// <param name="repair">The repair's document.</param>
    public static ImmutableArray<(string Id, string Name)> Of(string repair) => JsonNode.Parse(repair) is JsonObject document
        ? [.. Lists.SelectMany(list => (document[list] as JsonArray ?? []).OfType<JsonObject>()).Select(place => (Text(place["id"]), Text(place["name"]))).Where(place => place.Item1.Length > 0)]
        : [];

    private static string Text(JsonNode? node) => node is JsonValue value && value.TryGetValue(out string? text) ? text : "";
}
