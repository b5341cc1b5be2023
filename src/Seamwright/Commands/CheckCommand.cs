using System.CommandLine;
using Seamwright.Files;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright check</c>: reads files and tells every problem in them.</summary>
internal static class CheckCommand
{
    public static Command Build(Formatter words, Terminal terminal)
    {
        var paths = new Argument<string[]>("PATH") { Description = words.Say("cli.check.path"), Arity = ArgumentArity.OneOrMore };
        var command = new Command("check", words.Say("cli.check")) { paths };
        command.SetAction(parsed => Run(parsed.GetRequiredValue(paths), words, terminal));
        return command;
    }

    private static int Run(string[] paths, Formatter words, Terminal terminal)
    {
        bool good = true;
        foreach (string path in paths)
        {
            var problems = RepairReader.Check(path);
            if (problems.IsEmpty)
            {
                terminal.Output.WriteLine(Letters.Harmless(words.Say("cli.check.fine", path)));
                continue;
            }
            good = false;
            ProblemLines.Write(terminal.Output, words, problems);
        }
        return good ? ExitCode.Done : ExitCode.WrongUse;
    }
}
