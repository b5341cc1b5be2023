using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>When the time for the next layer runs out.</summary>
public static class Windows
{
    /// <summary>
    /// End of a maximum window: the earlier of its clock hours and the same number of reference hours on its law, so never later than the
    /// sheet says in the cold, and sooner in the heat.
    /// </summary>
    /// <param name="window">The window.</param>
    /// <param name="from">When the layer was applied.</param>
    /// <param name="panel">What the joint feels.</param>
    /// <exception cref="ArgumentOutOfRangeException">The window has no length.</exception>
    public static Instant MaximumWindowEnd(MaximumWindow window, Instant from, PanelClimate panel)
    {
        RequireLength(window);
        var byClock = from + window.Clock;
        if (window.Law is null or CureLaw.Clock)
            return byClock;

        return CureClock.For(window.Law, panel, from, byClock).Finish(from, Work(window)) ?? byClock;
    }

    /// <summary>The same on a clock that exists already.</summary>
    /// <param name="window">The window.</param>
    /// <param name="from">When the layer was applied; within the clock's span.</param>
    /// <param name="clock">Clock of the window's law; not looked at where the window has none. Beyond its span the clock hours alone count.</param>
    /// <exception cref="ArgumentException">The clock counts another law, or the window has a law and there is no clock.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The window has no length, or <paramref name="from"/> is before the clock's span.</exception>
    public static Instant MaximumWindowEnd(MaximumWindow window, Instant from, CureClock? clock)
    {
        RequireLength(window);
        var byClock = from + window.Clock;
        if (window.Law is null or CureLaw.Clock)
            return byClock;
        if (clock is null || clock.Law != window.Law)
            throw new ArgumentException("The clock must count the window's law.", nameof(clock));

        return clock.Finish(from, Work(window)) is { } byWork ? Instant.Min(byClock, byWork) : byClock;
    }

    private static ReferenceTime Work(MaximumWindow window) => ReferenceTime.FromHours(window.Clock.TotalHours);

    private static void RequireLength(MaximumWindow window)
    {
        ArgumentNullException.ThrowIfNull(window);
        if (window.Clock <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(window), window.Clock, "A window must have a length.");
    }
}
