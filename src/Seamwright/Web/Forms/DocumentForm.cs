using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using Seamwright.Files.Format;

namespace Seamwright.Program.Web.Forms;

/// <summary>
/// Makes a form from the description of a document and a document from the form. Reader, schema, documentation and form are driven by the one
/// description, so that every setting has its meaning and default beside it, and none can be forgotten.
/// </summary>
internal static class DocumentForm
{
    private static readonly ImmutableArray<string> NotShown = ["seamwright", "invented", "note"];

    /// <summary>The form of a document.</summary>
    /// <param name="section">Description.</param>
    /// <param name="document">What is there; null = nothing yet.</param>
    /// <param name="stem">Stem of all names; empty for a whole document.</param>
    public static ImmutableArray<FormPart> Parts(Section section, JsonObject? document, string stem = "") =>
        [.. section.Keys.Where(key => !NotShown.Contains(key.Name)).SelectMany(key => PartsOf(key, key.Kind, document?[key.Name], At(stem, key.Name)))];

    /// <summary>The document that a form says; parts that cannot be entered in it stay as they were.</summary>
    /// <param name="section">Description.</param>
    /// <param name="form">The form.</param>
    /// <param name="before">The document before; null = none.</param>
    /// <param name="stem">Stem of all names.</param>
    public static JsonObject Take(Section section, IFormCollection form, JsonObject? before, string stem = "")
    {
        var document = new JsonObject();
        foreach (var key in section.Keys)
        {
            var node = NotShown.Contains(key.Name) ? before?[key.Name]?.DeepClone() : Take(key.Kind, form, before?[key.Name], At(stem, key.Name));
            if (node is not null)
                document[key.Name] = node;
        }
        return document;
    }

    /// <summary>
    /// Name of the input for a field as the reader names it, <c>people[anna].per_hour</c>: entries of lists go by number from 0 here, and a list
    /// of words is one input.
    /// </summary>
    /// <param name="field">The field.</param>
    /// <param name="document">The document that was read.</param>
    public static string InputOf(string field, JsonObject document)
    {
        JsonNode? at = document;
        var name = new System.Text.StringBuilder();
        foreach (string step in field.Replace("[", ".[", StringComparison.Ordinal).Split('.', StringSplitOptions.RemoveEmptyEntries))
        {
            if (step[0] != '[')
            {
                name.Append(name.Length > 0 ? "." : "").Append(step);
                at = (at as JsonObject)?[step];
                continue;
            }
            string id = step.Trim('[', ']');
            var list = at as JsonArray;
            int index = list?.ToList().FindIndex(item => item is JsonObject one && Text(one["id"]) == id) ?? -1;
            if (index < 0 && int.TryParse(id, NumberStyles.None, CultureInfo.InvariantCulture, out int number))
                index = number - 1;
            index = Math.Max(index, 0);
            at = list is not null && index < list.Count ? list[index] : null;
            if (at is JsonObject)
                name.Append(CultureInfo.InvariantCulture, $"[{index}]");
        }
        return name.ToString();
    }

    /// <summary>The input of that name; else the part of the form that it would be in or that begins with it; empty where there is none.</summary>
    /// <param name="name">Name of an input, or of a part that has none of its own.</param>
    /// <param name="parts">The form.</param>
    public static string PlaceOf(string name, IEnumerable<FormPart> parts)
    {
        var candidates = parts.ToList();
        string place = "";
        while (candidates.Find(part => IsWithin(name, part.Name)) is { } part)
        {
            place = part.Name;
            candidates = part is FormGroup group ? [.. group.Parts] : [];
        }
        return place.Length > 0 && place == name ? place : candidates.Find(part => IsWithin(part.Name, name))?.Name ?? place;
    }

    /// <summary>Whether a name is that of a part of a form or of something in it.</summary>
    /// <param name="name">The name.</param>
    /// <param name="part">Name of the part.</param>
    public static bool IsWithin(string name, string part) =>
        part.Length > 0 && name.StartsWith(part, StringComparison.Ordinal) && (name.Length == part.Length || name[part.Length] is '.' or '[');

    private static IEnumerable<FormPart> PartsOf(Key key, Kind kind, JsonNode? node, string name)
    {
        string label = Label(key.Name);
        switch (kind)
        {
            case Kind.Map(var section):
                yield return new FormGroup(name, label, key.Meaning, Parts(section, node as JsonObject, name), node is null && !key.Required);
                break;
            case Kind.MapList(var section):
                var items = (node as JsonArray)?.OfType<JsonObject>().ToList() ?? (node is JsonObject single ? [single] : []);
                for (int i = 0; i <= items.Count; i++)
                {
                    string at = Item(name, i);
                    string title = i < items.Count ? $"{label}: {(Text(items[i]["id"]) is { Length: > 0 } id ? id : (i + 1).ToString(CultureInfo.InvariantCulture))}" : $"{label}: +";
                    yield return new FormGroup(at, title, key.Meaning, Parts(section, i < items.Count ? items[i] : null, at), i == items.Count);
                }
                break;
            case Kind.WordTable(var set, _):
                yield return new FormGroup(name, label, Hint(key), [.. Words(set).Select(word => new FormInput(At(name, word), Label(word), "", Text((node as JsonObject)?[word]), false, []))], node is null);
                break;
            case Kind.Either(var forms):
                foreach (var part in PartsOf(key, Chosen(forms, node), node, name))
                    yield return part;
                break;
            case Kind.Word(var set):
                yield return new FormInput(name, label, Hint(key), Text(node), key.Required, Words(set));
                break;
            case Kind.Flag:
                yield return new FormInput(name, label, Hint(key), Text(node), key.Required, ["true", "false"]);
                break;
            default:
                yield return new FormInput(name, label, Hint(key), Text(node), key.Required, []);
                break;
        }
    }

