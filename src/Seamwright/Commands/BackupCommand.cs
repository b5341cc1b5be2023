using System.CommandLine;
using NodaTime;
using Seamwright.Program.Texts;
using Seamwright.Storage;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Copies.Sealed;
using Seamwright.Storage.Health;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright backup</c>, <c>restore</c> and <c>doctor</c>: keeping the shop's data.</summary>
internal static class BackupCommand
{
    public static Command Build(Formatter words, Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = words.Say("cli.backup.file") };
        var command = new Command("backup", words.Say("cli.backup")) { file };
        var encrypt = new Option<bool>("--encrypt") { Description = words.Say("cli.backup.encrypt") };
        command.Add(encrypt);
        var passphrase = new AskedPassphrase(command, terminal, words);
        var options = new StoreOptions(command, words);
        command.SetAction(parsed =>
        {
            if (!options.IsThere(parsed))
            {
                terminal.Error.WriteLine(words.Say("doctor.no-data", options.Folder(parsed).Path));
                return ExitCode.Refused;
            }

            return options.OnStore(parsed, terminal, words, async (store, stop) =>
            {
                string path = parsed.GetRequiredValue(file);
                BackupManifest? manifest;
                BackupFault? fault;
                if (!parsed.GetValue(encrypt))
                    (manifest, fault) = await store.WriteBackup(path, "console", stop);
                else if (passphrase.ToSeal(parsed) is { } sealing)
                    (manifest, fault) = await store.WriteSealedBackup(path, sealing, "console", stop);
                else
                    return ExitCode.Refused;
                if (fault is not null || manifest is null)
                {
                    terminal.Error.WriteLine(words.Say(fault!.Key, [.. fault.Args]));
                    return ExitCode.Refused;
                }

                terminal.Output.WriteLine(words.Say("cli.backup.done", path, Rows(manifest), Photos(manifest)));
                if (parsed.GetValue(encrypt))
                    terminal.Output.WriteLine(words.Say("cli.backup.sealed"));
                return ExitCode.Done;
            });
        });
        return command;
    }

    public static Command BuildRestore(Formatter words, Terminal terminal)
    {
        var file = new Argument<string>("FILE") { Description = words.Say("cli.restore.file") };
        var command = new Command("restore", words.Say("cli.restore")) { file };
        var asked = new AskedPassphrase(command, terminal, words);
        var options = new StoreOptions(command, words);
        command.SetAction(parsed => StoreOptions.Try(terminal, words, async stop =>
        {
            string path = parsed.GetRequiredValue(file);
            string? passphrase = Sealing.IsSealed(path) ? asked.ToOpen(parsed) : null;
            var fault = passphrase is null ? await Fault(path, stop) : await SealedBackup.CheckSeal(path, passphrase, stop);
            if (fault is null)
            {
                using var store = await OpenOrSetAside(options.Folder(parsed), terminal, words, stop);
                var outcome = passphrase is null
                    ? await store.RestoreBackup(path, "console", stop)
                    : await store.RestoreSealedBackup(path, passphrase, "console", stop);
                fault = outcome.Fault;
                if (outcome.Manifest is { } manifest)
                {
                    terminal.Output.WriteLine(words.Say("cli.restore.done", path, Rows(manifest), Photos(manifest), store.Shown));
                    terminal.Output.WriteLine(words.Say("cli.restore.before", outcome.Before!));
                    return ExitCode.Done;
                }
            }

            terminal.Error.WriteLine(words.Say(fault!.Key, [.. fault.Args]));
            terminal.Error.WriteLine(words.Say("cli.restore.nothing"));
            return ExitCode.Refused;
        }));
        return command;
    }

    public static Command BuildDoctor(Formatter words, Terminal terminal)
    {
        var command = new Command("doctor", words.Say("cli.doctor"));
        var options = new StoreOptions(command, words);
        command.SetAction(parsed => StoreOptions.Try(terminal, words, async stop =>
        {
            var lines = await Examination.Examine(options.Folder(parsed), StoreOptions.Database, SystemClock.Instance, stop);
            foreach (var line in lines)
                terminal.Output.WriteLine(words.Say(line.IsGood ? "doctor.good" : "doctor.bad", words.Say(line.Key, [.. line.Args])));
            int bad = lines.Count(line => !line.IsGood);
            terminal.Output.WriteLine(bad == 0 ? words.Say("doctor.all-good") : words.Say("doctor.to-mend", bad));
            return bad == 0 ? ExitCode.Done : ExitCode.Refused;
        }));
        return command;
    }

    // A database that cannot be read is what a backup is for: it is moved aside, never deleted.
    private static async Task<ShopStore> OpenOrSetAside(DataFolder folder, Terminal terminal, Formatter words, CancellationToken stop)
    {
        bool isReadable = StoreOptions.Database is not null || !File.Exists(folder.Database)
            || (await Examination.Examine(folder, null, SystemClock.Instance, stop)).All(line => line.Key is not ("doctor.unreadable" or "doctor.integrity-bad"));
        if (!isReadable)
            terminal.Output.WriteLine(words.Say("cli.restore.aside", folder.SetDatabaseAside(SystemClock.Instance.GetCurrentInstant())));
        return await ShopStore.Open(folder, StoreOptions.Database, SystemClock.Instance, new UpgradeLines(terminal, words), stop);
    }

    private static async Task<BackupFault?> Fault(string path, CancellationToken stop) =>
        Sealing.IsSealed(path) ? SealedBackup.NeedsPassphrase(path) : (await BackupCheck.Check(path, stop)).Fault;

    private static long Rows(BackupManifest manifest) => manifest.Tables.Values.Sum();

    private static int Photos(BackupManifest manifest) => manifest.Files.Keys.Count(name => name.StartsWith("photos/", StringComparison.Ordinal));
}
