using NodaTime;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Documents.SeamMap;

/// <summary>How far a seam is at a moment.</summary>
public enum SeamState
{
    /// <summary>The factory had nothing here and nothing is done.</summary>
    Nothing,

    /// <summary>Not yet applied.</summary>
    Open,

    /// <summary>Not yet applied although the latest moment for its slot has passed.</summary>
    Late,

    /// <summary>Applied, and it cures until paint may go on.</summary>
    Curing,

    /// <summary>Applied; nothing waits for it.</summary>
    Sealed,

    /// <summary>Paint may go on.</summary>
    Ready,
}

/// <summary>Reads states off a plan.</summary>
public static class SeamStates
{
    /// <summary>State of a joint at a moment if everything goes as planned; open where there is no plan.</summary>
    public static SeamState Of(Joint joint, JointPlan? plan, Instant at)
    {
        ArgumentNullException.ThrowIfNull(joint);
        if (plan is null)
            return joint.IsBare ? SeamState.Nothing : SeamState.Open;
        if (plan.Applied is not { } applied)
            return SeamState.Nothing;
        if (at < applied.End)
            return plan.ApplyBy is { } limit && at > limit ? SeamState.Late : SeamState.Open;
        return plan.Ready is not { } ready ? SeamState.Sealed : at < ready ? SeamState.Curing : SeamState.Ready;
    }
}
