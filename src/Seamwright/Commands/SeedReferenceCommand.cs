using System.CommandLine;
using NodaTime;
using Seamwright.Files;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Reference;
using Seamwright.Stored;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright seed-reference</c>: years of invented data, to measure with.</summary>
internal static class SeedReferenceCommand
{
    public static Command Build(Formatter words, Terminal terminal)
    {
        var path = new Argument<string>("PATH") { Description = words.Say("cli.seed.path") };
        var repairs = new Option<int>("--repairs") { Description = words.Say("cli.seed.repairs"), HelpName = "N", DefaultValueFactory = _ => ReferenceShop.Repairs };
        repairs.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > ReferenceShop.Repairs)
                result.AddError(words.Say("cli.seed.repairs-range", ReferenceShop.Repairs));
        });
        var command = new Command("seed-reference", words.Say("cli.seed")) { path, repairs };
        var options = new StoreOptions(command, words);
        command.SetAction(parsed =>
        {
            var read = ShopImport.Read(parsed.GetRequiredValue(path));
            if (read.Draft is not { } load)
            {
                ProblemLines.Write(terminal.Error, words, read.Problems);
                return ExitCode.WrongUse;
            }

            var end = RepairReader.Read(FirstRepair(parsed.GetRequiredValue(path))).Input!.Repair.Now;
            return options.OnStore(parsed, terminal, words, async (store, stop) =>
            {
                var filled = await store.FillWithReferenceShop([.. load.Sheets.Where(sheet => sheet.Use == "seam-sealer").Select(sheet => sheet.Id)], Instant.Min(end, store.Now), parsed.GetValue(repairs), 1, stop);
                if (filled is not { } counts)
                {
                    terminal.Error.WriteLine(words.Say("cli.seed.not-empty", store.Shown));
                    return ExitCode.Refused;
                }

                var outcome = await store.FillShop(load with { Repairs = [], Packs = [] }, replace: false, "seed", stop);
                if (!outcome.Clashes.IsEmpty)
                    terminal.Error.WriteLine(Letters.Harmless(words.Say("cli.import.clashes", string.Join(", ", outcome.Clashes))));
                terminal.Output.WriteLine(words.Say("cli.seed.done", counts.Repairs, counts.Joints, counts.Entries, counts.Packs, counts.Photos, counts.Readings, store.Shown));
                return ExitCode.Done;
            });
        });
        return command;
    }

    private static string FirstRepair(string path) => RepairReader.RepairsBelow(path) is [var first, ..] ? first : path;
}
