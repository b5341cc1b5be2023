using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Restricts the start of one activity depending on the mode of another.</summary>
public sealed record ConditionalWindow
{
    /// <summary>The activity whose start is restricted (if it is present).</summary>
    public required ActivityId Activity { get; init; }

    /// <summary>Where it may start when the condition holds: ascending, not overlapping, at least one.</summary>
    public required ImmutableArray<Window> Windows { get; init; }

    /// <summary>The activity looked at.</summary>
    public required ActivityId WhenActivity { get; init; }

    /// <summary>The condition: that activity is present in one of these modes; empty means any.</summary>
    public ImmutableArray<ModeId> WhenModes { get; init; } = [];
}
