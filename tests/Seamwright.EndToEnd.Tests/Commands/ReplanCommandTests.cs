using System.Text;
using System.Text.Json;
using Json.Schema;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

/// <summary><c>seamwright replan</c> as a shop calls it.</summary>
public class ReplanCommandTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Formats, "replan.schema.json")));

    [Theory]
    [InlineData("evening-slot", "late-delivery", "PAINT SLOT Wed 13 Jan 13:00 instead of 18:00", "Seal J2", "the delivery of SL2 comes 17:30")]
    [InlineData("evening-slot", "sick-painter", "PAINT SLOT Wed 13 Jan 13:00 instead of 18:00", "Foam J5", "painter is away from 15:50 until Wed 13 Jan 12:00")]
    [InlineData("aluminium-apron", "cold-front", "PAINT SLOT Fri 21 May 08:00, as announced", "Set up the lamp at B1", "the air is another from 10:05 on")]
    [InlineData("aluminium-apron", "failed-check", "PAINT SLOT Fri 21 May 08:00, as announced", "Take off what failed on J3", "the check of J3 found: no adhesion")]
    public void Each_example_tells_what_becomes_of_the_promise_what_moves_and_why(string example, string log, string promise, string moved, string why)
    {
        var run = Replan(example, log, "--seed", "1", "--width", "110");

        Assert.Equal(0, run.Code);
        Assert.Empty(run.Error);
        Assert.Contains(promise, run.Output, StringComparison.Ordinal);
        string changes = Part(run.Output, "What changes, and why");
        Assert.Contains(moved, changes, StringComparison.Ordinal);
        Assert.Contains(why, changes, StringComparison.Ordinal);
        Assert.DoesNotContain("changed since that plan", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("evening-slot", "late-delivery")]
    [InlineData("aluminium-apron", "failed-check")]
    public void The_document_meets_its_schema_and_serves_as_the_plan_of_the_next_time(string example, string log)
    {
        using var folder = new Folder();
        string next = folder.At("next.json");
        Replan(example, log, "--seed", "1", "--json", next);

        using var document = JsonDocument.Parse(File.ReadAllBytes(next));
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).Where(detail => detail.Errors is not null).SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));

        var again = Run("replan", Example(example), "--plan", next, "--log", Path.Combine(Example(example), $"{log}.yaml"), "--seed", "1");
        Assert.Equal(0, again.Code);
        Assert.Contains("Nothing: all announced work stays as it is.", again.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: ended}", "An entry that tells ended needs the key work, for example seal.")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: away, person: painter, to: 2027-01-12T15:00}", "The end of an absence lies after its beginning.")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: as-announced, pack: A}", "pack is not used in an entry that tells as-announced")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: withdrawn, entry: E9}", "No entry before this one is named E9.")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: smudged}", "smudged")]
    public void A_slip_in_the_log_is_told_with_its_line(string entry, string sentence)
    {
        var run = ReplanWith($"seamwright: worklog/1\nentries:\n  - {entry}\n");

        Assert.Equal(2, run.Code);
        Assert.Contains("log.yaml:3:", run.Error, StringComparison.Ordinal);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Theory]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: ended, work: seal, places: [J9]}", "Entry E1 speaks of J9")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: failed, place: J1, fault: holiday}", "Entry E1 says that J1 failed, but nothing was applied there")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: ended, work: wax}", "wax is entered, but paint is not")]
    [InlineData("{id: E1, at: 2027-01-12T15:50, what: away, person: nobody, to: 2027-01-12T17:00}", "nobody, who is not in the shop")]
    public void What_cannot_be_is_told_and_nothing_is_planned(string entry, string sentence)
    {
        var run = ReplanWith($"seamwright: worklog/1\nentries:\n  - {entry}\n");

        Assert.Equal(2, run.Code);
        Assert.Contains("NOTHING PLANNED", run.Output, StringComparison.Ordinal);
        Assert.Contains(sentence, run.Output.ReplaceLineEndings(" ").Replace("   ", "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void A_withdrawn_entry_does_not_count()
    {
        var run = ReplanWith("""
            seamwright: worklog/1
            entries:
              - {id: E1, at: 2027-01-12T15:20, what: away, person: painter, to: 2027-01-14T12:00}
              - {id: E2, at: 2027-01-12T15:25, what: withdrawn, entry: E1}
            """);

        Assert.Equal(0, run.Code);
        Assert.Contains("Nothing: all announced work stays as it is.", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_of_another_repair_is_refused()
    {
        var run = Run("replan", Example("hem-tape"), "--plan", Path.Combine(Example("evening-slot"), "plan.json"), "--log", Path.Combine(Example("evening-slot"), "sick-painter.yaml"));

        Assert.Equal(2, run.Code);
        Assert.Contains("This plan is for the repair evening-slot, and the repair here is hem-tape.", run.Error, StringComparison.Ordinal);
    }

    private static string Part(string page, string title)
    {
        string[] lines = page.Split('\n');
        int at = Array.FindIndex(lines, line => line.StartsWith(title, StringComparison.Ordinal));
        return string.Join('\n', lines.Skip(at + 1).TakeWhile(line => !line.Contains("────", StringComparison.Ordinal)));
    }

    private static (int Code, string Output, string Error) ReplanWith(string log)
    {
        using var folder = new Folder();
        folder.Write("log.yaml", log);
        return Run("replan", Example("evening-slot"), "--plan", Path.Combine(Example("evening-slot"), "plan.json"), "--log", folder.At("log.yaml"), "--seed", "1");
    }

    private static (int Code, string Output, string Error) Replan(string example, string log, params string[] more) =>
        Run(["replan", Example(example), "--plan", Path.Combine(Example(example), "plan.json"), "--log", Path.Combine(Example(example), $"{log}.yaml"), .. more]);

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
