using System.CommandLine;
using System.Text;
using Seamwright.Documents.Drawing;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Planning.Tradeoffs;
using Seamwright.Program.Drawings;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright curve</c>: what being ready for paint earlier costs.</summary>
internal static class CurveCommand
{
    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.one.path") };
        var seed = new Option<int?>("--seed") { Description = words.Say("cli.plan.seed"), HelpName = "N" };
        var json = new Option<string>("--json") { Description = words.Say("cli.plan.json"), HelpName = "FILE" };
        var svg = new Option<string>("--svg") { Description = words.Say("cli.curve.svg"), HelpName = "FILE" };
        var command = new Command("curve", words.Say("cli.curve")) { path, seed, svg, json };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            var watch = new Laps();
            string repair = parsed.GetRequiredValue(path);
            if (parsed.GetValue(seed) is < 0)
                return Refuse("cli.plan.seed-range");
            var reading = RepairReader.Read(repair);
            watch.Lap("read");
            if (reading.Input is not { } input)
            {
                ProblemLines.Write(terminal.Error, words, reading.Problems);
                return Refuse("cli.problems", reading.Problems.Length);
            }
            var curve = CurvePlanner.Answer(input, new PlanOptions { Seed = parsed.GetValue(seed) ?? 1, Deterministic = parsed.GetValue(seed) is not null });
            watch.Lap("planned");
            var format = new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now, look.Units(parsed)));
            var document = new AskedFile(terminal, words, parsed.GetValue(json));
            if (!document.Write(() => CurveJson.Write(input, curve, format)))
                return ExitCode.WrongUse;
            if (CurvePicture.Of(curve, format) is { } picture && !new AskedFile(terminal, words, parsed.GetValue(svg)).Write(() => Encoding.UTF8.GetBytes(SvgCanvas.File(picture))))
                return ExitCode.WrongUse;
            if (!document.IsAlone && parsed.GetValue(svg) != AskedFile.StandardOutput)
                CurvePage.Write(new Page(terminal.Output, look.ScreenFor(parsed, terminal), format), input, curve);
            watch.Lap("written");
            watch.Tell(terminal.Error);
            return curve.Points.IsEmpty ? ExitCode.Refused : ExitCode.Done;
        });
        return command;

        int Refuse(string key, params ReadOnlySpan<object> facts)
        {
            terminal.Error.WriteLine(words.Say(key, facts));
            return ExitCode.WrongUse;
        }
    }
}
