using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>Whether an answer leaves the temperatures at which the sheet gives its times.</summary>
/// <param name="Colder">The panel is colder than the sheet's coldest point for a while.</param>
/// <param name="Warmer">The panel is warmer than the sheet's warmest point for a while.</param>
/// <param name="Coldest">Coldest panel temperature met.</param>
/// <param name="Warmest">Warmest panel temperature met.</param>
public sealed record Extrapolation(bool Colder, bool Warmer, Temperature Coldest, Temperature Warmest)
{
    /// <summary>Sheets round to whole degrees, so half a degree beyond a point is still at the point. [0.5 K, common practice]</summary>
    public static TemperatureDifference Allowance { get; } = TemperatureDifference.FromKelvins(0.5);

    /// <summary>Whether the answer extrapolates at all.</summary>
    public bool Any => Colder || Warmer;

    /// <summary>Compares the temperatures met between start and finish with the sheet's points.</summary>
    /// <param name="evidence">The milestone's evidence.</param>
    /// <param name="panel">What the joint feels.</param>
    /// <param name="start">When the cure begins.</param>
    /// <param name="finish">When it ends; at or before <paramref name="start"/> = only the start is looked at.</param>
    public static Extrapolation Between(MilestoneEvidence evidence, PanelClimate panel, Instant start, Instant finish)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        ArgumentNullException.ThrowIfNull(panel);
        var (coldest, warmest) = finish > start
            ? panel.Extremes(start, finish)
            : (panel.TemperatureAt(start), panel.TemperatureAt(start));
        return new(coldest < evidence.Coldest - Allowance, warmest > evidence.Warmest + Allowance, coldest, warmest);
    }
}
