using System.CommandLine;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Planning.Suppositions;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright suppose</c>: what would follow if something were otherwise.</summary>
internal static class SupposeCommand
{
    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.one.path") };
        var command = new Command("suppose", words.Say("cli.suppose")) { path };
        var asked = new SuppositionOptions(command, words);
        var seed = new Option<int?>("--seed") { Description = words.Say("cli.plan.seed"), HelpName = "N" };
        var json = new Option<string>("--json") { Description = words.Say("cli.plan.json"), HelpName = "FILE" };
        command.Options.Add(seed);
        command.Options.Add(json);
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            var watch = new Laps();
            string repair = parsed.GetRequiredValue(path);
            if (parsed.GetValue(seed) is < 0)
                return Refuse("cli.plan.seed-range");
            if (!asked.AreGiven(parsed))
                return Refuse("cli.suppose.nothing");
            var reading = RepairReader.Read(repair);
            watch.Lap("read");
            if (reading.Input is not { } input)
            {
                ProblemLines.Write(terminal.Error, words, reading.Problems);
                return Refuse("cli.problems", reading.Problems.Length);
            }
            var format = new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now, look.Units(parsed)));
            var typed = new TypedValue(terminal, words);
            var supposed = asked.Read(parsed, input, typed);
            if (typed.HasProblems)
                return typed.Tell();

            var answer = WhatIf.Answer(input, supposed, new PlanOptions { Seed = parsed.GetValue(seed) ?? 1, Deterministic = parsed.GetValue(seed) is not null });
            watch.Lap("planned");
            if (!answer.Problems.IsEmpty)
            {
                foreach (var problem in answer.Problems)
                    terminal.Error.WriteLine(Letters.Harmless(format.Sentence(problem)));
                return ExitCode.WrongUse;
            }
            var document = new AskedFile(terminal, words, parsed.GetValue(json));
            if (!document.Write(() => SupposeJson.Write(input, answer, format)))
                return ExitCode.WrongUse;
            if (!document.IsAlone)
                SupposePage.Write(new Page(terminal.Output, look.ScreenFor(parsed, terminal), format), input, answer, repair);
            watch.Lap("written");
            watch.Tell(terminal.Error);
            return answer.Then is null ? ExitCode.Refused : ExitCode.Done;
        });
        return command;

        int Refuse(string key, params ReadOnlySpan<object> facts)
        {
            terminal.Error.WriteLine(words.Say(key, facts));
            return ExitCode.WrongUse;
        }
    }
}
