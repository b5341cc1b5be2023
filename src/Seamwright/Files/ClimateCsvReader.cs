using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Seamwright.Air;
using Seamwright.Files.Trees;
using Seamwright.Files.Typed;
using Seamwright.Units;

namespace Seamwright.Files;

/// <summary>What reading a climate table gave.</summary>
/// <param name="Rows">Readings in file order; empty where there is any problem.</param>
/// <param name="Problems">Problems; of bad rows the first twenty are shown and the rest counted.</param>
/// <param name="Notices">What was assumed: rows without a value, hours that occur twice.</param>
public sealed record ClimateTable(
    ImmutableArray<ClimateReading> Rows, ImmutableArray<FileProblem> Problems, ImmutableArray<FileProblem> Notices);

/// <summary>
/// Reads climate logs and forecasts: a heading names the columns; commas, semicolons or tabs between them; times with an offset, or
/// local times of the declared zone. Rows may come in any order; gaps and repetitions are left to the climate.
/// </summary>
public static class ClimateCsvReader
{
    /// <summary>Bad rows shown one by one.</summary>
    public const int RowsShown = 20;

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="zone">Zone of times without an offset.</param>
    /// <param name="fahrenheit">Unit of the temperature column; null = from its heading, °C where that names none.</param>
    public static ClimateTable Read(string path, DateTimeZone zone, bool? fahrenheit = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(zone);
        var problems = new ProblemList();
        return Read(new SourceFile(path, problems), problems, zone, fahrenheit);
    }

    /// <summary>Reads what somebody sent.</summary>
    /// <param name="content">Bytes of the table.</param>
    /// <param name="zone">Zone of times without an offset.</param>
    /// <param name="fahrenheit">Unit of the temperature column; null = from its heading, °C where that names none.</param>
    public static ClimateTable Read(ReadOnlyMemory<byte> content, DateTimeZone zone, bool? fahrenheit = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        const string Name = "table.csv";
        var problems = new ProblemList();
        return Read(new SourceFile(Name, problems, FileSource.InMemory(ImmutableDictionary<string, ReadOnlyMemory<byte>>.Empty.Add(Name, content))), problems, zone, fahrenheit);
    }

    private static ClimateTable Read(SourceFile file, ProblemList problems, DateTimeZone zone, bool? fahrenheit)
    {
        var rows = file.Text(SourceFile.LogLimit) is { } text ? Rows(text, file, zone, fahrenheit) : [];
        return new(problems.Count == 0 ? rows : [], [.. problems.Shown()], [.. problems.Notices]);
    }

    internal static ImmutableArray<ClimateReading> Rows(string text, SourceFile file, DateTimeZone zone, bool? fahrenheit)
    {
        var lines = new StringReader(text);
        int number = 0;
        string? heading;
        do
        {
            heading = lines.ReadLine();
            number++;
        }
        while (heading is not null && IsRemark(heading));

        if (heading is null || ClimateColumns.Of(heading, fahrenheit, new(number, 1), file) is not { } columns)
        {
            if (heading is null)
                file.WholeProblem("file.empty");
            return [];
        }

        var rows = new ClimateRows(columns, file, zone);
        while (lines.ReadLine() is { } line)
        {
            number++;
            if (!IsRemark(line))
                rows.Add(line, number);
        }

        return rows.Finish();
    }

    private static bool IsRemark(string line) => string.IsNullOrWhiteSpace(line) || line.StartsWith('#');
}
