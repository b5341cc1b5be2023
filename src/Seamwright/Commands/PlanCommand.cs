using System.CommandLine;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Program.Printing;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright plan</c>: reads a repair, answers it, prints the answer or writes it as JSON.</summary>
internal static class PlanCommand
{
    public static Command Build(Formatter words, Sentences sentences, Terminal terminal, Func<RepairInput, PlanOptions, PlanAnswer> planner)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.plan.path") };
        var json = new Option<string>("--json") { Description = words.Say("cli.plan.json"), HelpName = "FILE" };
        var explain = new Option<string>("--explain") { Description = words.Say("cli.plan.explain"), HelpName = "JOINT" };
        var seed = new Option<int?>("--seed") { Description = words.Say("cli.plan.seed"), HelpName = "N" };
        seed.Validators.Add(result =>
        {
            if (!result.Errors.Any() && result.Tokens.Count == 1 && result.Tokens[0].Value.StartsWith('-'))
                result.AddError(words.Say("cli.plan.seed-range"));
        });
        var seconds = new Option<int>("--seconds") { Description = words.Say("cli.plan.seconds"), HelpName = "N", DefaultValueFactory = _ => 10 };
        seconds.Validators.Add(result =>
        {
            if (!result.Errors.Any() && result.GetValueOrDefault<int>() is < 1 or > 86_400)
                result.AddError(words.Say("cli.plan.seconds-range"));
        });
        var command = new Command("plan", words.Say("cli.plan")) { path, json, explain, seed, seconds };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            string asked = parsed.GetRequiredValue(path);
            if (RepairReader.RepairsBelow(asked) is { IsEmpty: false } repairs)
            {
                if (parsed.GetValue(explain) is not null)
                {
                    terminal.Error.WriteLine(words.Say("cli.plan.one-repair-only"));
                    return ExitCode.WrongUse;
                }
                var shop = new ShopRun(words, sentences, terminal)
                {
                    Repairs = repairs,
                    Json = parsed.GetValue(json),
                    Seed = parsed.GetValue(seed),
                    Seconds = parsed.GetValue(seconds),
                    Units = look.Units(parsed),
                    Screen = look.ScreenFor(parsed, terminal),
                };
                return shop.Answer();
            }
            if (RepairReader.IsShop(asked))
            {
                terminal.Error.WriteLine(words.Say("cli.plan.no-repair-of-shop", asked));
                return ExitCode.WrongUse;
            }
            var run = new PlanRun(words, sentences, terminal, planner)
            {
                Path = asked,
                Json = parsed.GetValue(json),
                Explain = parsed.GetValue(explain),
                Seed = parsed.GetValue(seed),
                Units = look.Units(parsed),
                Screen = look.ScreenFor(parsed, terminal),
            };
            return run.Answer();
        });
        return command;
    }

    /// <summary>One run with its options.</summary>
    private sealed class PlanRun(Formatter words, Sentences sentences, Terminal terminal, Func<RepairInput, PlanOptions, PlanAnswer> planner)
    {
        public required string Path { get; init; }

        public string? Json { get; init; }

        public string? Explain { get; init; }

        public int? Seed { get; init; }

        public Shops.UnitSystem? Units { get; init; }

        public required Screen Screen { get; init; }

        public int Answer()
        {
            var watch = new Laps();
            var reading = RepairReader.Read(Path);
            watch.Lap("read");
            if (reading.Input is not { } input)
            {
                ProblemLines.Write(terminal.Error, words, reading.Problems);
                terminal.Error.WriteLine(words.Say("cli.problems", reading.Problems.Length));
                return ExitCode.WrongUse;
            }
            if (Explain is not null && input.Repair.JointOrCavity(new PlaceId(Explain)) is null)
            {
                terminal.Error.WriteLine(words.Say("cli.plan.no-such-joint", Explain, input.Repair.Joints.Select(joint => joint.Id).ToList()));
                return ExitCode.WrongUse;
            }

            var answer = planner(input, Options());
            watch.Lap("planned");
            var format = new Formatter(sentences, Notation.Of(input.Shop, input.Repair.Now, Units));
            var document = new AskedFile(terminal, words, Json);
            if (!document.Write(() => PlanJson.Write(input, answer, format)))
                return ExitCode.WrongUse;
            if (!document.IsAlone)
                Print(new Page(terminal.Output, Screen, format), input, answer, reading.Notices);
            watch.Lap("written");
            watch.Tell(terminal.Error);
            return answer.Recommended is null ? ExitCode.Refused : ExitCode.Done;
        }

        // Whoever names a seed wants to see the same plan again, also on another machine.
        private PlanOptions Options() => new()
        {
            Seed = Seed ?? 1,
            Deterministic = Seed is not null,
            Explain = Explain is null ? null : new PlaceId(Explain),
        };

        private void Print(Page page, RepairInput input, PlanAnswer answer, IReadOnlyCollection<FileProblem> notices)
        {
            if (Explain is not null && answer.Recommended?.Joints.FirstOrDefault(joint => joint.Joint.Value == Explain) is { } decision)
                Explanation.Write(page, input, decision);
            else
                PlanPage.Write(page, input, answer);
            if (notices.Count == 0)
                return;
            page.Title(page.Say("print.read-so"));
            foreach (var notice in notices)
                page.Bullet(ProblemLines.Line(page.Format, notice));
        }
    }
}
