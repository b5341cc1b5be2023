using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Which end of an activity or batch.</summary>
public enum Edge
{
    /// <summary>Its first minute.</summary>
    Start,

    /// <summary>The minute after its last one.</summary>
    End,
}

/// <summary>Whether a lag bounds the later point from below or from above.</summary>
public enum LagKind
{
    /// <summary>To is at or after the delayed From.</summary>
    Minimum,

    /// <summary>To is at or before the delayed From.</summary>
    Maximum,
}

/// <summary>The start or end of one activity or one batch.</summary>
public readonly record struct TimePoint
{
    private TimePoint(ActivityId? activity, BatchId? batch, Edge edge) => (Activity, Batch, Edge) = (activity, batch, edge);

    /// <summary>The activity, or none if the point belongs to a batch.</summary>
    public ActivityId? Activity { get; }

    /// <summary>The batch, or none if the point belongs to an activity.</summary>
    public BatchId? Batch { get; }

    /// <summary>Start or end.</summary>
    public Edge Edge { get; }

    /// <summary>The start of an activity.</summary>
    /// <param name="activity">An activity of the project.</param>
    public static TimePoint StartOf(ActivityId activity) => new(activity, null, Edge.Start);

    /// <summary>The end of an activity.</summary>
    /// <param name="activity">An activity of the project.</param>
    public static TimePoint EndOf(ActivityId activity) => new(activity, null, Edge.End);

    /// <summary>The start of a batch.</summary>
    /// <param name="batch">A batch of the project.</param>
    public static TimePoint StartOf(BatchId batch) => new(null, batch, Edge.Start);

    /// <summary>The end of a batch.</summary>
    /// <param name="batch">A batch of the project.</param>
    public static TimePoint EndOf(BatchId batch) => new(null, batch, Edge.End);

    /// <summary>For messages: "start of A".</summary>
    public override string ToString() =>
        (Edge == Edge.Start ? "start of " : "end of ") + (Activity is { } activity ? activity.Value : $"batch {Batch?.Value}");
}

/// <summary>How a lag carries a point in time forward (or back).</summary>
public abstract record Delay
{
    private Delay()
    {
    }

    /// <summary>The point plus a fixed number of minutes.</summary>
    /// <param name="Minutes">May be negative. [minutes]</param>
    public sealed record Fixed(int Minutes) : Delay;

    /// <summary>A function of the point, for example "when what began then is ready".</summary>
    /// <param name="Function">Non-decreasing. Pass the same object to lags that share it: they are then joined into one.</param>
    public sealed record ByTime(TimeFunction Function) : Delay;
}

/// <summary>
/// A time lag between two points. Minimum: To ≥ Delay(From). Maximum: To ≤ Delay(From).
/// It applies only if both ends are there: an activity present in one of the listed modes, a batch used.
/// </summary>
public sealed record Lag
{
    /// <summary>Where the delay starts.</summary>
    public required TimePoint From { get; init; }

    /// <summary>What is bounded.</summary>
    public required TimePoint To { get; init; }

    /// <summary>From below (minimum, the default) or from above (maximum).</summary>
    public LagKind Kind { get; init; } = LagKind.Minimum;

    /// <summary>The delay.</summary>
    public required Delay Delay { get; init; }

    /// <summary>Modes of the From activity in which the lag applies; empty means any. Empty if From is a batch.</summary>
    public ImmutableArray<ModeId> FromModes { get; init; } = [];

    /// <summary>Modes of the To activity in which the lag applies; empty means any. Empty if To is a batch.</summary>
    public ImmutableArray<ModeId> ToModes { get; init; } = [];
}
