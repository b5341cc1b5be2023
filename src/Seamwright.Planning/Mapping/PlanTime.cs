using NodaTime;

namespace Seamwright.Planning.Mapping;

/// <summary>Whole minutes of the scheduling core from the plan's origin, converted here and nowhere else.</summary>
internal sealed class PlanTime
{
    /// <summary>Starts lie on a grid of this many minutes.</summary>
    public const int Grid = 5;

    public PlanTime(Instant now, Instant end)
    {
        // Instants on the clock's own five minutes, so that a start reads 16:15 and not 16:13.
        Origin = Instant.FromUnixTimeSeconds(now.ToUnixTimeSeconds() / (60 * Grid) * (60 * Grid));
        Now = Ceiling(now);
        Horizon = Ceiling(end);
    }

    /// <summary>Minute 0.</summary>
    public Instant Origin { get; }

    /// <summary>First minute that is not past.</summary>
    public int Now { get; }

    /// <summary>Last minute of the plan.</summary>
    public int Horizon { get; }

    /// <summary>The minute that has begun at an instant. [may lie before 0 or after the horizon]</summary>
    public int Floor(Instant at) => Clamp(Math.Floor((at - Origin).TotalMinutes + 1e-6));

    /// <summary>The first whole minute not before an instant. [may lie before 0 or after the horizon]</summary>
    public int Ceiling(Instant at) => Clamp(Math.Ceiling((at - Origin).TotalMinutes - 1e-6));

    /// <summary>The first start on the grid not before an instant.</summary>
    public int GridCeiling(Instant at) => (int)Math.Ceiling(Ceiling(at) / (double)Grid) * Grid;

    /// <summary>Minute back to instant.</summary>
    public Instant At(int minute) => Origin + Duration.FromMinutes(minute);

    private static int Clamp(double minute) => (int)Math.Clamp(minute, -10_000_000, 10_000_000);
}
