using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Suitability;

/// <summary>A material thought of in some air on some panel.</summary>
/// <param name="Sheet">Material.</param>
/// <param name="Panel">The panel's own temperature, which is what the sheet's limits mean.</param>
/// <param name="Air">Air around it.</param>
/// <param name="DewPoint">Dew point of that air.</param>
/// <param name="Water">Water in that air.</param>
public sealed record ClimateCase(DataSheet Sheet, Temperature Panel, AirState Air, Temperature DewPoint, HumidityRatio Water)
{
    /// <summary>How far the panel is above the dew point; negative where it is below.</summary>
    public TemperatureDifference AboveDewPoint => Panel - DewPoint;
}

/// <summary>May it be applied in this air, on this panel?</summary>
public static class ClimateRules
{
    /// <summary>Humidity above which coating work is customarily left alone where the sheet is silent.</summary>
    public static RelativeHumidity CustomaryHumidity { get; } = RelativeHumidity.FromPercent(85);

    /// <summary>Every rule on the climate of an application.</summary>
    public static ImmutableArray<Rule<ClimateCase>> All { get; } =
    [
        new("climate.panel-cold", "data sheet", PanelCold),
        new("climate.panel-warm", "data sheet", PanelWarm),
        new("climate.humidity-low", "data sheet", HumidityLow),
        new("climate.humidity-high", Sources.Humidity, HumidityHigh),
        new("climate.water", Sources.MoistureCure, Water),
        new("climate.dew-point", Sources.DewPoint, DewPointMargin),
    ];

    /// <summary>The full list of verdicts, one a rule in the order of <see cref="All"/>.</summary>
    public static ImmutableArray<Verdict> Judge(ClimateCase subject) => [.. All.Select(rule => rule.Judge(subject))];

    /// <summary>The full list of verdicts; dew point and water content are taken from the air.</summary>
    /// <param name="sheet">Material.</param>
    /// <param name="panel">The panel's own temperature.</param>
    /// <param name="air">Air around it.</param>
    /// <exception cref="OutsideValidityException">The air is outside the range of the moist-air formulas.</exception>
    public static ImmutableArray<Verdict> Judge(DataSheet sheet, Temperature panel, AirState air) =>
        Judge(new ClimateCase(sheet, panel, air, MoistAir.DewPoint(air), MoistAir.HumidityRatio(air)));

    private static Finding PanelCold(ClimateCase subject)
    {
        if (subject.Sheet.Limits.PanelFrom is not { } limit)
            return Finding.NotConcerned;

        return (subject.Panel >= limit
            ? Finding.Fine("panel-warm-enough", subject.Sheet.Id, subject.Panel, limit)
            : Finding.Refused("panel-too-cold", subject.Sheet.Id, subject.Panel, limit, subject.Air.Temperature)).From(subject.Sheet.Source);
    }

    private static Finding PanelWarm(ClimateCase subject)
    {
        if (subject.Sheet.Limits.PanelTo is not { } limit)
            return Finding.NotConcerned;

        return (subject.Panel <= limit
            ? Finding.Fine("panel-cool-enough", subject.Sheet.Id, subject.Panel, limit)
            : Finding.Refused("panel-too-warm", subject.Sheet.Id, subject.Panel, limit)).From(subject.Sheet.Source);
    }

    private static Finding HumidityLow(ClimateCase subject)
    {
        if (subject.Sheet.Limits.HumidityFrom is not { } limit)
            return Finding.NotConcerned;

        return (subject.Air.Humidity >= limit
            ? Finding.Fine("air-humid-enough", subject.Sheet.Id, subject.Air.Humidity, limit)
            : Finding.Refused("air-too-dry", subject.Sheet.Id, subject.Air.Humidity, limit)).From(subject.Sheet.Source);
    }

    private static Finding HumidityHigh(ClimateCase subject)
    {
        if (subject.Sheet.Limits.HumidityTo is { } limit)
        {
            return (subject.Air.Humidity <= limit
                ? Finding.Fine("air-dry-enough", subject.Sheet.Id, subject.Air.Humidity, limit)
                : Finding.Refused("air-too-humid", subject.Sheet.Id, subject.Air.Humidity, limit)).From(subject.Sheet.Source);
        }
        return subject.Air.Humidity <= CustomaryHumidity
            ? Finding.Fine("air-dry-enough", subject.Sheet.Id, subject.Air.Humidity, CustomaryHumidity)
            : Finding.Advice("air-humid-customary", subject.Sheet.Id, subject.Air.Humidity, CustomaryHumidity);
    }

    private static Finding Water(ClimateCase subject)
    {
        if (!subject.Sheet.IsMoistureCure || subject.Sheet.Limits.LeastWater is not { } least)
            return Finding.NotConcerned;

        return (subject.Water >= least
            ? Finding.Fine("air-holds-enough-water", subject.Sheet.Id, subject.Water, least)
            : Finding.Refused("air-holds-too-little-water", subject.Sheet.Id, subject.Water, least)).From(subject.Sheet.Source);
    }

    private static Finding DewPointMargin(ClimateCase subject)
    {
        var needed = subject.Sheet.Limits.DewPointMargin;
        return subject.AboveDewPoint >= needed
            ? Finding.Fine("clear-of-dew-point", subject.Panel, subject.AboveDewPoint, subject.DewPoint, needed)
            : Finding.Refused("near-dew-point", subject.Panel, subject.AboveDewPoint, subject.DewPoint, needed);
    }
}
