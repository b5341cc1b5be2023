using NodaTime;

namespace Seamwright.Air;

/// <summary>Something assumed about the air, told to whoever relies on it.</summary>
/// <param name="Kind">What was assumed.</param>
/// <param name="From">Start of the affected time.</param>
/// <param name="To">End of the affected time.</param>
/// <param name="Count">How many rows are concerned; 0 where rows are not the point.</param>
public sealed record ClimateNotice(ClimateNoticeKind Kind, Instant From, Instant To, int Count = 0);

/// <summary>What was assumed about the air.</summary>
public enum ClimateNoticeKind
{
    /// <summary>No reading for more than two hours; a straight line was drawn between the neighbours.</summary>
    GapBridged,

    /// <summary>Rows with the time of an earlier row were dropped.</summary>
    DuplicatesDropped,

    /// <summary>Rows out of time order were sorted in.</summary>
    OutOfOrderSorted,

    /// <summary>The value before the first reading was held.</summary>
    HeldBeforeStart,

    /// <summary>The value after the last reading was held.</summary>
    HeldAfterEnd,

    /// <summary>The air would have held more water than it can at its temperature; it was taken as saturated (100 %).</summary>
    HumidityCapped,
}
