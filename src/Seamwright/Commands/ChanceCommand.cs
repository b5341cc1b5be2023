using System.CommandLine;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Planning.Uncertainty;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright chance</c>: how likely the recommended plan is ready by its paint slot.</summary>
internal static class ChanceCommand
{
    private const string StandardOutput = "-";
    private const int FewestSamples = 1000;

    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.one.path") };
        var samples = new Option<int?>("--samples") { Description = words.Say("cli.chance.samples"), HelpName = "N" };
        var seed = new Option<int?>("--seed") { Description = words.Say("cli.chance.seed"), HelpName = "N" };
        var json = new Option<string>("--json") { Description = words.Say("cli.plan.json"), HelpName = "FILE" };
        var command = new Command("chance", words.Say("cli.chance")) { path, samples, seed, json };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            int? count = parsed.GetValue(samples), seeded = parsed.GetValue(seed);
            if (count is < FewestSamples or > ChanceOptions.MostSamples)
                return Refuse("cli.chance.samples-range", FewestSamples, ChanceOptions.MostSamples);
            if (seeded is < 0)
                return Refuse("cli.plan.seed-range");
            var reading = RepairReader.Read(parsed.GetRequiredValue(path));
            if (reading.Input is not { } input)
            {
                ProblemLines.Write(terminal.Error, words, reading.Problems);
                return Refuse("cli.problems", reading.Problems.Length);
            }

            var usual = new ChanceOptions();
            var answer = ChanceAssessment.Answer(
                input,
                new PlanOptions { Seed = seeded ?? 1, Deterministic = seeded is not null },
                usual with { Samples = count ?? usual.Samples, Seed = (ulong)(seeded ?? (int)usual.Seed) });
            var format = new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now, look.Units(parsed)));
            string? file = parsed.GetValue(json);
            if (file is not null && !WriteJson(file, ChanceJson.Write(input, answer, format)))
                return ExitCode.WrongUse;
            if (file != StandardOutput)
                ChancePage.Write(new Page(terminal.Output, look.ScreenFor(parsed, terminal), format), input, answer);
            return answer.Plan is null ? ExitCode.Refused : ExitCode.Done;
        });
        return command;

        int Refuse(string key, params ReadOnlySpan<object> facts)
        {
            terminal.Error.WriteLine(words.Say(key, facts));
            return ExitCode.WrongUse;
        }

        bool WriteJson(string file, byte[] document)
        {
            if (file == StandardOutput)
            {
                using var output = terminal.RawOutput();
                output.Write(document);
                return true;
            }
            try
            {
                WholeFile.Write(file, document);
                return true;
            }
            catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
            {
                Refuse("cli.plan.not-written", file, exception.Message);
                return false;
            }
        }
    }
}
