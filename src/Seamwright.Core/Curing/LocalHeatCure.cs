using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>
/// What a lamp or a bake does to a milestone. Only the heated piece is integrated; before and after it the clock of the unheated panel is
/// read. By the laws heat helps two-part cure and drying much, and moisture cure only through Ep (not at all where Ep is 0).
/// </summary>
public static class LocalHeatCure
{
    /// <summary>Holds are planned in steps of this. [5 min]</summary>
    public static Duration HoldStep { get; } = Duration.FromMinutes(5);

    /// <summary>No hold longer than this is looked for. [12 h]</summary>
    public static Duration LongestHold { get; } = Duration.FromHours(12);

    /// <summary>When work is done that begins at <paramref name="start"/> on a panel that is heated in between.</summary>
    /// <param name="needed">Work needed on the clock's law.</param>
    /// <param name="start">When the material was applied: before, during or after the heat.</param>
    /// <param name="heat">The heat.</param>
    /// <param name="panel">The panel without this heat.</param>
    /// <param name="clock">Clock of the law on the panel without this heat; its span holds <paramref name="start"/>.</param>
    /// <returns>The finish; null if it lies beyond the clock's span.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="start"/> is before the clock's span.</exception>
    public static Instant? Finish(ReferenceTime needed, Instant start, HeatProfile heat, PanelClimate panel, CureClock clock)
    {
        ArgumentNullException.ThrowIfNull(heat);
        ArgumentNullException.ThrowIfNull(clock);
        if (start >= heat.End)
            return clock.Finish(start, needed);

        var heatedFrom = start;
        if (start < heat.Start)
        {
            var cold = clock.Finish(start, needed);
            if (cold is { } early && early <= heat.Start)
                return early;
            if (heat.Start > clock.To)
                return null;
            needed -= clock.Progress(start, heat.Start);
            heatedFrom = heat.Start;
        }

        var heated = CureClock.For(clock.Law, PanelClimate.Heated(panel, heat), heatedFrom, heat.End);
        if (heated.Finish(heatedFrom, needed) is { } warm)
            return warm;
        return heat.End > clock.To ? null : clock.Finish(heat.End, needed - heated.Total);
    }

    /// <summary>The least hold after which a milestone is reached by the time the heat goes off.</summary>
    /// <param name="law">Law of the milestone.</param>
    /// <param name="needed">Work needed.</param>
    /// <param name="start">When the material was applied; work from here to <paramref name="heat"/>'s start counts.</param>
    /// <param name="heat">Start, target and ramp of the heat; its own hold and cooling are not looked at.</param>
    /// <param name="panel">The panel without this heat.</param>
    /// <param name="least">The sheet's least hold at this temperature; zero where it states none.</param>
    /// <returns>
    /// The hold, a whole multiple of <see cref="HoldStep"/> or <paramref name="least"/> itself, whichever is longer;
    /// null if <see cref="LongestHold"/> does not reach the milestone.
    /// </returns>
    public static Duration? HoldNeeded(
        CureLaw law, ReferenceTime needed, Instant start, HeatProfile heat, PanelClimate panel, Duration least)
    {
        ArgumentNullException.ThrowIfNull(heat);
        var longest = heat with { Hold = Duration.Max(LongestHold, least), Cooling = Duration.Zero };
        var heated = PanelClimate.Heated(panel, longest);
        if (start >= longest.End)
            return null;

        var clock = CureClock.For(law, heated, start, longest.End);
        if (clock.Finish(start, needed) is not { } finish)
            return null;

        // A finish a nanosecond past the step is a rounding of minutes, not five minutes more.
        double steps = Math.Ceiling((finish - heat.HoldStart).TotalMinutes / HoldStep.TotalMinutes - 1e-6);
        return Duration.Max(least, Math.Max(0, (int)steps) * HoldStep);
    }
}
