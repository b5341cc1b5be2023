using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Seamwright.Air;
using Seamwright.Files.Trees;
using Seamwright.Files.Values;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Rows of a climate table as they are read.</summary>
internal sealed class ClimateRows(ClimateColumns columns, SourceFile file, DateTimeZone zone)
{
    private static readonly ImmutableArray<LocalDateTimePattern> LocalPatterns =
        [.. new[] { "uuuu-MM-dd HH:mm:ss.FFFFFFFFF", "uuuu-MM-dd'T'HH:mm:ss.FFFFFFFFF", "uuuu-MM-dd HH:mm", "uuuu-MM-dd'T'HH:mm" }
            .Select(LocalDateTimePattern.CreateWithInvariantCulture)];

    private static readonly ImmutableArray<OffsetDateTimePattern> OffsetPatterns =
        [.. new[] { "uuuu-MM-dd'T'HH:mm:ss.FFFFFFFFFo<Z+HH:mm>", "uuuu-MM-dd'T'HH:mmo<Z+HH:mm>", "uuuu-MM-dd HH:mm:ss.FFFFFFFFFo<Z+HH:mm>", "uuuu-MM-dd HH:mmo<Z+HH:mm>" }
            .Select(OffsetDateTimePattern.CreateWithInvariantCulture)];

    private readonly ImmutableArray<ClimateReading>.Builder _rows = ImmutableArray.CreateBuilder<ClimateReading>();
    private int _bad;
    private int _empty;
    private int _firstEmpty;
    private int _doubled;
    private int _firstDoubled;
    private Instant? _last;

    /// <summary>Takes a row, or tells what is wrong with it.</summary>
    public void Add(string line, int number)
    {
        var cells = ClimateColumns.Split(line, columns.Separator);
        int needed = Math.Max(columns.Time, Math.Max(columns.Temperature, columns.Humidity)) + 1;
        if (cells.Count < needed)
        {
            Bad(number, "climate.row-too-short", Words.Number(cells.Count), Words.Number(needed));
            return;
        }

        if (IsEmpty(cells[columns.Temperature]) || IsEmpty(cells[columns.Humidity]))
        {
            // A sensor that dropped out is no mistake of the file.
            _firstEmpty = _empty++ == 0 ? number : _firstEmpty;
            return;
        }

        if (Time(cells[columns.Time].Trim(), number) is { } time && Air(cells, number) is { } air)
        {
            _rows.Add(new(time, air));
            _last = time;
        }
    }

    /// <summary>All rows; tells what was counted.</summary>
    public ImmutableArray<ClimateReading> Finish()
    {
        if (_bad > ClimateCsvReader.RowsShown)
            file.WholeProblem("climate.more-bad-rows", Words.Number(_bad - ClimateCsvReader.RowsShown));
        if (_bad == 0 && _rows.Count == 0)
            file.WholeProblem("climate.no-rows");
        if (_empty > 0)
            Note(_firstEmpty, "climate.rows-without-value", Words.Number(_empty), Words.Number(_firstEmpty));
        if (_doubled > 0)
            Note(_firstDoubled, "climate.rows-in-doubled-hour", Words.Number(_doubled), Words.Number(_firstDoubled), zone.Id);
        return _rows.ToImmutable();
    }

    private AirState? Air(List<string> cells, int number)
    {
        if (Number(cells[columns.Temperature], number, "temperature") is not { } temperature
            || Number(cells[columns.Humidity], number, "humidity") is not { } humidity)
        {
            return null;
        }

        var air = new AirState(
            columns.Fahrenheit ? Temperature.FromFahrenheit(temperature) : Temperature.FromCelsius(temperature),
            columns.HumidityIsFraction ? RelativeHumidity.FromFraction(humidity) : RelativeHumidity.FromPercent(humidity));
        if (!Measures.AirTemperature.Contains(air.Temperature.Kelvin))
            Bad(number, "climate.value-out-of-range", Words.Quote(cells[columns.Temperature]), "temperature", Measures.AirTemperature.Range);
        else if (!Measures.Humidity.Contains(air.Humidity.Fraction))
            Bad(number, "climate.value-out-of-range", Words.Quote(cells[columns.Humidity]), "humidity", Measures.Humidity.Range);
        else
            return air;
        return null;
    }

    private double? Number(string cell, int number, string column)
    {
        string text = cell.Trim();
        if (columns.Separator == ';')
            text = text.Replace(',', '.');
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value))
            return value;
        Bad(number, "climate.not-a-number", Words.Quote(cell), column);
        return null;
    }

    private Instant? Time(string cell, int number)
    {
        foreach (var pattern in OffsetPatterns)
        {
            if (pattern.Parse(cell) is { Success: true } exact)
                return exact.Value.ToInstant();
        }

        foreach (var pattern in LocalPatterns)
        {
            if (pattern.Parse(cell) is { Success: true } local)
                return InZone(local.Value, cell, number);
        }

        Bad(number, "climate.not-a-time", Words.Quote(cell));
        return null;
    }

    private Instant? InZone(LocalDateTime local, string cell, int number)
    {
        var mapping = zone.MapLocal(local);
        if (mapping.Count == 1)
            return mapping.Single().ToInstant();
        if (mapping.Count == 0)
        {
            Bad(number, "climate.skipped-hour", Words.Quote(cell), zone.Id);
            return null;
        }

        // The order of rows tells which of the two hours it is: the first one unless that would run backwards.
        _firstDoubled = _doubled++ == 0 ? number : _firstDoubled;
        var first = mapping.First().ToInstant();
        return _last is { } last && first <= last ? mapping.Last().ToInstant() : first;
    }

    private void Bad(int number, string key, params string[] args)
    {
        if (++_bad <= ClimateCsvReader.RowsShown)
            file.Problem(new(number, 0), "", key, args);
        else
            file.Problems.CountOnly();
    }

    private void Note(int number, string key, params string[] args) =>
        file.Problems.Note(new(file.Shown, number, 0, "", key, [.. args]));

    private static bool IsEmpty(string cell) => cell.Trim().ToLowerInvariant() is "" or "nan" or "na" or "n/a" or "null" or "-" or "--" or "---";
}
