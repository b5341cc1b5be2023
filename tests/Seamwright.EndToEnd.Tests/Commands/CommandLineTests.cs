using System.Text;
using Seamwright.EndToEnd.Tests.Files;
using Seamwright.EndToEnd.Tests.Printing;
using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Program.Printing;
using Seamwright.Work;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Commands;

public class CommandLineTests
{
    private static readonly string EveningSlot = Path.Combine(Repository.Examples, "evening-slot");

    private static readonly string Materials = Path.Combine(Repository.Examples, "materials.yaml");

    [Theory]
    [InlineData("")]
    [InlineData("--help")]
    [InlineData("plan --help")]
    [InlineData("chance --help")]
    [InlineData("replan --help")]
    [InlineData("cure --help")]
    [InlineData("air --help")]
    [InlineData("check --help")]
    public void Help_shows_examples_and_exit_codes(string arguments)
    {
        var run = Run(arguments.Split(' ', StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(0, run.Code);
        Assert.Contains("Examples:\n  seamwright ", run.Output, StringComparison.Ordinal);
        Assert.Contains("Exit codes:\n  0  done", run.Output, StringComparison.Ordinal);
        Assert.Empty(run.Error);
    }

    [Theory]
    [InlineData("nonsense")]
    [InlineData("plan")]
    [InlineData("plan x --width 20")]
    [InlineData("plan x --seed -1")]
    [InlineData("plan x --units imperial")]
    [InlineData("air 20 28")]
    [InlineData("plan no-such-folder")]
    [InlineData("plan x --seconds 0")]
    public void Wrong_use_ends_with_2_and_says_what_to_do(string arguments)
    {
        var run = Run(arguments.Split(' '));

        Assert.Equal(2, run.Code);
        Assert.NotEmpty(run.Error);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void A_plan_is_printed_and_ends_with_0()
    {
        var run = Run("plan", EveningSlot);

        Assert.Equal(0, run.Code);
        Assert.Contains("READY FOR PAINT 17:39", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_of_repairs_is_planned_together()
    {
        var run = Run("plan", Path.Combine(Repository.Examples, "busy-week"), "--seconds", "1");

        Assert.Equal(0, run.Code);
        Assert.StartsWith("5 of 5 vehicles planned together", run.Output, StringComparison.Ordinal);
        Assert.Contains("Who goes to which vehicle", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Questions_about_one_repair_are_not_answered_for_a_folder()
    {
        var run = Run("plan", Path.Combine(Repository.Examples, "busy-week"), "--explain", "J1");

        Assert.Equal(2, run.Code);
        Assert.Contains("name its folder", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void No_plan_ends_with_1()
    {
        var run = Run(["plan", EveningSlot], (_, _) => Sample.NoPlan);

        Assert.Equal(1, run.Code);
        Assert.Contains("NO PLAN IS POSSIBLE", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Our_own_fault_is_one_line_with_an_id_and_ends_with_3()
    {
        var first = Run(["plan", EveningSlot], (_, _) => throw new InvalidOperationException("inner secret"));
        var second = Run(["plan", EveningSlot], (_, _) => throw new InvalidOperationException("inner secret"));

        Assert.Equal(3, first.Code);
        Assert.Single(first.Error.TrimEnd().Split('\n'));
        Assert.DoesNotContain("inner secret", first.Error, StringComparison.Ordinal);
        Assert.Matches(@"\(id [0-9A-F]{8}\)", first.Error);
        Assert.Matches(@"\(id [0-9A-F]{8}\)", second.Error);
    }

    [Fact]
    public void A_named_seed_asks_for_the_same_plan_everywhere()
    {
        PlanOptions? seen = null;
        Run(["plan", EveningSlot, "--seed", "7"], (_, options) => { seen = options; return Sample.Answer; });
        Assert.Equal((7, true), (seen!.Seed, seen.Deterministic));

        Run(["plan", EveningSlot], (_, options) => { seen = options; return Sample.Answer; });
        Assert.Equal((1, false), (seen.Seed, seen.Deterministic));
    }

    [Fact]
    public void An_explanation_of_a_joint_that_is_not_there_names_those_that_are()
    {
        var run = Run("plan", EveningSlot, "--explain", "J99");

        Assert.Equal(2, run.Code);
        Assert.Contains("The repair has no joint J99. It has J1, ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_on_standard_output_stands_there_alone()
    {
        var run = Run("plan", EveningSlot, "--json", "-");

        Assert.Equal(0, run.Code);
        Assert.StartsWith("{", run.Output, StringComparison.Ordinal);
        Assert.EndsWith("}\n", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_in_a_file_is_written_whole_and_leaves_nothing_beside_it()
    {
        using var folder = new TemporaryFolder();
        string file = Path.Combine(folder.Path, "plan.json");
        File.WriteAllText(file, "old");

        var run = Run("plan", EveningSlot, "--json", file);

        Assert.Equal(0, run.Code);
        Assert.Equal([file], Directory.GetFiles(folder.Path));
        Assert.StartsWith("{", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Fact]
    public void Json_that_cannot_be_written_is_told_and_the_old_file_stays()
    {
        var run = Run("plan", EveningSlot, "--json", Path.Combine(EveningSlot, "no", "such", "folder.json"));

        Assert.Equal(2, run.Code);
        Assert.Contains("could not be written", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Air_tells_dew_point_water_and_speed_of_cure()
    {
        // docs/reference values: 20 °C saturates at 2339 Pa; 28 % of it is 0.466 of the vapour pressure of 23 °C / 50 %.
        var run = Run("air", "20 °C", "28 %");

        Assert.Equal(0, run.Code);
        Assert.Contains("2339 Pa", run.Output, StringComparison.Ordinal);
        Assert.Contains("4 g/kg", run.Output, StringComparison.Ordinal);
        Assert.Contains("× 0.466", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("11 °C", 0, "coat and seal")]
    [InlineData("3 °C", 1, "only 2 K above")]
    [InlineData("0 °C", 1, "water settles on it")]
    public void A_panel_is_judged_by_its_margin_above_the_dew_point(string panel, int code, string words)
    {
        var run = Run("air", "20 °C", "28 %", "--panel", panel, "--width", "140");

        Assert.Equal(code, run.Code);
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Who_types_fahrenheit_reads_fahrenheit() =>
        Assert.Matches(@"dew point +33\.[78] °F", Run("air", "68 °F", "28 %").Output);

    [Fact]
    public void Cure_gives_the_clock_times_of_the_milestones()
    {
        // 45 min at 23 °C / 50 % take 97 min in air of 20 °C / 28 % (vapour ratio 0.466).
        var run = Run("cure", Materials, "MSS", "--at", "20 °C", "--humidity", "28 %", "--start", "2027-01-12 15:52");

        Assert.Equal(0, run.Code);
        Assert.Matches(@"ready for paint +45 min +1 h 37 min +17:29", run.Output);
    }

    [Theory]
    [InlineData("cure {0} MSS --start 2027-01-12T15:52", "--climate")]
    [InlineData("cure {0} MSS --start 2027-01-12T15:52 --at 20°C --humidity 0%", "--humidity")]
    [InlineData("cure {0} MSS --start noon --at 20°C --humidity 28%", "--start")]
    [InlineData("cure {0} NONE --start 2027-01-12T15:52 --at 20°C --humidity 28%", "NONE")]
    [InlineData("cure {0} MSS --start 2027-01-12T15:52 --at 20°C --humidity 28% --zone Nowhere", "Nowhere")]
    public void What_cure_cannot_use_is_named(string arguments, string named)
    {
        var run = Run([.. arguments.Split(' ').Select(argument => argument == "{0}" ? Materials : argument)]);

        Assert.Equal(2, run.Code);
        Assert.Contains(named, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_names_good_files_and_every_problem_of_bad_ones()
    {
        using var folder = new TemporaryFolder();
        string bad = Path.Combine(folder.Path, "shop.yaml");
        File.WriteAllText(bad, "seamwright: shop/1\nname: X\nzone: Nowhere\n");

        var run = Run("check", EveningSlot, bad);

        Assert.Equal(2, run.Code);
        Assert.Contains($"{EveningSlot}: fine", run.Output, StringComparison.Ordinal);
        Assert.Contains($"{bad}:3:", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_on_the_command_line_is_current()
    {
        string page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "cli.md")).ReplaceLineEndings("\n");

        foreach (string command in new[] { "", "plan", "replan", "chance", "cure", "air", "check" })
        {
            string help = Run([.. command.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--help"]).Output;
            string trimmed = string.Join('\n', help.TrimEnd('\n').Split('\n').Select(line => line.TrimEnd()));
            Assert.Contains($"```text\n{trimmed}\n```", page, StringComparison.Ordinal);
        }
    }

    private static (int Code, string Output, string Error) Run(params string[] arguments) => Run(arguments, (_, _) => Sample.Answer);

    private static (int Code, string Output, string Error) Run(string[] arguments, Func<RepairInput, PlanOptions, PlanAnswer> planner)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var raw = new MemoryStream();
        int code = new CommandLine(new Terminal(output, error, Screen.File, () => raw), planner).Run(arguments);
        return (code, output + Encoding.UTF8.GetString(raw.ToArray()), error.ToString());
    }

    private sealed class TemporaryFolder : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("seamwright-").FullName;

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
