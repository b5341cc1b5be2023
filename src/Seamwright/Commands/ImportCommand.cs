using System.CommandLine;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Storage.Actions;
using Seamwright.Stored;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright import</c>: takes a folder of files into the store.</summary>
internal static class ImportCommand
{
    public static Command Build(Formatter words, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.import.path") };
        var replace = new Option<bool>("--replace") { Description = words.Say("cli.import.replace") };
        var command = new Command("import", words.Say("cli.import")) { path, replace };
        var options = new StoreOptions(command, words);
        command.SetAction(parsed =>
        {
            // Files are read before the store is opened: bad ones must leave no trace, not even an empty database.
            var read = ShopImport.Read(parsed.GetRequiredValue(path));
            if (read.Draft is not { } load)
            {
                ProblemLines.Write(terminal.Error, words, read.Problems);
                terminal.Error.WriteLine(words.Say("cli.import.problems", read.Problems.Length));
                return ExitCode.WrongUse;
            }

            return options.OnStore(parsed, terminal, words, async (store, stop) =>
            {
                var outcome = await store.FillShop(load, parsed.GetValue(replace), "console", stop);
                if (!outcome.Clashes.IsEmpty)
                {
                    terminal.Error.WriteLine(Letters.Harmless(words.Say("cli.import.clashes", string.Join(", ", outcome.Clashes))));
                    return ExitCode.Refused;
                }

                await store.NoteAudit("console", "imported", parsed.GetRequiredValue(path), "console", stop: stop);
                terminal.Output.WriteLine(words.Say("cli.import.done", load.Repairs.Length, load.Sheets.Length, load.Packs.Length, store.Shown));
                terminal.Output.WriteLine(words.Say("cli.import.counts", outcome.Added, outcome.Changed, outcome.Same));
                return ExitCode.Done;
            });
        });
        return command;
    }
}
