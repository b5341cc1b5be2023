using NodaTime;
using Seamwright.Files;
using Seamwright.Storage;
using Seamwright.Storage.Actions;

namespace Seamwright.Program.Web.Readings;

/// <summary>Takes in a table of readings that somebody brought: all of it, or nothing and every line that is wrong.</summary>
/// <param name="Source">Whether it is a log or a forecast, as the store calls it.</param>
/// <param name="Now">The moment that the shop lives at.</param>
/// <param name="ShopZone">Zone where none is typed.</param>
/// <param name="Words">Texts.</param>
internal sealed record AirUpload(string Source, Instant Now, DateTimeZone ShopZone, Words Words)
{
    /// <summary>Largest table. [bytes; a year of readings every minute]</summary>
    public const int Largest = 7_000_000;

    /// <summary>A logger's clock may be ahead by so much.</summary>
    private static readonly Duration ClockSlip = Duration.FromHours(1);

    private readonly List<KeyValuePair<string, string>> _wrong = [];

    public IReadOnlyList<KeyValuePair<string, string>> Wrong => _wrong;

    /// <summary>Reads what was sent; null where it cannot be taken, with the reasons in <see cref="Wrong"/>.</summary>
    /// <param name="file">The file.</param>
    /// <param name="zone">Zone of times without an offset, as typed; empty = the shop's.</param>
    /// <param name="unit">Unit of the temperature column; empty = as the column says.</param>
    /// <param name="stop">Ends the reading.</param>
    public async Task<ClimateTable?> Read(IFormFile? file, string? zone, string? unit, CancellationToken stop)
    {
        var known = string.IsNullOrWhiteSpace(zone) ? ShopZone : DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone.Trim());
        if (known is null)
            Add("zone", Words.Say("web.air.zone-unknown", zone!.Trim()));
        if (file is null || file.Length == 0)
            Add("file", Words["web.air.file-missing"]);
        else if (file.Length > Largest)
            Add("file", Words.Say("web.air.file-too-large", Largest / 1_000_000));
        if (_wrong.Count > 0)
            return null;

        using var content = new MemoryStream((int)file!.Length);
        await file.CopyToAsync(content, stop);
        var table = ClimateCsvReader.Read(content.ToArray(), known!, unit switch { "f" => true, "c" => false, _ => null });
        foreach (var problem in table.Problems)
        {
            string sentence = Words.Say(problem.Key, [.. problem.Args]);
            Add("file", problem.Line > 0 ? Words.Say("web.air.line", problem.Line, sentence) : sentence);
        }

        if (_wrong.Count == 0 && Misplaced(table) is { } reason)
            Add("file", reason);
        return _wrong.Count == 0 ? table : null;
    }

    /// <summary>Stores it as a whole.</summary>
    /// <returns>How many readings were not known yet.</returns>
    public Task<int> Keep(ShopStore store, ClimateTable table, CancellationToken stop) =>
        Source == AddingReadings.Forecast ? store.ReplaceForecast(table.Rows, stop) : store.AddReadings(Source, table.Rows, stop);

    // A wrong zone or a logger that was never set shows itself by its times.
    private string? Misplaced(ClimateTable table)
    {
        var last = table.Rows.Max(row => row.Time);
        return Source == AddingReadings.Forecast
            ? last < Now ? Words.Say("web.air.forecast-past", last) : null
            : last > Now + ClockSlip ? Words.Say("web.air.log-ahead", last) : null;
    }

    private void Add(string input, string sentence) => _wrong.Add(new($"{Source}-{input}", sentence));
}
