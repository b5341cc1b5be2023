using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using Seamwright.Air;
using Seamwright.Files.Format;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;

namespace Seamwright.Stored;

/// <summary>The shop's climate as a document with its tables beside it.</summary>
internal static class ClimateDocuments
{
    public const string Name = "climate.json";

    public const string LogTable = "shop-log.csv";

    public const string ForecastTable = "forecast.csv";

    /// <summary>The documents; none where the store has no climate.</summary>
    /// <param name="store">The store.</param>
    /// <param name="now">The moment from which is planned; null = all readings, none laid over the document's.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static async Task<ImmutableArray<(string Name, string Text)>> Load(ShopStore store, Instant? now, CancellationToken stop)
    {
        if (await store.ShopDocumentOf(ShopDocument.Climate, stop) is not { } stored || NodeJson.ObjectOf(StoredShop.WithLine(stored.Json, ClimateFormat.Line)) is not { } climate)
            return [];
        var documents = ImmutableArray.CreateBuilder<(string, string)>();
        if (climate["log"] is JsonObject)
        {
            climate["log"] = new JsonObject { ["file"] = LogTable };
            var from = now is { } moment ? moment - StoredShop.LogTaken : Instant.FromUnixTimeSeconds(0);
            var log = await store.ReadingsBetween(AddingReadings.Log, from, now ?? Instant.FromUtc(9998, 1, 1, 0, 0), stop);
            documents.Add((LogTable, Table(now is { } end ? log.AddRange(await AfterLog(store, log.IsEmpty ? from : log[^1].Time, end, stop)) : log)));
        }

        if (climate["forecast"] is JsonObject)
        {
            climate["forecast"] = new JsonObject { ["file"] = ForecastTable };
            documents.Add((ForecastTable, Table(await store.ReadingsBetween(AddingReadings.Forecast, Instant.FromUnixTimeSeconds(0), Instant.FromUtc(9998, 1, 1, 0, 0), stop))));
        }

        if (now is { } present && !climate.ContainsKey("log"))
            await LayFreshReading(store, climate, present, stop);
        documents.Add((Name, NodeJson.Text(climate)));
        return documents.ToImmutable();
    }

    /// <summary>Readings as a table that our reader takes.</summary>
    public static string Table(IEnumerable<ClimateReading> readings)
    {
        var table = new StringBuilder("time,temperature_c,humidity_percent\n");
        foreach (var reading in readings)
        {
            table.Append(InstantPattern.ExtendedIso.Format(reading.Time)).Append(',')
                .Append(Math.Round(reading.Air.Temperature.Celsius, 4).ToString(CultureInfo.InvariantCulture)).Append(',')
                .Append(Math.Round(reading.Air.Humidity.Fraction * 100, 4).ToString(CultureInfo.InvariantCulture)).Append('\n');
        }

        return table.ToString();
    }

    // A log is brought now and then; what was read off or sent since its end is the newest that is known.
    private static async Task<ImmutableArray<ClimateReading>> AfterLog(ShopStore store, Instant logEnd, Instant now, CancellationToken stop)
    {
        var since = new SortedDictionary<Instant, ClimateReading>();
        foreach (string source in (await store.AirSources(stop)).Keys.Where(source => source is not (AddingReadings.Log or AddingReadings.Forecast)))
        {
            foreach (var reading in await store.ReadingsBetween(source, logEnd, now, stop))
            {
                if (reading.Time > logEnd)
                    since[reading.Time] = reading;
            }
        }
        return [.. since.Values];
    }

    // What the hygrometer said an hour ago is truer than what the document says since spring.
    private static async Task LayFreshReading(ShopStore store, JsonObject climate, Instant now, CancellationToken stop)
    {
        ClimateReading? fresh = null;
        foreach (var (source, _) in (await store.AirSources(stop)).Where(source => source.Key != AddingReadings.Forecast))
        {
            if (await store.LastReading(source, now, stop) is { } reading && reading.Time >= now - StoredShop.Fresh && (fresh is null || reading.Time > fresh.Value.Time))
                fresh = reading;
        }

        if (fresh is not { } air)
            return;
        climate["at"] = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<Z+HH:mm>").Format(air.Time.WithOffset(Offset.Zero));
        climate["temperature"] = string.Create(CultureInfo.InvariantCulture, $"{Math.Round(air.Air.Temperature.Celsius, 2)} °C");
        if (!climate.ContainsKey("forecast"))
            climate["humidity"] = string.Create(CultureInfo.InvariantCulture, $"{Math.Round(air.Air.Humidity.Fraction * 100, 2)} %");
    }
}
