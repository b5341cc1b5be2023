using System.CommandLine;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Shops;

namespace Seamwright.Program.Commands;

/// <summary>Options on how an answer is shown, the same for every command that draws.</summary>
internal sealed class ScreenOptions
{
    private readonly Option<string> _units;
    private readonly Option<int> _width;
    private readonly Option<bool> _plain;

    /// <param name="command">Command that gets the options.</param>
    /// <param name="words">Words.</param>
    /// <param name="unitsOnly">For a command whose answer is no page of the terminal.</param>
    public ScreenOptions(Command command, Formatter words, bool unitsOnly = false)
    {
        _units = new Option<string>("--units") { Description = words.Say("cli.units"), HelpName = "metric|us" };
        _units.AcceptOnlyFromAmong("metric", "us");
        _width = new Option<int>("--width") { Description = words.Say("cli.width"), HelpName = "COLUMNS" };
        _plain = new Option<bool>("--plain") { Description = words.Say("cli.plain") };
        _width.Validators.Add(result =>
        {
            // A value that is no number at all has its own message.
            if (result.Errors.Any() || result.Tokens.Count != 1 || !int.TryParse(result.Tokens[0].Value, out int width))
                return;
            if (width is < Screen.Narrowest or > Screen.Widest)
                result.AddError(words.Say("cli.width-range", Screen.Narrowest, Screen.Widest));
        });
        command.Options.Add(_units);
        if (unitsOnly)
            return;
        command.Options.Add(_width);
        command.Options.Add(_plain);
    }

    /// <summary>The units asked for; null = the shop's.</summary>
    public UnitSystem? Units(ParseResult parsed) => parsed.GetValue(_units) switch
    {
        "us" => UnitSystem.UsCustomary,
        "metric" => UnitSystem.Metric,
        _ => null,
    };

    public Screen ScreenFor(ParseResult parsed, Terminal terminal)
    {
        var screen = terminal.Screen;
        if (parsed.GetValue(_width) is > 0 and var width)
            screen = screen with { Width = width };
        return parsed.GetValue(_plain) ? screen with { Colour = false, Unicode = false } : screen;
    }
}
