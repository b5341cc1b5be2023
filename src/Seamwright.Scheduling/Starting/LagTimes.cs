using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Times that follow from a schedule and the lags alone.</summary>
public static class LagTimes
{
    /// <summary>The minute from which the minimum lags let an activity start, everything else where the schedule has it.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="schedule">A schedule of it.</param>
    /// <param name="activity">One of its activities, present in the schedule.</param>
    /// <returns>0 where nothing holds it. [minutes from the origin]</returns>
    public static int EarliestStart(Project project, Schedule schedule, ActivityId activity)
    {
        ArgumentNullException.ThrowIfNull(project);
        ArgumentNullException.ThrowIfNull(schedule);
        PlannedActivity planned = schedule[activity];
        int earliest = 0;
        foreach (Lag lag in project.Lags)
        {
            if (lag.Kind != LagKind.Minimum || lag.To.Activity != activity || !Applies(lag.ToModes, planned.Mode) || Minute(schedule, lag) is not { } from)
                continue;
            int bound = ListLag.At(lag.Delay, from, project.Horizon);
            earliest = Math.Max(earliest, lag.To.Edge == Edge.Start ? bound : bound - (planned.End - planned.Start));
        }
        return earliest;
    }

    private static int? Minute(Schedule schedule, Lag lag)
    {
        if (lag.From.Batch is { } batch)
            return schedule[batch] is { Used: true } used ? (lag.From.Edge == Edge.Start ? used.Start : used.End) : null;
        PlannedActivity planned = schedule[lag.From.Activity!.Value];
        return planned.Present && Applies(lag.FromModes, planned.Mode) ? (lag.From.Edge == Edge.Start ? planned.Start : planned.End) : null;
    }

    private static bool Applies(ImmutableArray<ModeId> modes, ModeId? mode) => modes.IsEmpty || (mode is { } chosen && modes.Contains(chosen));
}
