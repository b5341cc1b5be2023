using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Air;
using Seamwright.Storage.Rows;
using Seamwright.Units;

namespace Seamwright.Storage.Queries;

/// <summary>Asks for readings of the shop's air.</summary>
public static class AirOfTheShop
{
    /// <summary>Readings of a source between two moments, ascending.</summary>
    /// <param name="store">The store.</param>
    /// <param name="source">Who measured.</param>
    /// <param name="from">First moment.</param>
    /// <param name="to">Last moment.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<ClimateReading>> ReadingsBetween(
        this ShopStore store, string source, Instant from, Instant to, CancellationToken stop = default) =>
        store.FirstReadingsBetween(source, from, to, int.MaxValue, stop);

    /// <summary>The oldest readings of a source between two moments, ascending.</summary>
    /// <param name="store">The store.</param>
    /// <param name="source">Who measured.</param>
    /// <param name="from">First moment.</param>
    /// <param name="to">Last moment.</param>
    /// <param name="most">At most so many.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<ClimateReading>> FirstReadingsBetween(
        this ShopStore store, string source, Instant from, Instant to, int most, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Readings.Where(row => row.Source == source && row.At >= from && row.At <= to)
            .OrderBy(row => row.At).Take(most).ToListAsync(stop)).Select(Reading).ToImmutableArray());
    }

    /// <summary>The last reading of a source at or before a moment; null where there is none.</summary>
    /// <param name="store">The store.</param>
    /// <param name="source">Who measured.</param>
    /// <param name="at">The moment.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ClimateReading?> LastReading(this ShopStore store, string source, Instant at, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => await db.Readings.Where(row => row.Source == source && row.At <= at)
            .OrderByDescending(row => row.At).FirstOrDefaultAsync(stop) is { } row ? Reading(row) : (ClimateReading?)null);
    }

    /// <summary>Sources with the moment of their last reading, by name.</summary>
    /// <param name="store">The store.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableSortedDictionary<string, Instant>> AirSources(this ShopStore store, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.Readings.GroupBy(row => row.Source).Select(group => new { group.Key, Last = group.Max(row => row.At) }).ToListAsync(stop))
            .ToImmutableSortedDictionary(source => source.Key, source => source.Last, StringComparer.Ordinal));
    }

    private static ClimateReading Reading(ReadingRow row) =>
        new(row.At, new AirState(Temperature.FromCelsius(row.Celsius), RelativeHumidity.FromPercent(row.HumidityPercent)));
}
