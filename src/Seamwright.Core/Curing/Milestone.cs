using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>What a material has become able to do, or what can no longer be done with it.</summary>
public enum MilestoneKind
{
    /// <summary>A skin has formed.</summary>
    Skin,

    /// <summary>End of tooling or work time: the bead can no longer be shaped, the mixer gels when stopped.</summary>
    WorkEnd,

    /// <summary>Tack-free (ASTM C679).</summary>
    TackFree,

    /// <summary>Touch-dry: dew no longer harms the film.</summary>
    TouchDry,

    /// <summary>The next sealing or priming layer may go on.</summary>
    NextLayer,

    /// <summary>Paint may go on.</summary>
    Paint,

    /// <summary>Handling strength: clamps may come off.</summary>
    Handling,

    /// <summary>Fully cured.</summary>
    Full,
}

/// <summary>A milestone: an amount of cure work on its own law.</summary>
/// <param name="Kind">What is reached.</param>
/// <param name="Law">Law on which the work is counted.</param>
/// <param name="Needed">Work needed, in time at the law's reference climate.</param>
/// <param name="Evidence">Where law and amount come from.</param>
public sealed record Milestone(MilestoneKind Kind, CureLaw Law, ReferenceTime Needed, MilestoneEvidence Evidence);

/// <summary>One line of a data sheet: this milestone took this long at this climate.</summary>
/// <param name="Climate">Temperature (of air and panel) and humidity of the line.</param>
/// <param name="Time">Time stated.</param>
public readonly record struct SheetPoint(AirState Climate, Duration Time);

/// <summary>Where a milestone's law and amount come from.</summary>
/// <param name="Points">The sheet's points, in the sheet's order; at least one.</param>
/// <param name="EnergyIsDefault">True where the sheet does not determine the temperature law and the stated class default was used.</param>
/// <param name="Coldest">Coldest point of the sheet: colder answers extrapolate.</param>
/// <param name="Warmest">Warmest point of the sheet: warmer answers extrapolate.</param>
/// <param name="WorstResidual">Largest relative misfit of a point to the fitted law. [1; 0 where the law meets every point]</param>
/// <param name="Source">Sheet, standard or <c>common practice</c>.</param>
public sealed record MilestoneEvidence(
    ImmutableArray<SheetPoint> Points,
    bool EnergyIsDefault,
    Temperature Coldest,
    Temperature Warmest,
    double WorstResidual,
    string Source);

/// <summary>Cure through the depth of a moisture-cure bead: z = √(k·progress), so depth d needs d²/k (docs/formulas.md).</summary>
/// <param name="DepthInFirstDay">Depth that the sheet states for the first 24 h at the law's reference climate; k = depth²/24 h.</param>
/// <param name="Law">The law on which progress is counted.</param>
public sealed record DepthCure(Length DepthInFirstDay, CureLaw Law)
{
    /// <summary>Work needed to cure through <paramref name="depth"/> from one open face: 24 h·(d/d24)².</summary>
    public ReferenceTime Needed(Length depth) => ReferenceTime.FromHours(24 * Math.Pow(depth / DepthInFirstDay, 2));

    /// <summary>Depth cured after some work: d24·√(progress/24 h).</summary>
    public Length Depth(ReferenceTime progress) => DepthInFirstDay * Math.Sqrt(Math.Max(0, progress.Hours) / 24);
}

/// <summary>How long the next layer may wait before the surface must be abraded again.</summary>
/// <param name="Clock">Longest clock time the sheet allows.</param>
/// <param name="Law">Law on which the same number of reference hours also ends the window (sooner in the heat); null = the clock alone.</param>
public sealed record MaximumWindow(Duration Clock, CureLaw? Law);
