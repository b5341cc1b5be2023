using System.Text;
using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright suppose</c> as a shop calls it.</summary>
public class SupposeCommandTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "suppose.schema.json")));

    [Fact]
    public void The_page_tells_the_difference_and_where_more_is_told()
    {
        var run = Run("suppose", Example("evening-slot"), "--without-pack", "C", "--seed", "1");

        Assert.Equal(0, run.Code);
        Assert.Empty(run.Error);
        Assert.Contains("Suppose: Pack C is not on the shelf.", run.Output, StringComparison.Ordinal);
        Assert.Contains("Ready for paint 6 min later, 17:45 instead of 17:39; 8.16 dearer, 369.18 CU instead of 361.02.", run.Output, StringComparison.Ordinal);
        Assert.Contains("The paint slot 18:00 is made as before, with 15 min in reserve.", run.Output, StringComparison.Ordinal);
        Assert.Contains("J3 and J4 with E2S instead of E2F", run.Output, StringComparison.Ordinal);
        Assert.Contains("--explain J3", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_refusal_says_which_rule_and_ends_with_1()
    {
        var run = Run("suppose", Example("evening-slot"), "--joint", "J3=MS1");

        Assert.Equal(1, run.Code);
        Assert.Contains("J3 CANNOT TAKE MS1", run.Output, StringComparison.Ordinal);
        Assert.Contains("masked", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_changes_the_page_says_so_and_stops()
    {
        var run = Run("suppose", Example("evening-slot"), "--heating-on", "--seed", "1");

        Assert.Equal(0, run.Code);
        Assert.Contains("Nothing changes: the plan stays as it is.", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Side by side", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("+2 h", "20:00")]
    [InlineData("-30 min", "17:30")]
    [InlineData("19:15", "19:15")]
    [InlineData("2027-01-12 18:45", "18:45")]
    public void A_slot_is_moved_to_a_moment_a_clock_time_or_by_a_time(string typed, string clock)
    {
        var run = Run("suppose", Example("evening-slot"), "--slot", typed);

        Assert.Contains($"The paint slot Tue 12 Jan 18:00 is moved to Tue 12 Jan {clock}.", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--without-pack C", 0)]
    [InlineData("--joint J3=MS1", 1)]
    [InlineData("--no-delivery", 1)]
    [InlineData("--slot +15h --humidity 50% --one-more helper", 0)]
    public void The_document_meets_its_published_schema(string supposed, int code)
    {
        var run = Run(["suppose", Example("evening-slot"), .. supposed.Split(' '), "--seed", "1", "--json", "-"]);

        using var document = JsonDocument.Parse(run.Output);
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
        Assert.Equal(code, run.Code);
        Assert.Equal(code == 0, document.RootElement.GetProperty("difference").ValueKind == JsonValueKind.Object);
    }

    [Theory]
    [InlineData("", "--joint J3=MS1")]
    [InlineData("--joint J3", "write it as J3=MS1")]
    [InlineData("--joint J3=NONE", "no data sheet NONE")]
    [InlineData("--joint J9=MS1", "It has J1")]
    [InlineData("--lamps many", "0 to 20")]
    [InlineData("--slot soon", "soon")]
    [InlineData("--slot +2", "+2")]
    [InlineData("--set-point 24", "24")]
    [InlineData("--away nobody", "technician")]
    [InlineData("--without-pack Z", "There are A")]
    public void Wrong_use_ends_with_2_and_says_what_would_be_right(string supposed, string told)
    {
        var run = Run(["suppose", Example("evening-slot"), .. supposed.Split(' ', StringSplitOptions.RemoveEmptyEntries)]);

        Assert.Equal(2, run.Code);
        Assert.Contains(told.TrimStart('+'), run.Error, StringComparison.Ordinal);
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
