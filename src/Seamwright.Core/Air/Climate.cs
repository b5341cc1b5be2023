using NodaTime;

namespace Seamwright.Air;

/// <summary>Air as a function of time: constant, a heating pattern, a forecast or a log. Immutable.</summary>
public abstract class Climate
{
    /// <summary>Air at a moment.</summary>
    public abstract AirState At(Instant time);

    /// <summary>
    /// Moments in (<paramref name="from"/>, <paramref name="to"/>) at which temperature or vapour pressure changes its slope
    /// abruptly (heating switched, a log reading). Ascending; may be empty.
    /// </summary>
    public virtual IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => [];

    /// <summary>What was assumed or repaired to get this climate: bridged gaps, dropped rows, values held beyond the log. May be empty.</summary>
    public virtual IReadOnlyList<ClimateNotice> Notices => [];
}
