using System.CommandLine;
using NodaTime;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Program.Texts;
using Seamwright.Units;

namespace Seamwright.Program.Commands;

/// <summary>Quantities and times typed on the command line, read by the same rules as in files and refused in the same words.</summary>
internal sealed class TypedValue(Terminal terminal, Formatter words)
{
    private readonly ProblemList _problems = new();

    /// <summary>Whether something could not be read; it has been collected to be told.</summary>
    public bool HasProblems => _problems.Count > 0;

    public Temperature? Temperature(string name, string? text) =>
        Read(name, text, Measures.AirTemperature) is { } kelvin ? Units.Temperature.FromKelvin(kelvin) : null;

    public RelativeHumidity? Humidity(string name, string? text) =>
        Read(name, text, Measures.Humidity) is { } fraction ? RelativeHumidity.FromFraction(fraction) : null;

    public Length? Depth(string name, string? text) =>
        Read(name, text, Measures.BeadSize) is { } metres ? Length.FromMetres(metres) : null;

    public Instant? Moment(string name, string? text, DateTimeZone zone) =>
        text is null ? null : Times.Moment(FieldOf(name, text), zone);

    public Duration? Span(string name, string? text) =>
        Read(name, text, Measures.SomeDuration) is { } seconds ? Duration.FromSeconds(seconds) : null;

    public LocalTime? Clock(string name, string? text) => text is null ? null : Times.Clock(FieldOf(name, text));

    /// <summary>Tells that a value is not possible.</summary>
    public void Refuse(string name, string key, params string[] args) => FieldOf(name, "").Problem(key, args);

    /// <summary>Writes what could not be read.</summary>
    public int Tell()
    {
        foreach (var problem in _problems.Shown())
            terminal.Error.WriteLine($"{problem.File}: {ProblemLines.Sentence(words, problem)}");
        return ExitCode.WrongUse;
    }

    private double? Read(string name, string? text, Measure measure) =>
        text is null ? null : QuantityText.Read(FieldOf(name, text), measure);

    private Field FieldOf(string name, string text) =>
        new(new ScalarNode(default, text, Plain: false), name, new SourceFile(name, _problems));
}
