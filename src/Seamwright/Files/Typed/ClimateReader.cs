using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files.Values;
using Seamwright.Units;

namespace Seamwright.Files.Typed;

/// <summary>Reads the shop's air.</summary>
/// <param name="files">Where tables are read.</param>
/// <param name="zone">The shop's zone.</param>
/// <param name="now">Moment of the reading where none is stated; null = not known, as when a climate file is checked alone.</param>
internal sealed class ClimateReader(FileSet files, DateTimeZone zone, Instant? now)
{
    /// <summary>The climate, or null where there is a problem, which has been told.</summary>
    public Climate? Read(MapReader map)
    {
        int before = files.Problems.Count;
        var at = map.Moment("at", zone) ?? now ?? default;
        var temperature = map.Temperature("temperature");
        var humidity = map.Humidity("humidity");
        bool isLog = map.Has("log");
        bool isForecast = map.Has("forecast");
        if (isLog && (isForecast || map.Has("temperature") || map.Has("humidity") || map.Has("heating"))
            || isForecast && map.Has("humidity")
            || !isLog && !isForecast && !map.Has("temperature") && !map.Has("humidity"))
        {
            map.Self.Problem("climate.one-of");
            return null;
        }

        if (!isLog && !isForecast)
        {
            foreach (string key in new[] { "temperature", "humidity" })
            {
                if (!map.Has(key))
                    map.Self.Problem("key.missing", key, key == "humidity" ? "45 %" : "20 °C");
            }
        }

        var readings = isLog || isForecast ? Table(map.Map(isLog ? "log" : "forecast")) : [];
        var pattern = map.Map("heating") is { } heating ? Pattern(heating, temperature, isForecast) : null;
        if (isForecast && !map.Has("heating"))
            map.Problem("forecast", "climate.forecast-needs-heating");
        if (files.Problems.Count > before)
            return null;

        if (isLog)
            return new LoggedClimate(readings);
        if (isForecast)
            return new ForecastClimate(new LoggedClimate(readings), pattern!, temperature is null ? null : at, temperature);
        var air = new AirState(temperature!.Value, humidity!.Value);
        return pattern is null ? new ConstantClimate(air) : new HeatedDayClimate(pattern, at, air);
    }

    private HeatingPattern? Pattern(MapReader map, Temperature? reading, bool hasOutdoors)
    {
        var setPoint = map.Temperature("set_point") ?? reading;
        if (setPoint is null && !map.Has("set_point"))
            map.Self.Problem("key.missing", "set_point", "20 °C");
        var floor = map.Temperature("falls_towards");
        if (!hasOutdoors && !map.Has("falls_towards"))
            map.Self.Problem("key.missing", "falls_towards", "11 °C");
        var hours = map.Has("hours") ? Hours(map) : HeatingPattern.Weekdays(new(6, 0), new(18, 0));
        var (fall, rise) = (map.Duration("fall") ?? Duration.FromHours(6), map.Duration("rise") ?? Duration.Zero);
        return setPoint is { } target ? new(zone, hours, target, floor, fall, rise) : null;
    }

    private static ImmutableArray<HeatingHours> Hours(MapReader map)
    {
        var hours = ImmutableArray.CreateBuilder<HeatingHours>();
        var weekdays = Enumerable.Range(1, 5).Select(day => (IsoDayOfWeek)day).ToImmutableHashSet();
        foreach (var item in map.Maps("hours"))
        {
            var days = item.Has("days") ? item.Days("days") : weekdays;
            if (days is not null && item.Clock("from") is { } on && item.Clock("to") is { } off)
                hours.AddRange(days.Order().Select(day => new HeatingHours(day, on, off)));
        }

        return hours.ToImmutable();
    }

    private ImmutableArray<ClimateReading> Table(MapReader? map)
    {
        if (map is null)
            return [];
        var rowZone = map.Has("zone") ? ShopReader.Zone(map, "zone") ?? zone : zone;
        bool? fahrenheit = null;
        if (map.Text("temperature_unit") is { } unit)
        {
            fahrenheit = Dimensions.Temperature.Find(unit) is { } known && known.Spellings[0] is "°C" or "°F"
                ? Dimensions.Temperature.Find(unit)!.Spellings[0] == "°F"
                : null;
            if (fahrenheit is null)
                map.Problem("temperature_unit", "value.unknown-word", Words.Quote(unit), "°C or °F");
        }

        if (map.Find("file") is not { } field || FileSet.Beside(field) is not { } shown)
            return [];
        var (file, text) = files.Table(shown);
        return text is null ? [] : ClimateCsvReader.Rows(text, file, rowZone, fahrenheit);
    }
}
