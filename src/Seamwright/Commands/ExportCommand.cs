using System.CommandLine;
using Seamwright.Program.Texts;
using Seamwright.Stored;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright export</c>: writes the store as a folder of files.</summary>
internal static class ExportCommand
{
    public static Command Build(Formatter words, Terminal terminal)
    {
        var folder = new Argument<string>("FOLDER") { Description = words.Say("cli.export.folder") };
        var command = new Command("export", words.Say("cli.export")) { folder };
        var options = new StoreOptions(command, words);
        command.SetAction(parsed => options.OnStore(parsed, terminal, words, async (store, stop) =>
        {
            string path = parsed.GetRequiredValue(folder);
            if (await ShopExport.Write(store, path, stop) is not { } repairs)
            {
                terminal.Error.WriteLine(words.Say("cli.export.there", path));
                return ExitCode.Refused;
            }

            terminal.Output.WriteLine(words.Say("cli.export.done", repairs, path));
            return ExitCode.Done;
        }));
        return command;
    }
}
