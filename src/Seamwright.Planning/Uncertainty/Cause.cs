using Seamwright.Materials;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>What makes a plan's times uncertain.</summary>
public enum CauseKind
{
    /// <summary>Labour of one kind of step.</summary>
    Labour,

    /// <summary>All labour on this car is off together.</summary>
    WholeCar,

    /// <summary>The temperature is not as expected.</summary>
    Temperature,

    /// <summary>The humidity is not as expected.</summary>
    Humidity,

    /// <summary>A material cures faster or slower than its sheet says.</summary>
    Material,

    /// <summary>Beads are deeper or shallower than drawn.</summary>
    BeadDepth,
}

/// <summary>A cause that can be frozen.</summary>
/// <param name="Kind">Kind.</param>
/// <param name="Step">Kind of step, for <see cref="CauseKind.Labour"/>.</param>
/// <param name="Material">Material, for <see cref="CauseKind.Material"/>.</param>
public sealed record Cause(CauseKind Kind, StepKind? Step = null, MaterialId? Material = null);
