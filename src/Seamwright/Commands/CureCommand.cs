using System.CommandLine;
using NodaTime;
using Seamwright.Air;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Units;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright cure</c>: when a material reaches its milestones in some air.</summary>
internal static class CureCommand
{
    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var file = new Argument<string>("MATERIALS") { Description = words.Say("cli.cure.materials") };
        var name = new Argument<string>("MATERIAL") { Description = words.Say("cli.cure.material") };
        var start = Text("--start", "TIME", words.Say("cli.cure.start"));
        start.Required = true;
        var at = Text("--at", "TEMPERATURE", words.Say("cli.cure.at"));
        var humidity = Text("--humidity", "HUMIDITY", words.Say("cli.cure.humidity"));
        var climate = Text("--climate", "FILE", words.Say("cli.cure.climate"));
        var panel = Text("--panel", "TEMPERATURE", words.Say("cli.cure.panel"));
        var depth = Text("--depth", "LENGTH", words.Say("cli.cure.depth"));
        var zone = Text("--zone", "ZONE", words.Say("cli.cure.zone"));
        var command = new Command("cure", words.Say("cli.cure")) { file, name, start, at, humidity, climate, panel, depth, zone };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            var place = DateTimeZoneProviders.Tzdb.GetZoneOrNull(parsed.GetValue(zone) ?? "UTC");
            if (place is null)
            {
                terminal.Error.WriteLine(words.Say("cli.cure.no-such-zone", parsed.GetValue(zone)!));
                return ExitCode.WrongUse;
            }
            var typed = new TypedValue(terminal, words);
            string? climateFile = parsed.GetValue(climate);
            var from = typed.Moment("--start", parsed.GetRequiredValue(start), place);
            var air = typed.Temperature("--at", parsed.GetValue(at));
            var water = typed.Humidity("--humidity", parsed.GetValue(humidity));
            var metal = typed.Temperature("--panel", parsed.GetValue(panel));
            var deep = typed.Depth("--depth", parsed.GetValue(depth));
            if (climateFile is null ? parsed.GetValue(at) is null || parsed.GetValue(humidity) is null : parsed.GetValue(at) is not null || parsed.GetValue(humidity) is not null)
                typed.Refuse("--climate", "cli.cure.which-air");
            if (water is { Fraction: <= 0 })
                typed.Refuse("--humidity", "cli.air.no-water");
            if (typed.HasProblems)
                return typed.Tell();

            var files = new CureFiles(terminal, words);
            if (files.Sheet(parsed.GetRequiredValue(file), parsed.GetRequiredValue(name)) is not { } sheet)
                return ExitCode.WrongUse;
            var weather = climateFile is null ? new ConstantClimate(new AirState(air!.Value, water!.Value)) : files.Climate(climateFile, place, from!.Value);
            if (weather is null)
                return ExitCode.WrongUse;

            // Who types °F reads °F.
            bool us = parsed.GetValue(at)?.TrimEnd().EndsWith('F') ?? false;
            var units = look.Units(parsed) ?? (us ? Shops.UnitSystem.UsCustomary : Shops.UnitSystem.Metric);
            var notation = Notation.Plain with { Zone = place, Units = units, Today = from!.Value.InZone(place).Date };
            var page = new Page(terminal.Output, look.ScreenFor(parsed, terminal), new Formatter(sentences, notation));
            var feels = metal is { } reading ? PanelClimate.FromReading(weather, from.Value, reading) : PanelClimate.FollowingAir(weather);
            CurePage.Write(page, sheet, feels, from.Value, deep);
            return ExitCode.Done;
        });
        return command;
    }

    private static Option<string> Text(string name, string shown, string description) => new(name) { HelpName = shown, Description = description };
}
