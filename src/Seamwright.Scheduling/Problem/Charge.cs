using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Money that depends on when an activity starts or ends, if it is present: tardiness in steps.</summary>
public sealed record Charge
{
    /// <summary>The activity.</summary>
    public required ActivityId Activity { get; init; }

    /// <summary>Which of its ends counts.</summary>
    public required Edge Edge { get; init; }

    /// <summary>The amount as a function of that end.</summary>
    public required StepFunction Amount { get; init; }
}

/// <summary>A non-decreasing step function of time: 0 before the first step, then the amount of the last step reached.</summary>
/// <param name="Steps">Ascending in time, never falling in amount.</param>
public sealed record StepFunction(ImmutableArray<Step> Steps);

/// <summary>One step.</summary>
/// <param name="From">The amount holds from this minute on. [minutes from the origin]</param>
/// <param name="Amount">[whole money units, 0 or more]</param>
public readonly record struct Step(int From, long Amount);
