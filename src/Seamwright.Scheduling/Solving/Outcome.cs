using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>What came out of a solver run. An invalid project is not an outcome but an <see cref="InvalidProjectException"/>.</summary>
public abstract record Outcome
{
    private Outcome()
    {
    }

    /// <summary>One entry per goal, in rank order.</summary>
    public required ImmutableArray<GoalValue> Goals { get; init; }

    /// <summary>Wall time from the call to the answer.</summary>
    public required TimeSpan WallTime { get; init; }

    /// <summary>The schedule, if there is one.</summary>
    public virtual Schedule? Plan => null;

    /// <summary>Every goal is proven.</summary>
    /// <param name="Schedule">The best schedule.</param>
    public sealed record Optimal(Schedule Schedule) : Outcome
    {
        /// <inheritdoc/>
        public override Schedule? Plan => Schedule;
    }

    /// <summary>A schedule was found, but the time limit came before the proof of some goal.</summary>
    /// <param name="Schedule">The best schedule found.</param>
    public sealed record Feasible(Schedule Schedule) : Outcome
    {
        /// <inheritdoc/>
        public override Schedule? Plan => Schedule;
    }

    /// <summary>It is proven that no schedule keeps all constraints (and the cost limit, if one was given).</summary>
    public sealed record Infeasible : Outcome;

    /// <summary>The time limit came before any schedule was found; there may be one.</summary>
    public sealed record TimeLimit : Outcome;
}
