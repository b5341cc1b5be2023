using System.Text;
using Seamwright.Files.Trees;

namespace Seamwright.Files.Typed;

/// <summary>Which column of a climate table holds what.</summary>
internal sealed record ClimateColumns(char Separator, int Time, int Temperature, int Humidity, bool Fahrenheit, bool HumidityIsFraction)
{
    /// <summary>Columns by the names in the heading; null where one is missing, which has been told.</summary>
    public static ClimateColumns? Of(string heading, bool? fahrenheit, Mark mark, SourceFile file)
    {
        char separator = heading.Contains(';') ? ';' : heading.Contains('\t') ? '\t' : ',';
        var names = Split(heading, separator).Select(name => name.Trim().ToLowerInvariant()).ToArray();
        int time = Array.FindIndex(names, name => name is "time" or "timestamp" or "date" or "datetime" or "date_time" or "date time" || name.StartsWith("time", StringComparison.Ordinal));
        int temperature = Array.FindIndex(names, name => name.StartsWith("temp", StringComparison.Ordinal) || name is "t" or "°c" or "°f");
        int humidity = Array.FindIndex(names, name =>
            (name.Contains("humidity", StringComparison.Ordinal) && !name.Contains("ratio", StringComparison.Ordinal) && !name.Contains("absolute", StringComparison.Ordinal))
            || name is "rh" or "% rh" or "rh %" or "rh_percent" or "rh (%)");
        foreach (var (index, column) in new[] { (time, "time"), (temperature, "temperature"), (humidity, "humidity") })
        {
            if (index < 0)
                file.Problem(mark, "", "climate.column-missing", column, Words.Quote(string.Join(", ", names)));
        }

        if (time < 0 || temperature < 0 || humidity < 0)
            return null;

        string unit = names[temperature];
        bool saysFahrenheit = unit.EndsWith("_f", StringComparison.Ordinal) || unit.Contains("°f", StringComparison.Ordinal)
            || unit.Contains("ºf", StringComparison.Ordinal) || unit.EndsWith("(f)", StringComparison.Ordinal) || unit.Contains("fahrenheit", StringComparison.Ordinal);
        bool saysCelsius = unit.EndsWith("_c", StringComparison.Ordinal) || unit.Contains("°c", StringComparison.Ordinal)
            || unit.Contains("ºc", StringComparison.Ordinal) || unit.EndsWith("(c)", StringComparison.Ordinal) || unit.Contains("celsius", StringComparison.Ordinal);
        if (fahrenheit is null && !saysFahrenheit && !saysCelsius)
        {
            file.Problem(mark, "", "climate.temperature-unit", Words.Quote(unit));
            return null;
        }

        if (fahrenheit is { } stated && (stated ? saysCelsius : saysFahrenheit))
        {
            file.Problem(mark, "", "climate.two-units", Words.Quote(unit), stated ? "°F" : "°C");
            return null;
        }

        return new(separator, time, temperature, humidity, fahrenheit ?? saysFahrenheit,
            names[humidity].Contains("fraction", StringComparison.Ordinal));
    }

    /// <summary>Cells of a row; a cell in double quotes may hold the separator.</summary>
    public static List<string> Split(string line, char separator)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        foreach (char c in line)
        {
            if (c == '"')
                quoted = !quoted;
            else if (c == separator && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString());
        return cells;
    }
}
