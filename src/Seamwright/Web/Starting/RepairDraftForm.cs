using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Seamwright.Files;
using Seamwright.Program.Web.Forms;

namespace Seamwright.Program.Web.Starting;

/// <summary>A line of the form: one seam that can be corrected.</summary>
/// <param name="Id">Short name.</param>
/// <param name="Name">Where it is.</param>
/// <param name="Kind">How the panels meet.</param>
/// <param name="Length">Length as written; null = a number of heads or dabs.</param>
/// <param name="Profile">Factory look; empty = not chosen; null = nothing to be seen of it.</param>
/// <param name="Width">Width as written.</param>
/// <param name="Height">Height as written.</param>
/// <param name="Kept">False where it was struck out.</param>
public sealed record SeamLine(string Id, string Name, string Kind, string? Length, string? Profile, string Width, string Height, bool Kept);

/// <summary>
/// A repair in a form. The document is what a file would hold: entries are put into it as they were typed, and the reader of files says what is
/// wrong with them. Names of inputs are the fields that the reader names.
/// </summary>
/// <param name="document">The document; changed in place.</param>
public sealed class RepairDraftForm(JsonObject document)
{
    /// <summary>Paint slots that can be entered.</summary>
    public const int Slots = 4;

    /// <summary>The document as it stands.</summary>
    public JsonObject Document { get; } = document;

    // Struck-out seams stay in the form, to be taken back while it is mended.
    private readonly ImmutableArray<JsonObject> _all = [.. JointsOf(document)];

    private static readonly ImmutableArray<string> SeamFields = ["length", "look.profile", "look.width", "look.height"];
    private static readonly ImmutableArray<string> OwnFields = ["name", "arrives", "promise"];

    /// <summary>Title.</summary>
    public string Name => Text(Document["name"]);

    /// <summary>When the car comes in; empty = it is here.</summary>
    public string Arrives => Text(Document["arrives"]);

    /// <summary>When it was promised.</summary>
    public string Promise => Text(Document["promise"]);

    /// <summary>A paint slot; empty = none.</summary>
    /// <param name="index">Place, from 0.</param>
    public string Slot(int index) => Document["slots"] is JsonArray slots && index < slots.Count ? Text(slots[index]) : "";

    /// <summary>The seams, in the document's order; those struck out too.</summary>
    public ImmutableArray<SeamLine> Seams => [.. _all.Select(Line)];

    /// <summary>Puts what was typed into the document.</summary>
    /// <param name="form">The form as it was sent.</param>
    public void Take(IFormCollection form)
    {
        Put(Document, "name", form["name"]);
        Put(Document, "arrives", form["arrives"]);
        Put(Document, "promise", form["promise"]);
        var slots = Enumerable.Range(0, Slots).Select(i => form[$"slots[{i}]"].ToString().Trim()).Where(text => text.Length > 0).ToList();
        // More slots than the form has places for stay as they are.
        if (Document["slots"] is JsonArray before)
            slots.AddRange(before.Skip(Slots).Select(Text));
        Document["slots"] = new JsonArray([.. slots.Select(text => (JsonNode)JsonValue.Create(text))]);
        foreach (var joint in JointsOf(Document).ToList())
        {
            string at = $"joints[{Text(joint["id"])}]";
            if (joint.ContainsKey("length"))
                Put(joint, "length", form[$"{at}.length"]);
            if (joint["look"] is JsonObject look)
            {
                Put(look, "profile", form[$"{at}.look.profile"]);
                Put(look, "width", form[$"{at}.look.width"]);
                Put(look, "height", form[$"{at}.look.height"]);
            }
            if (!form.ContainsKey($"{at}.keep"))
                ((JsonArray)Document["joints"]!).Remove(joint);
        }
    }

    /// <summary>Problems by the name of the input they belong to; those of other fields under an empty name.</summary>
    /// <param name="problems">What the reader said.</param>
    public IEnumerable<KeyValuePair<string, FileProblem>> ByInput(IEnumerable<FileProblem> problems)
    {
        var inputs = Seams.SelectMany(seam => SeamFields.Select(field => $"joints[{seam.Id}].{field}"))
            .Concat(OwnFields).Concat(Enumerable.Range(0, Slots).Select(i => $"slots[{i}]")).ToHashSet();
        foreach (var problem in problems)
        {
            string field = DocumentProblems.FieldOf(problem);
            yield return new(inputs.Contains(field) ? field : field == "slots" ? "slots[0]" : "", problem);
        }
    }

    private static IEnumerable<JsonObject> JointsOf(JsonObject document) => (document["joints"] as JsonArray)?.OfType<JsonObject>() ?? [];

    private static SeamLine Line(JsonObject joint)
    {
        var look = joint["look"] as JsonObject;
        return new(
            Text(joint["id"]), Text(joint["name"]), Text(joint["type"]), joint.ContainsKey("length") ? Text(joint["length"]) : null,
            look is null ? null : Text(look["profile"]), look is null ? "" : Text(look["width"]), look is null ? "" : Text(look["height"]), Kept: joint.Parent is not null);
    }

    private static void Put(JsonObject into, string key, string? typed)
    {
        string text = (typed ?? "").Trim();
        if (text.Length == 0)
            into.Remove(key);
        else if (Text(into[key]) != text)
            into[key] = text;
    }

    private static string Text(JsonNode? node) => node switch
    {
        null => "",
        JsonValue value when value.TryGetValue(out string? text) => text,
        _ => node.ToJsonString(),
    };
}
