using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Air;
using Seamwright.Storage.Rows;

namespace Seamwright.Storage.Actions;

/// <summary>Takes in readings of the shop's air.</summary>
public static class AddingReadings
{
    /// <summary>Source of readings that came with a climate log.</summary>
    public const string Log = "log";

    /// <summary>Source of an outdoor forecast.</summary>
    public const string Forecast = "forecast";

    /// <summary>Adds readings; of a moment that a source has told already the first telling stays.</summary>
    /// <returns>How many were new.</returns>
    /// <param name="store">The store.</param>
    /// <param name="source">Who measured.</param>
    /// <param name="readings">The readings, in any order.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<int> AddReadings(this ShopStore store, string source, IEnumerable<ClimateReading> readings, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ImmutableArray<ReadingRow> rows = [.. readings.Select(reading => RowOf(source, reading)).DistinctBy(row => row.At)];
        return store.InOne(async db =>
        {
            if (rows.IsEmpty)
                return 0;
            var (first, last) = (rows.Min(row => row.At), rows.Max(row => row.At));
            var there = await db.Readings.Where(row => row.Source == source && row.At >= first && row.At <= last).Select(row => row.At).ToListAsync(stop);
            var known = there.ToHashSet();
            int added = 0;
            await using var bulk = await store.Database.Bulk(db, db.Readings.EntityType, stop);
            var table = new Databases.TableShape(db.Readings.EntityType);
            foreach (var row in rows.Where(row => !known.Contains(row.At)))
            {
                await bulk.Write(table.ValuesOf(row));
                added++;
            }

            await bulk.Finish();
            return added;
        }, stop);
    }

    /// <summary>Puts a new forecast in place of the old one.</summary>
    /// <param name="store">The store.</param>
    /// <param name="readings">Outdoor air as foretold.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<int> ReplaceForecast(this ShopStore store, IEnumerable<ClimateReading> readings, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.InOne(async db =>
        {
            await db.Readings.Where(row => row.Source == Forecast).ExecuteDeleteAsync(stop);
            db.Readings.AddRange(readings.Select(reading => RowOf(Forecast, reading)).DistinctBy(row => row.At));
            return await db.SaveChangesAsync(stop);
        }, stop);
    }

    // Four decimals are far below what any hygrometer tells, and 20.1 °C stays 20.1 on its way through kelvins.
    internal static ReadingRow RowOf(string source, ClimateReading reading) => new()
    {
        Source = source,
        At = Instant.FromUnixTimeTicks(reading.Time.ToUnixTimeTicks() / 10 * 10),
        Celsius = Math.Round(reading.Air.Temperature.Celsius, 4),
        HumidityPercent = Math.Round(reading.Air.Humidity.Fraction * 100, 4),
    };
}
