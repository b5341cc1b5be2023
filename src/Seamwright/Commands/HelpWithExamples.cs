using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Seamwright.Program.Texts;

namespace Seamwright.Program.Commands;

/// <summary>The usual help, then examples and exit codes.</summary>
internal sealed class HelpWithExamples(Formatter words) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => true;

    public override int Invoke(ParseResult parseResult)
    {
        var output = parseResult.InvocationConfiguration.Output;
        var command = parseResult.CommandResult.Command;
        new HelpAction { MaxWidth = CommandLine.HelpWidth }.Invoke(parseResult);
        output.WriteLine(words.Say("cli.examples"));
        string key = command is RootCommand ? "cli.examples.root" : $"cli.examples.{command.Name}";
        foreach (string line in words.Say(key).Split('\n'))
            output.WriteLine($"  {line}");
        output.WriteLine();
        output.WriteLine(words.Say("cli.exit-codes"));
        foreach (string line in words.Say("cli.exit-codes.list").Split('\n'))
            output.WriteLine($"  {line}");
        return ExitCode.Done;
    }
}
