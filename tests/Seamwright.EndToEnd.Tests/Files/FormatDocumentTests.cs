using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Seamwright.Files;
using Seamwright.Files.Format;
using Seamwright.Files.Trees;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Files;

public sealed class FormatDocumentTests
{
    public static TheoryData<string> Kinds => [.. FileKind.All.Select(kind => kind.Root.Name)];

    public static TheoryData<string> ExampleFiles =>
        [.. Directory.GetFiles(Repository.Examples, "*.yaml", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Repository.Examples, path).Replace('\\', '/'))];

    // SEAMWRIGHT_ACCEPT=1 writes the documents anew instead of comparing them.
    private static bool Accepts => Environment.GetEnvironmentVariable("SEAMWRIGHT_ACCEPT") == "1";

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_schema_in_the_documentation_is_the_one_the_reader_follows(string kind) =>
        Compare($"{kind}.schema.json", SchemaWriter.Write(Kind(kind)));

    [Fact]
    public void The_page_about_the_files_is_the_one_the_reader_follows() => Compare("README.md", FormatReadme.Write());

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_schema_knows_exactly_the_keys_the_reader_knows(string kind)
    {
        using var schema = JsonDocument.Parse(File.ReadAllText(Path.Combine(Repository.Formats, $"{kind}.schema.json")));

        foreach (var section in Kind(kind).Sections(withInnerFiles: true))
        {
            var part = section == Kind(kind).Root ? schema.RootElement : schema.RootElement.GetProperty("$defs").GetProperty(section.Name);
            Assert.Equal(section.Keys.Select(key => key.Name), part.GetProperty("properties").EnumerateObject().Select(property => property.Name));
        }
    }

    [Theory]
    [MemberData(nameof(ExampleFiles))]
    public void Every_example_file_keeps_to_its_schema(string name)
    {
        var problems = new ProblemList();
        var file = new SourceFile(Path.Combine(Repository.Examples, name), problems);
        var tree = YamlTree.Read(file.Text(SourceFile.Limit)!, file);
        var json = ToJson(tree!);
        string kind = json!["seamwright"]!.GetValue<string>().Split('/')[0];
        var schema = JsonSchema.FromText(SchemaWriter.Write(Kind(kind)));

        using var document = JsonDocument.Parse(json.ToJsonString());
        var result = schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(result.IsValid, JsonSerializer.Serialize(result));
        Assert.Equal(0, problems.Count);
    }

    [Theory]
    [InlineData("""{"seamwright":"stock/1","packs":[{"id":"A","material":"E2S","left":"120 ml"}],"nozzles":4}""", true)]
    [InlineData("""{"packs":[]}""", false)]
    [InlineData("""{"seamwright":"stock/1","packs":[{"id":"A","material":"E2S","left":"120"}]}""", false)]
    [InlineData("""{"seamwright":"stock/1","packs":[{"id":"A","material":"E2S","lefft":"120 ml"}]}""", false)]
    [InlineData("""{"seamwright":"stock/1","packs":[{"id":"A"}]}""", false)]
    public void A_schema_lets_through_what_is_sound_and_nothing_else(string text, bool isSound)
    {
        using var document = JsonDocument.Parse(text);

        Assert.Equal(isSound, JsonSchema.FromText(SchemaWriter.Write(Kind("stock"))).Evaluate(document.RootElement).IsValid);
    }

    [Fact]
    public void Sections_of_one_file_never_share_a_name() =>
        Assert.All(FileKind.All, kind =>
        {
            var names = kind.Sections(withInnerFiles: true).Select(section => section.Name).ToArray();
            Assert.Equal(names.Distinct(), names);
        });

    private static FileKind Kind(string name) => FileKind.All.Single(kind => kind.Root.Name == name);

    private static void Compare(string name, string current)
    {
        string path = Path.Combine(Repository.Formats, name);
        if (Accepts)
            File.WriteAllText(path, current);
        Assert.Equal(current, File.ReadAllText(path).ReplaceLineEndings("\n"));
    }

    private static JsonNode? ToJson(Node node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Key, ToJson(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(ToJson)]),
        ScalarNode { Plain: true, Text: "yes" or "true" } => true,
        ScalarNode { Plain: true, Text: "no" or "false" } => false,
        ScalarNode { Plain: true } scalar when decimal.TryParse(scalar.Text, System.Globalization.CultureInfo.InvariantCulture, out decimal number) => number,
        ScalarNode scalar => scalar.Text,
        _ => null,
    };
}
