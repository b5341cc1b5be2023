using System.CommandLine;
using System.CommandLine.Help;
using System.Security.Cryptography;
using System.Text;
using Seamwright.Planning;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Commands;

/// <summary>The program's command line: parses, runs one command, and turns what went wrong into one line and an exit code.</summary>
/// <param name="terminal">Where to write.</param>
/// <param name="planner">Answers a repair.</param>
public sealed class CommandLine(Terminal terminal, Func<RepairInput, PlanOptions, PlanAnswer> planner)
{
    /// <summary>Columns of the help.</summary>
    public const int HelpWidth = 100;

    private readonly Sentences _sentences = Sentences.Load("en");

    /// <summary>Runs a command line.</summary>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public int Run(params string[] arguments)
    {
        try
        {
            int code = Invoke(arguments);
            terminal.Output.Flush();
            return code;
        }
        catch (Exception exception)
        {
            terminal.Output.Flush();
            return Tell(exception);
        }
    }

    private int Invoke(string[] arguments)
    {
        var formatter = new Formatter(_sentences, Notation.Plain);
        var root = Root(formatter);
        var parsed = root.Parse(arguments);
        if (parsed.Errors.Count > 0 && parsed.Action is not HelpAction and not HelpWithExamples)
        {
            foreach (var error in parsed.Errors)
                terminal.Error.WriteLine(error.Message);
            terminal.Error.WriteLine(formatter.Say("cli.see-help", PathOf(parsed.CommandResult.Command)));
            return ExitCode.WrongUse;
        }

        return parsed.Invoke(new InvocationConfiguration
        {
            Output = terminal.Output,
            Error = terminal.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = null,
        });
    }

    private RootCommand Root(Formatter words)
    {
        var root = new RootCommand(words.Say("cli.about"))
        {
            PlanCommand.Build(words, _sentences, terminal, planner),
            DrawCommand.Build(words, _sentences, terminal, planner),
            ReplanCommand.Build(words, _sentences, terminal),
            ChanceCommand.Build(words, _sentences, terminal),
            SupposeCommand.Build(words, _sentences, terminal),
            CurveCommand.Build(words, _sentences, terminal),
            CureCommand.Build(words, _sentences, terminal),
            AirCommand.Build(words, _sentences, terminal),
            CheckCommand.Build(words, terminal),
            ServeCommand.Build(words, terminal),
            ImportCommand.Build(words, terminal),
            ExportCommand.Build(words, terminal),
            BackupCommand.Build(words, terminal),
            BackupCommand.BuildRestore(words, terminal),
            BackupCommand.BuildDoctor(words, terminal),
            SeedReferenceCommand.Build(words, terminal),
        };
        root.HelpName = "seamwright";     // whatever host runs it
        root.SetAction(parsed =>
        {
            new HelpWithExamples(words).Invoke(parsed);
            return ExitCode.Done;
        });
        foreach (var option in root.Options)
        {
            if (option is HelpOption help)
            {
                help.Action = new HelpWithExamples(words);
                help.Description = words.Say("cli.help");
            }
            else if (option is VersionOption version)
            {
                version.Description = words.Say("cli.version");
            }
        }
        return root;
    }

    private static string PathOf(Command command) => command is RootCommand ? "seamwright" : $"seamwright {command.Name}";

    // The id is the same wherever the same thing goes wrong, so that it can be looked up after the call.
    private int Tell(Exception exception)
    {
        string place = exception.StackTrace?.Split('\n').FirstOrDefault()?.Split(" in ")[0].Trim() ?? "";
        byte[] hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{exception.GetType().FullName} {place}"));
        string id = Convert.ToHexString(hash.AsSpan(0, 4));
        terminal.Error.WriteLine(new Formatter(_sentences, Notation.Plain).Say("cli.our-fault", id));
        if (Laps.Wanted)
            terminal.Error.WriteLine(exception);
        return ExitCode.OurFault;
    }
}
