using System.CommandLine;
using NodaTime;
using Seamwright.Program.Texts;
using Seamwright.Storage;
using Seamwright.Storage.Databases;

namespace Seamwright.Program.Commands;

/// <summary>Which store a command works on: by option, by environment, or the usual one.</summary>
internal sealed class StoreOptions
{
    /// <summary>Environment variable with the data folder.</summary>
    public const string FolderVariable = "SEAMWRIGHT_DATA";

    /// <summary>Environment variable with the connection string: a password on a command line could be read by everyone on the machine.</summary>
    public const string DatabaseVariable = "SEAMWRIGHT_DATABASE";

    private readonly Option<string?> _folder;

    public StoreOptions(Command command, Formatter words)
    {
        _folder = new("--data") { Description = words.Say("cli.data"), HelpName = "FOLDER" };
        command.Add(_folder);
    }

    /// <summary>Runs something on the store; tells in a sentence where it cannot be opened, and each step where it is brought up to date first.</summary>
    public int OnStore(ParseResult parsed, Terminal terminal, Formatter words, Func<ShopStore, CancellationToken, Task<int>> run, IProgress<UpgradeStep>? also = null) =>
        Try(terminal, words, async stop =>
        {
            using var store = await ShopStore.Open(Folder(parsed), Database, SystemClock.Instance, new UpgradeLines(terminal, words, also), stop);
            return await run(store, stop);
        });

    /// <summary>Runs something; a store that cannot be used and a disk that fails become a sentence.</summary>
    public static int Try(Terminal terminal, Formatter words, Func<CancellationToken, Task<int>> run)
    {
        using var stop = new CancellationTokenSource();
        ConsoleCancelEventHandler end = (_, pressed) =>
        {
            pressed.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        };
        Console.CancelKeyPress += end;
        try
        {
            return run(stop.Token).GetAwaiter().GetResult();
        }
        catch (StoreUnusableException e)
        {
            terminal.Error.WriteLine(words.Say(e.Key, [.. e.Args]));
            return ExitCode.Refused;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            terminal.Error.WriteLine(words.Say("store.disk", e.Message));
            return ExitCode.Refused;
        }
        catch (Exception e) when (e.GetBaseException() is System.Data.Common.DbException cause)
        {
            terminal.Error.WriteLine(words.Say("store.database", cause.Message.TrimEnd('.')));
            return ExitCode.Refused;
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            terminal.Error.WriteLine(words.Say("store.stopped"));
            return ExitCode.Refused;
        }
        finally
        {
            Console.CancelKeyPress -= end;
        }
    }

    /// <summary>Whether anything was ever stored there.</summary>
    public bool IsThere(ParseResult parsed) => Database is not null || File.Exists(Folder(parsed).Database);

    public DataFolder Folder(ParseResult parsed) =>
        (parsed.GetValue(_folder) ?? Environment.GetEnvironmentVariable(FolderVariable)) is { Length: > 0 } named
            ? new(Path.GetFullPath(named))
            : DataFolder.Usual;

    public static string? Database => Environment.GetEnvironmentVariable(DatabaseVariable) is { Length: > 0 } connection ? connection : null;
}

/// <summary>Tells each step of bringing data up to date as it begins; where answers go to, nothing else may stand.</summary>
internal sealed class UpgradeLines(Terminal terminal, Formatter words, IProgress<UpgradeStep>? also = null) : IProgress<UpgradeStep>
{
    public void Report(UpgradeStep value)
    {
        terminal.Error.WriteLine(words.Say(value.Key, [.. value.Args]));
        also?.Report(value);
    }
}
