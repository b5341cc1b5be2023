using System.CommandLine;
using NodaTime;
using Seamwright.Program.Texts;
using Seamwright.Program.Web;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Keeping;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright serve</c>: the app for browsers.</summary>
internal static class ServeCommand
{
    /// <summary>Address where none is named: this machine only, where browsers trust plain HTTP.</summary>
    public const string UsualAddress = "http://localhost:5180";

    public static Command Build(Formatter words, Terminal terminal)
    {
        var url = new Option<string>("--url") { Description = words.Say("cli.serve.url"), HelpName = "ADDRESS", DefaultValueFactory = _ => UsualAddress };
        var command = new Command("serve", words.Say("cli.serve")) { url };
        var store = new StoreOptions(command, words);
        command.SetAction(parsed => Run(parsed, parsed.GetRequiredValue(url), store, words, terminal));
        return command;
    }

    private static int Run(ParseResult parsed, string address, StoreOptions store, Formatter words, Terminal terminal)
    {
        var starting = new StartingHost(address, words);
        return store.OnStore(parsed, terminal, words, async (open, stop) =>
        {
            await starting.DisposeAsync();
            await using var app = WebHost.Build(open, address, SystemClock.Instance);
            await app.StartAsync(stop);
            terminal.Output.WriteLine(words.Say("serve.open", address));
            terminal.Output.WriteLine(words.Say("serve.data", open.Shown));
            if (!await app.Services.GetRequiredService<FirstRun>().IsOver(stop))
                terminal.Output.WriteLine(words.Say("serve.code", app.Services.GetRequiredService<SetupCode>().Shown));
            terminal.Output.Flush();
            try
            {
                await app.WaitForShutdownAsync(stop);
            }
            catch (OperationCanceledException)
            {
                await app.StopAsync(CancellationToken.None);
            }
            return ExitCode.Done;
        }, starting);
    }
}
