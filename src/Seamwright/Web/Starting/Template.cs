using System.Collections.Immutable;
using System.Text.Json.Nodes;

namespace Seamwright.Program.Web.Starting;

/// <summary>
/// The usual seams, bare areas and cavities around a replaced panel: generic and invented, a beginning to be corrected at the car and checked
/// against the maker's procedure.
/// </summary>
/// <param name="Id">Name in addresses.</param>
/// <param name="Title">What was replaced.</param>
/// <param name="Repair">Parts of a repair document; a copy for each asking.</param>
internal sealed record Template(string Id, string Title, JsonObject Repair)
{
    private const string Stem = "Templates.";

    private static readonly ImmutableArray<string> PlaceKeys = ["joints", "bare_areas", "cavities"];

    private static readonly ImmutableArray<string> Names = ["quarter-panel", "side-outer", "roof-skin", "rear-panel", "boot-floor", "front-apron"];

    /// <summary>All of them.</summary>
    public static IEnumerable<Template> All => Names.Select(Read);

    /// <summary>One of them; null = there is none of this name.</summary>
    public static Template? Find(string? id) => id is not null && Names.Contains(id) ? Read(id) : null;

    /// <summary>How many places it has.</summary>
    public int Places => PlaceKeys.Sum(key => (Repair[key] as JsonArray)?.Count ?? 0);

    private static Template Read(string id)
    {
        using var stream = typeof(Template).Assembly.GetManifestResourceStream($"{Stem}{id}.json")
            ?? throw new InvalidOperationException($"The template {id} is not in the program.");
        var repair = (JsonObject)JsonNode.Parse(stream)!;
        string title = repair["title"]!.GetValue<string>();
        repair.Remove("title");
        return new(id, title, repair);
    }
}
