using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>Heat at the panel by an infrared lamp or a booth: a straight ramp, a hold, a straight way back.</summary>
/// <param name="Start">Heat on.</param>
/// <param name="Target">Panel temperature held. A panel that is as warm already stays as it is.</param>
/// <param name="Ramp">Time from the panel's own temperature to the target. [≥ 0]</param>
/// <param name="Hold">Time at the target. [≥ 0]</param>
/// <param name="Cooling">Time from the target back to the temperature that the panel would have had without heat. [≥ 0]</param>
public sealed record HeatProfile(Instant Start, Temperature Target, Duration Ramp, Duration Hold, Duration Cooling)
{
    /// <summary>The target is reached.</summary>
    public Instant HoldStart => Start + Ramp;

    /// <summary>Heat off.</summary>
    public Instant HoldEnd => HoldStart + Hold;

    /// <summary>Back at the panel's own temperature.</summary>
    public Instant End => HoldEnd + Cooling;
}
