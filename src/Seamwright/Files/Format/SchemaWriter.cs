using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Seamwright.Files.Values;

namespace Seamwright.Files.Format;

/// <summary>Writes the JSON Schema (2020-12) of a kind of file from the same table of keys that the reader uses.</summary>
internal static class SchemaWriter
{
    private const string Number = @"[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?";

    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        IndentSize = 2,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,      // µ, ° and ² stay as they are; the file is no web page
    };

    /// <summary>The schema as text.</summary>
    public static string Write(FileKind kind)
    {
        var root = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = $"Seamwright {kind.Root.Name} file",
        };
        Describe(root, kind.Root, isFile: true);

        var definitions = new JsonObject();
        foreach (var section in kind.Sections(withInnerFiles: true).Skip(1))
        {
            var definition = new JsonObject();
            Describe(definition, section, isFile: false);
            definitions[section.Name] = definition;
        }

        foreach (var (name, definition) in Basics())
            definitions[name] = definition;
        Prune(root, definitions);
        root["$defs"] = definitions;
        return root.ToJsonString(Readable) + "\n";
    }

    private static void Describe(JsonObject schema, Section section, bool isFile)
    {
        schema["description"] = section.Meaning;
        schema["type"] = "object";
        var properties = new JsonObject();
        foreach (var key in section.Keys)
            properties[key.Name] = Property(key);
        schema["properties"] = properties;
        var required = section.Keys.Where(key => key.Required || (isFile && key.Kind is Kind.Header)).Select(key => key.Name).ToArray();
        if (required.Length > 0)
            schema["required"] = new JsonArray([.. required.Select(name => (JsonNode)name)]);
        schema["additionalProperties"] = false;
    }

    private static JsonObject Property(Key key)
    {
        var property = Of(key.Kind);
        var text = new StringBuilder(key.Meaning);
        if (KindText.Range(key.Kind) is { Length: > 0 } range)
            text.Append(" Range: ").Append(range).Append('.');
        if (key.Default.Length > 0)
            text.Append(" Default: ").Append(key.Default).Append('.');
        property["description"] = text.ToString();
        return property;
    }

    private static JsonObject Of(Kind kind) => kind switch
    {
        Kind.Quantity quantity => Ref(DimensionName(quantity.Measure.Dimension)),
        Kind.Word word => new() { ["enum"] = WordsOf(word.Set) },
        Kind.WordList list => OneOrMany(new() { ["enum"] = WordsOf(list.Set) }),
        Kind.Text => Ref("text"),
        Kind.Id => Ref("name"),
        Kind.IdList => OneOrMany(Ref("name")),
        Kind.Flag => Ref("yes-or-no"),
        Kind.Whole whole => new() { ["type"] = "integer", ["minimum"] = whole.Least, ["maximum"] = whole.Most },
        Kind.Number number => new() { ["type"] = "number", ["minimum"] = number.Least, ["maximum"] = number.Most },
        Kind.Amount => Ref("money"),
        Kind.Moment => Ref("moment"),
        Kind.MomentList => OneOrMany(Ref("moment")),
        Kind.Date => Ref("date"),
        Kind.DateList => OneOrMany(Ref("date")),
        Kind.Expiry => Ref("expiry"),
        Kind.Clock => Ref("clock"),
        Kind.Days => OneOrMany(Ref("weekdays")),
        Kind.Breaks => OneOrMany(Ref("break")),
        Kind.Ratio => Ref("ratio"),
        Kind.File => new() { ["type"] = "string" },
        Kind.Header header => new() { ["const"] = header.Line },
        Kind.Map map => Ref(map.Section.Name),
        Kind.MapList list => OneOrMany(Ref(list.Section.Name)),
        Kind.WordTable table => new()
        {
            ["type"] = "object",
            ["propertyNames"] = new JsonObject { ["enum"] = WordsOf(table.Set) },
            ["additionalProperties"] = Of(table.Value),
        },
        Kind.NameTable table => new() { ["type"] = "object", ["additionalProperties"] = Of(table.Value) },
        Kind.FileList list => OneOrMany(Of(new Kind.Either(new Kind.File(), new Kind.Map(list.Section)))),
        Kind.Either either => new() { ["anyOf"] = new JsonArray([.. either.Forms.Select(form => (JsonNode)Of(form))]) },
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no such kind of value."),
    };

    private static IEnumerable<(string Name, JsonObject Definition)> Basics()
    {
        yield return ("text", new() { ["type"] = Types("string", "number", "boolean") });
        yield return ("name", new() { ["type"] = Types("string", "number") });
        yield return ("yes-or-no", new() { ["enum"] = new JsonArray(true, false, "yes", "no") });
        yield return ("money", new() { ["type"] = "number", ["minimum"] = 0, ["maximum"] = 10_000_000 });
        yield return ("moment", Pattern(@"^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?(Z|[+-]\d\d:\d\d)?$"));
        yield return ("date", Pattern(@"^\d{4}-\d\d-\d\d$"));
        yield return ("expiry", Pattern(@"^\d{4}-\d\d(-\d\d)?$"));
        yield return ("clock", Pattern(@"^\d{1,2}:\d\d$"));
        yield return ("weekdays", Pattern("^(Mon|Tue|Wed|Thu|Fri|Sat|Sun)( *[-–] *(Mon|Tue|Wed|Thu|Fri|Sat|Sun))?$"));
        yield return ("break", Pattern(@"^\d\d:\d\d *[-–] *\d\d:\d\d$"));
        yield return ("ratio", Pattern(@"^\d+(\.\d+)? *: *\d+(\.\d+)?$"));
        foreach (var dimension in Dimensions.All.Append(Dimensions.TemperatureDifference))
        {
            string units = string.Join('|', dimension.Units.SelectMany(unit => unit.Spellings).Select(Escaped));
            string one = $"{Number} *({units})";
            yield return (DimensionName(dimension), Pattern(dimension == Dimensions.Time ? $"^({one} *)+$" : $"^{one}$"));
        }
    }

    /// <summary>Takes out what no key of this file leads to.</summary>
    private static void Prune(JsonObject root, JsonObject definitions)
    {
        var used = new HashSet<string>();
        var open = new Queue<JsonNode>([root]);
        while (open.TryDequeue(out var node))
        {
            if (node is JsonObject map && map["$ref"] is JsonValue reference)
            {
                string name = reference.GetValue<string>()["#/$defs/".Length..];
                if (used.Add(name))
                    open.Enqueue(definitions[name]!);
            }

            foreach (var child in node is JsonObject inner ? inner.Select(pair => pair.Value) : node is JsonArray list ? list : [])
            {
                if (child is not null)
                    open.Enqueue(child);
            }
        }

        foreach (string name in definitions.Select(pair => pair.Key).Where(name => !used.Contains(name)).ToArray())
            definitions.Remove(name);
    }

    private static string DimensionName(Dimension dimension) =>
        dimension.Name[(dimension.Name.IndexOf(' ', StringComparison.Ordinal) + 1)..].Replace(' ', '-');

    private static string Escaped(string unit) => unit.Replace(".", @"\.", StringComparison.Ordinal).Replace("^", @"\^", StringComparison.Ordinal);

    private static JsonObject Pattern(string pattern) => new() { ["type"] = "string", ["pattern"] = pattern };

    private static JsonObject Ref(string name) => new() { ["$ref"] = $"#/$defs/{name}" };

    private static JsonObject OneOrMany(JsonObject one) => new()
    {
        ["anyOf"] = new JsonArray(one, new JsonObject { ["type"] = "array", ["items"] = one.DeepClone() }),
    };

    private static JsonArray WordsOf(Type set) => new([.. Words.Of(set).Select(pair => (JsonNode)pair.Word)]);

    private static JsonArray Types(params string[] types) => new([.. types.Select(type => (JsonNode)type)]);
}
