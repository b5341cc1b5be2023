using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>
/// The resource-constrained project scheduling problem with several modes and time lags: activities share renewable resources
/// that are there all the time, modes draw on stocks, and the whole project shall be as short as possible. Time is whole periods.
/// </summary>
/// <remarks>
/// The lean relative of <see cref="Project"/> for the question "how long at least?": no calendars, money, batches or lots, and
/// activities are known by their number. Covers the literature's PS | prec | Cmax, MPS | prec | Cmax and PS | temp | Cmax.
/// </remarks>
public sealed record MakespanProblem
{
    /// <summary>Units of each renewable resource in every period. [0 or more]</summary>
    public required ImmutableArray<int> Capacities { get; init; }

    /// <summary>Units of each non-renewable resource for the whole project. [0 or more]</summary>
    public ImmutableArray<int> Stocks { get; init; } = [];

    /// <summary>What is to be done; activities are known by their place in this list.</summary>
    public required ImmutableArray<MakespanActivity> Activities { get; init; }

    /// <summary>Minimum and maximum time lags, precedences included.</summary>
    public ImmutableArray<MakespanLag> Lags { get; init; } = [];

    /// <summary>Every mistake, as sentences; empty for a problem that can be solved.</summary>
    public ImmutableArray<string> Mistakes()
    {
        var mistakes = ImmutableArray.CreateBuilder<string>();
        if (Capacities.Any(c => c < 0) || Stocks.Any(s => s < 0))
            mistakes.Add("Capacities and stocks must not be negative.");
        if (Activities.IsDefaultOrEmpty)
            return ["There is no activity."];
        for (int i = 0; i < Activities.Length; i++)
        {
            if (Activities[i].Modes.IsDefaultOrEmpty)
                mistakes.Add($"Activity {i} has no mode.");
            else if (Activities[i].Modes.Any(m => m.Demands.Length != Capacities.Length || m.Consumes.Length != Stocks.Length))
                mistakes.Add($"Activity {i} has a mode without exactly one demand per resource and one consumption per stock.");
            else if (Activities[i].Modes.Any(m => m.Duration < 0 || m.Demands.Any(d => d < 0) || m.Consumes.Any(c => c < 0)))
                mistakes.Add($"Activity {i} has a negative duration, demand or consumption.");
        }

        foreach (MakespanLag lag in Lags)
        {
            if (lag.From < 0 || lag.From >= Activities.Length || lag.To < 0 || lag.To >= Activities.Length)
                mistakes.Add($"A lag from {lag.From} to {lag.To} names an activity that is not there.");
        }

        long longest = Activities.Sum(a => a.Modes.IsDefaultOrEmpty ? 0L : a.Modes.Max(m => m.Duration)) + Lags.Sum(l => Math.Abs((long)l.Length));
        if (longest > LargestHorizon)
            mistakes.Add($"Durations and lags add up to {longest}; {LargestHorizon} is the most that can be scheduled.");
        return mistakes.ToImmutable();
    }

    private const int LargestHorizon = 1_000_000;
}

/// <summary>Something to be done in exactly one of its modes, without interruption.</summary>
/// <param name="Modes">At least one.</param>
public sealed record MakespanActivity(ImmutableArray<MakespanMode> Modes);

/// <summary>One way of doing an activity.</summary>
/// <param name="Duration">[periods, 0 or more]</param>
/// <param name="Demands">Units of each renewable resource occupied from start to end. [0 or more]</param>
/// <param name="Consumes">Units of each stock used up. [0 or more]</param>
public sealed record MakespanMode(int Duration, ImmutableArray<int> Demands, ImmutableArray<int> Consumes);

/// <summary>start(To) ≥ edge(From) + Length. A maximum lag is one that runs backwards with a negative length.</summary>
/// <param name="From">Number of an activity.</param>
/// <param name="Edge">Its start or its end (which depends on the mode).</param>
/// <param name="To">Number of an activity.</param>
/// <param name="Length">May be negative. [periods]</param>
public readonly record struct MakespanLag(int From, Edge Edge, int To, int Length)
{
    /// <summary>To starts when From has ended, or later.</summary>
    /// <param name="from">Number of an activity.</param>
    /// <param name="to">Number of an activity.</param>
    public static MakespanLag Precedence(int from, int to) => new(from, Edge.End, to, 0);
}

/// <summary>When every activity starts and in which mode.</summary>
/// <param name="Starts">One entry per activity. [periods, 0 or more]</param>
/// <param name="Modes">One entry per activity: the number of its mode.</param>
/// <param name="Makespan">The latest end. [periods]</param>
public sealed record MakespanSchedule(ImmutableArray<int> Starts, ImmutableArray<int> Modes, int Makespan);
