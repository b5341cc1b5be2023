using System.Text;
using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright chance</c> as a shop calls it.</summary>
public class ChanceCommandTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "chance.schema.json")));

    [Fact]
    public void The_page_tells_how_likely_when_why_and_what_is_safer()
    {
        var run = Run("chance", Example("evening-slot"), "--samples", "20000", "--seed", "1", "--width", "110");

        Assert.Equal(0, run.Code);
        Assert.Empty(run.Error);
        Assert.Matches(@"Likely ready by the paint slot Tue 12 Jan 18:00: in 7\d(\.\d)? % of the cases \(7\d(\.\d)? to 7\d(\.\d)? %\)\.", run.Output);
        Assert.Contains("as planned; half the cases by", run.Output, StringComparison.Ordinal);
        Assert.Contains("paint slot 18:00", run.Output, StringComparison.Ordinal);
        Assert.Contains("humidity", run.Output, StringComparison.Ordinal);
        Assert.Contains("reaches the wanted 80 %", run.Output.ReplaceLineEndings(" ").Replace("   ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("evening-slot", 0)]
    [InlineData("hem-tape", 0)]
    [InlineData("no-plan", 1)]
    public void The_document_meets_its_published_schema(string example, int code)
    {
        var run = Run("chance", Example(example), "--samples", "2000", "--seed", "1", "--json", "-");

        using var document = JsonDocument.Parse(run.Output);
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
        Assert.Equal(code, run.Code);
        Assert.Equal(code == 0, document.RootElement.GetProperty("chance").ValueKind == JsonValueKind.Object);
    }

    [Fact]
    public void A_repair_without_a_plan_tells_what_stands_in_the_way()
    {
        var run = Run("chance", Example("no-plan"));

        Assert.Equal(1, run.Code);
        Assert.Contains("NO PLAN IS POSSIBLE", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("chance")]
    [InlineData("chance x --samples 10")]
    [InlineData("chance x --samples many")]
    [InlineData("chance x --seed -1")]
    [InlineData("chance no-such-folder")]
    public void Wrong_use_ends_with_2_and_says_what_to_do(string arguments)
    {
        var run = Run(arguments.Split(' '));

        Assert.Equal(2, run.Code);
        Assert.NotEmpty(run.Error);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void A_shop_states_its_own_spreads_and_what_it_wants()
    {
        using var folder = new Folder();
        string example = Path.Combine(Repository.Examples, "evening-slot");
        Directory.CreateDirectory(folder.At("case"));
        folder.Write("case/repair.yaml", File.ReadAllText(Path.Combine(example, "repair.yaml")));
        folder.Write("case/stock.yaml", File.ReadAllText(Path.Combine(example, "stock.yaml")));
        folder.Write("materials.yaml", File.ReadAllText(Path.Combine(Repository.Examples, "materials.yaml")));
        folder.Write("shop.yaml", File.ReadAllText(Path.Combine(Repository.Examples, "shop.yaml"))
            + "\nuncertainty:\n  labour: {seal: 0 %, abrade: 0 %, prime: 0 %}\n  whole_car: 0 %\n  temperature_offset: 0 K\n  temperature_swing: 0 K\n  humidity_offset: 0 %\n  humidity_swing: 0 %\n  cure_speed: 1 %\n  bead_depth: 0 %\n  wanted: 95 %\n");

        var run = Run("chance", folder.At("case"), "--samples", "2000", "--seed", "1");

        Assert.Equal(0, run.Code);
        Assert.Contains("Almost certainly ready", run.Output, StringComparison.Ordinal);
        Assert.Contains("as likely as wanted (95 %)", run.Output, StringComparison.Ordinal);
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
