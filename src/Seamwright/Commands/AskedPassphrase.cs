using System.CommandLine;
using System.Text;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Keeping;
using Seamwright.Storage.Copies.Sealed;

namespace Seamwright.Program.Commands;

/// <summary>The passphrase of a backup: from a file, else from the environment, else typed where somebody sits at the terminal.</summary>
internal sealed class AskedPassphrase
{
    private readonly Option<string?> _file;
    private readonly Terminal _terminal;
    private readonly Formatter _words;

    public AskedPassphrase(Command command, Terminal terminal, Formatter words)
    {
        _terminal = terminal;
        _words = words;
        _file = new("--passphrase-file") { Description = words.Say("cli.passphrase-file", Passphrase.FileVariable, Passphrase.Variable), HelpName = "FILE" };
        command.Add(_file);
    }

    /// <summary>A passphrase to open a backup with; null where there is none.</summary>
    public string? ToOpen(ParseResult parsed) => Given(parsed) ?? Typed("cli.passphrase.type");

    /// <summary>A passphrase to seal a backup with, typed twice where it is typed; null where there is none or the two differ, which has been told.</summary>
    public string? ToSeal(ParseResult parsed)
    {
        if (Given(parsed) is { } given)
            return given;
        string? typed = Typed("cli.passphrase.new", Sealing.ShortestPassphrase);
        if (typed is null)
            _terminal.Error.WriteLine(_words.Say("cli.passphrase.none", Passphrase.FileVariable));
        else if (typed != Typed("cli.passphrase.again"))
            _terminal.Error.WriteLine(_words.Say("cli.passphrase.differ"));
        else
            return typed;
        return null;
    }

    private string? Given(ParseResult parsed) => parsed.GetValue(_file) is { } file ? Passphrase.FromFile(file) : Passphrase.FromEnvironment();

    // Letters are not shown: somebody may look over a shoulder.
    private string? Typed(string key, params object[] args)
    {
        if (Console.IsInputRedirected || Console.IsErrorRedirected)
            return null;
        _terminal.Error.Write(_words.Say(key, args) + " ");
        var typed = new StringBuilder();
        while (Console.ReadKey(intercept: true) is { Key: not ConsoleKey.Enter } pressed)
        {
            if (pressed.Key == ConsoleKey.Backspace)
                typed.Length = Math.Max(0, typed.Length - 1);
            else if (!char.IsControl(pressed.KeyChar))
                typed.Append(pressed.KeyChar);
        }

        _terminal.Error.WriteLine();
        return typed.Length == 0 ? null : typed.ToString();
    }
}
