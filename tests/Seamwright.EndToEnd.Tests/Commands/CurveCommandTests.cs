using System.Text;
using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright curve</c> as a shop calls it.</summary>
public class CurveCommandTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "curve.schema.json")));

    [Fact]
    public void The_page_draws_the_stair_and_tells_what_each_point_changes()
    {
        var run = Run("curve", Example("hem-tape"), "--seed", "1", "--width", "90");

        Assert.Equal(0, run.Code);
        Assert.Contains("ways between the least spending and the earliest", run.Output, StringComparison.Ordinal);
        Assert.Contains("1────", run.Output, StringComparison.Ordinal);
        Assert.Contains("the lamp on B1: ready 3 h 25 min earlier for 15.66 more", string.Join(" ", run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.Contains("recommended", run.Output, StringComparison.Ordinal);
        Assert.Contains("Proven: nothing is ready earlier for the same money", run.Output, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 90, line));
    }

    [Fact]
    public void In_plain_letters_the_page_is_ascii()
    {
        var run = Run("curve", Example("hem-tape"), "--seed", "1", "--plain", "--width", "80");

        Assert.All(run.Output, letter => Assert.True(letter < 128, $"“{letter}” is no ASCII letter"));
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public void The_drawing_names_every_point_for_whoever_does_not_see_it()
    {
        using var folder = new Folder();
        string file = folder.At("curve.svg");

        var run = Run("curve", Example("hem-tape"), "--seed", "1", "--svg", file);

        Assert.Equal(0, run.Code);
        var svg = System.Xml.Linq.XDocument.Load(file).Root!;
        Assert.Equal("img", svg.Attribute("role")!.Value);
        var titles = svg.Descendants().Where(element => element.Name.LocalName == "title").Select(element => element.Value).ToList();
        Assert.All(Enumerable.Range(1, 5), number => Assert.Contains(titles, title => title.StartsWith($"{number}: ", StringComparison.Ordinal)));
        Assert.Contains(titles, title => title.Contains("the lamp on B1", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hem-tape", 0)]
    [InlineData("no-plan", 1)]
    public void The_document_meets_its_published_schema(string example, int code)
    {
        var run = Run("curve", Example(example), "--seed", "1", "--json", "-");

        using var document = JsonDocument.Parse(run.Output);
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
        Assert.Equal(code, run.Code);
        Assert.Equal(code == 0, document.RootElement.GetProperty("points").GetArrayLength() > 1);
    }

    [Theory]
    [InlineData("curve")]
    [InlineData("curve x --seed -1")]
    [InlineData("curve no-such-folder")]
    public void Wrong_use_ends_with_2_and_says_what_to_do(string arguments)
    {
        var run = Run(arguments.Split(' '));

        Assert.Equal(2, run.Code);
        Assert.NotEmpty(run.Error);
        Assert.Empty(run.Output);
    }

    private static string Example(string name) => Path.Combine(Repository.Examples, name);

    private static (int Code, string Output, string Error) Run(params string[] arguments)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var raw = new MemoryStream();
        int code = new CommandLine(new Terminal(output, error, Screen.File, () => raw), RepairPlanner.Answer).Run(arguments);
        return (code, output + Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }
}
