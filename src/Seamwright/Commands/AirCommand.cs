using System.CommandLine;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Program.Printing;
using Seamwright.Program.Texts;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Program.Commands;

/// <summary><c>seamwright air</c>: what a thermometer and a hygrometer say about dew, water and cure.</summary>
internal static class AirCommand
{
    /// <summary>Customary margin of a panel above the dew point; a sheet may ask for another one.</summary>
    private static readonly TemperatureDifference CustomaryMargin = TemperatureDifference.FromKelvins(3);

    public static Command Build(Formatter words, Sentences sentences, Terminal terminal)
    {
        var temperature = new Argument<string>("TEMPERATURE") { Description = words.Say("cli.air.temperature") };
        var humidity = new Argument<string>("HUMIDITY") { Description = words.Say("cli.air.humidity") };
        var panel = new Option<string>("--panel") { Description = words.Say("cli.air.panel"), HelpName = "TEMPERATURE" };
        var command = new Command("air", words.Say("cli.air")) { temperature, humidity, panel };
        var look = new ScreenOptions(command, words);
        command.SetAction(parsed =>
        {
            var typed = new TypedValue(terminal, words);
            var air = typed.Temperature("TEMPERATURE", parsed.GetRequiredValue(temperature));
            var water = typed.Humidity("HUMIDITY", parsed.GetRequiredValue(humidity));
            var metal = typed.Temperature("--panel", parsed.GetValue(panel));
            if (water is { Fraction: <= 0 })
                typed.Refuse("HUMIDITY", "cli.air.no-water");
            if (typed.HasProblems || air is null || water is null)
                return typed.Tell();

            // Who types °F reads °F.
            bool us = parsed.GetRequiredValue(temperature).TrimEnd().EndsWith('F');
            var units = look.Units(parsed) ?? (us ? UnitSystem.UsCustomary : UnitSystem.Metric);
            var page = new Page(terminal.Output, look.ScreenFor(parsed, terminal), new Formatter(sentences, Notation.Plain with { Units = units }));
            return Write(page, new AirState(air.Value, water.Value), metal);
        });
        return command;
    }

    private static int Write(Page page, AirState air, Temperature? panel)
    {
        var dewPoint = MoistAir.DewPoint(air);
        var law = new CureLaw.Moisture(MolarEnergy.FromKilojoulesPerMole(0), AirState.Standard);
        page.Line(new Run(page.Say("air.title", air), Tone.Title));
        var grid = new Grid(page, new Column(""), new Column(""));
        void Row(string key, object fact) => grid.Row(page.Say(key), new Run(page.Format.Word(fact), Tone.Strong));
        Row("air.saturation", MoistAir.SaturationPressure(air.Temperature));
        Row("air.vapour", MoistAir.VapourPressure(air));
        Row("air.dew-point", dewPoint);
        Row("air.absolute", MoistAir.AbsoluteHumidity(air));
        Row("air.ratio", MoistAir.HumidityRatio(air));
        grid.Row(page.Say("air.speed"), new Run($"× {page.Format.Number(CureRate.Rate(law, air), 3)}", Tone.Strong));
        grid.Write();
        if (panel is not { } metal)
            return ExitCode.Done;

        var margin = metal - dewPoint;
        page.Gap();
        bool clear = margin >= CustomaryMargin;
        string key = clear ? "air.panel-clear" : margin.Kelvins <= 0 ? "air.panel-wet" : "air.panel-close";
        page.Paragraph(page.Say(key, metal, margin, CustomaryMargin, dewPoint + CustomaryMargin), tone: clear ? Tone.Answer : Tone.Alert);
        return clear ? ExitCode.Done : ExitCode.Refused;
    }
}
