using System.CommandLine;
using System.Text;
using Seamwright.Documents.Drawing;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Program.Drawings;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright draw</c>: seam map, cross-sections, timeline and curves of a repair as SVG files and one page that shows them.</summary>
internal static class DrawCommand
{
    public static Command Build(Formatter words, Sentences sentences, Terminal terminal, Func<RepairInput, PlanOptions, PlanAnswer> planner)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.draw.path") };
        var folder = new Option<string>("--out") { Description = words.Say("cli.draw.out"), HelpName = "FOLDER", Required = true };
        var at = new Option<string>("--at") { Description = words.Say("cli.draw.at"), HelpName = "TIME" };
        var command = new Command("draw", words.Say("cli.draw")) { path, folder, at };
        var look = new ScreenOptions(command, words, unitsOnly: true);
        command.SetAction(parsed =>
        {
            var reading = RepairReader.Read(parsed.GetRequiredValue(path));
            if (reading.Input is not { } input)
            {
                ProblemLines.Write(terminal.Error, words, reading.Problems);
                terminal.Error.WriteLine(words.Say("cli.draw.problems", reading.Problems.Length));
                return ExitCode.WrongUse;
            }
            var typed = new TypedValue(terminal, words);
            var moment = typed.Moment("--at", parsed.GetValue(at), input.Shop.Zone) ?? input.Repair.Now;
            if (typed.HasProblems)
                return typed.Tell();

            var plan = planner(input, new PlanOptions { Seed = 1, Deterministic = true }).Recommended;
            var format = new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now, look.Units(parsed)));
            var set = DrawingSet.Of(input, plan, moment, format);
            var files = set.Files.Select(file => (file.File, Content: SvgCanvas.File(file.Drawing)))
                .Append(("index.html", DrawingPage.Write(input, plan, set, format))).ToList();
            string into = parsed.GetRequiredValue(folder);
            if (!Write(into, files, terminal, words))
                return ExitCode.WrongUse;
            terminal.Output.WriteLine(Letters.Harmless(words.Say("cli.draw.written", files.Count - 1, Path.Combine(into, "index.html"))));
            if (plan is not null)
                return ExitCode.Done;
            terminal.Error.WriteLine(words.Say("cli.draw.no-plan"));
            return ExitCode.Refused;
        });
        return command;
    }

    // All is drawn before the first file is written, and the page that names them all comes last.
    private static bool Write(string folder, List<(string File, string Content)> files, Terminal terminal, Formatter words)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (var (file, content) in files)
                WholeFile.Write(Path.Combine(folder, file), Encoding.UTF8.GetBytes(content));
            return true;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            terminal.Error.WriteLine(words.Say("cli.plan.not-written", folder, exception.Message));
            return false;
        }
    }
}