    private static JsonNode? Take(Kind kind, IFormCollection form, JsonNode? before, string name)
    {
        switch (kind)
        {
            case Kind.Map(var section):
                return Take(section, form, before as JsonObject, name) is { Count: > 0 } map ? map : null;
            case Kind.MapList(var section):
                var list = new JsonArray();
                var was = before as JsonArray;
                for (int i = 0; HasAny(form, Item(name, i)); i++)
                {
                    if (Take(section, form, i < was?.Count ? was[i] as JsonObject : null, Item(name, i)) is { Count: > 0 } one)
                        list.Add(one);
                }
                return list.Count > 0 ? list : null;
            case Kind.WordTable(var set, var value):
                var table = new JsonObject();
                foreach (string word in Words(set))
                {
                    if (Take(value, form, null, At(name, word)) is { } entry)
                        table[word] = entry;
                }
                return table.Count > 0 ? table : null;
            case Kind.Either(var forms):
                return Take(Chosen(forms, before), form, before, name);
            default:
                return Scalar(kind, form[name].ToString().Trim(), before);
        }
    }

    private static JsonNode? Scalar(Kind kind, string typed, JsonNode? before)
    {
        if (typed.Length == 0)
            return null;
        if (typed == Text(before))
            return before!.DeepClone();
        switch (kind)
        {
            case Kind.Flag when bool.TryParse(typed, out bool flag):
                return JsonValue.Create(flag);
            case Kind.Amount or Kind.Number or Kind.Whole when decimal.TryParse(typed, NumberStyles.Number, CultureInfo.InvariantCulture, out decimal number):
                return JsonValue.Create(number);
            case Kind.IdList or Kind.WordList or Kind.DateList or Kind.MomentList or Kind.Breaks:
                return new JsonArray([.. typed.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(one => (JsonNode)JsonValue.Create(one))]);
            case Kind.NameTable:
                var table = new JsonObject();
                foreach (string pair in typed.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                {
                    int colon = pair.IndexOf(':', StringComparison.Ordinal);
                    table[colon < 0 ? pair : pair[..colon].Trim()] = colon < 0 ? "" : pair[(colon + 1)..].Trim();
                }
                return table;
            default:
                return JsonValue.Create(typed);
        }
    }

    /// <summary>The form that fits what is there; where nothing is there, the first that can be typed.</summary>
    private static Kind Chosen(Kind[] forms, JsonNode? node) => node switch
    {
        JsonObject => forms.FirstOrDefault(form => form is Kind.Map or Kind.WordTable or Kind.NameTable) ?? forms[0],
        JsonArray => forms.FirstOrDefault(form => form is Kind.MapList) ?? forms[0],
        null => forms.FirstOrDefault(form => form is not Kind.File) ?? forms[0],
        _ => forms.FirstOrDefault(form => form is not (Kind.Map or Kind.MapList)) ?? forms[0],
    };

    private static string Hint(Key key) => key.Required ? $"{key.Meaning} Example: {key.Example}" : $"{key.Meaning} Left out: {key.Default}. Example: {key.Example}";

    private static ImmutableArray<string> Words(Type set) => [.. Enum.GetValues(set).Cast<Enum>().Select(Seamwright.Files.Words.Word)];

    private static bool HasAny(IFormCollection form, string stem) => form.Keys.Any(key => key.StartsWith(stem, StringComparison.Ordinal));

    /// <summary>A key as a label.</summary>
    /// <param name="name">The key.</param>
    public static string Label(string name) => char.ToUpperInvariant(name[0]) + name[1..].Replace('_', ' ').Replace('-', ' ');

    private static string At(string stem, string name) => stem.Length == 0 ? name : $"{stem}.{name}";

    private static string Item(string name, int index) => string.Create(CultureInfo.InvariantCulture, $"{name}[{index}]");

    private static string Text(JsonNode? node) => node switch
    {
        null => "",
        JsonValue value when value.TryGetValue(out string? text) => text,
        JsonArray list => string.Join(", ", list.Select(Text)),
        JsonObject table => string.Join(", ", table.Select(entry => $"{entry.Key}: {Text(entry.Value)}")),
        _ => node.ToJsonString(),
    };
}
