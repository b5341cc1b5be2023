using System.Collections.Immutable;
using System.CommandLine;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Planning.Replanning;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright replan</c>: plans the rest of a repair anew from what its work log says.</summary>
internal static class ReplanCommand
{
    private const string StandardOutput = "-";

    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.replan.path") };
        var plan = new Option<string>("--plan") { Description = words.Say("cli.replan.plan"), HelpName = "FILE", Required = true };
        var log = new Option<string>("--log") { Description = words.Say("cli.replan.log"), HelpName = "FILE", Required = true };
        var now = new Option<string>("--now") { Description = words.Say("cli.replan.now"), HelpName = "TIME" };
        var seed = new Option<int?>("--seed") { Description = words.Say("cli.plan.seed"), HelpName = "N" };
        var json = new Option<string>("--json") { Description = words.Say("cli.plan.json"), HelpName = "FILE" };
        var command = new Command("replan", words.Say("cli.replan")) { path, plan, log, now, seed, json };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            if (parsed.GetValue(seed) is < 0)
                return Refuse("cli.plan.seed-range");
            var reading = RepairReader.Read(parsed.GetRequiredValue(path));
            if (reading.Input is not { } input)
                return Tell(reading.Problems);
            var (before, planProblems) = AnnouncedPlanReader.Read(parsed.GetRequiredValue(plan), input);
            var (entries, logProblems) = WorkLogReader.Read(parsed.GetRequiredValue(log), input);
            if (before is null || entries is null)
                return Tell([.. planProblems, .. logProblems]);
            var typed = new TypedValue(terminal, words);
            var moment = typed.Moment("--now", parsed.GetValue(now), input.Shop.Zone);
            if (typed.HasProblems)
                return typed.Tell();
            if (moment < input.Repair.Now)
                return Refuse("cli.replan.now-before", new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now)).DateAndClock(input.Repair.Now));

            int? seeded = parsed.GetValue(seed);
            var answer = Replanner.Answer(input, before, entries, moment, new PlanOptions { Seed = seeded ?? 1, Deterministic = seeded is not null });
            var format = new Formatter(sentences, Notation.Of(input.Shop, answer.Input.Repair.Now, look.Units(parsed)));
            string? file = parsed.GetValue(json);
            if (file is not null && !Write(file, ReplanJson.Write(answer, format)))
                return ExitCode.WrongUse;
            if (file != StandardOutput)
                ReplanPage.Write(new Page(terminal.Output, look.ScreenFor(parsed, terminal), format), answer, before.InputHash.Length > 0 && before.InputHash != input.ContentHash);
            return !answer.Problems.IsEmpty ? ExitCode.WrongUse : answer.Plan is null ? ExitCode.Refused : ExitCode.Done;
        });
        return command;

        int Refuse(string key, params ReadOnlySpan<object> facts)
        {
            terminal.Error.WriteLine(words.Say(key, facts));
            return ExitCode.WrongUse;
        }

        int Tell(ImmutableArray<FileProblem> problems)
        {
            ProblemLines.Write(terminal.Error, words, problems);
            return Refuse("cli.problems", problems.Length);
        }

        bool Write(string file, byte[] document)
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
