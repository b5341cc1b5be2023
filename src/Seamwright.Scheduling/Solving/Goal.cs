namespace Seamwright.Scheduling;

/// <summary>What a solver run makes as small as possible. Goals are ranked: a later one never worsens an earlier one.</summary>
public abstract record Goal
{
    private Goal()
    {
    }

    /// <summary>Total cost. [whole money units]</summary>
    public static Goal Cost { get; } = new LowestCost();

    /// <summary>The start of an activity that is always present. [minutes from the origin]</summary>
    /// <param name="activity">An activity of the project without triggers.</param>
    public static Goal Earliest(ActivityId activity) => new EarliestStart(activity);

    /// <summary>See <see cref="Goal.Cost"/>.</summary>
    public sealed record LowestCost : Goal;

    /// <summary>See <see cref="Earliest"/>.</summary>
    /// <param name="Activity">The activity whose start counts.</param>
    public sealed record EarliestStart(ActivityId Activity) : Goal;
}

/// <summary>How far one goal was reached.</summary>
/// <param name="Goal">The goal.</param>
/// <param name="Value">Its value in the schedule, or null if there is no schedule. [money units or minutes]</param>
/// <param name="LowerBound">No schedule that keeps the earlier goals has a smaller value; null if nothing is known. [money units or minutes]</param>
public sealed record GoalValue(Goal Goal, long? Value, long? LowerBound)
{
    /// <summary>Is the value proven to be the smallest one?</summary>
    public bool Proven => Value is { } value && value == LowerBound;
}
