using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;

namespace Seamwright.Planning;

/// <summary>When everything that paint waits for has happened, exact to the minute, from a schedule's own lags.</summary>
internal static class ReadyMoment
{
    /// <summary>Minute of the plan; the plan's first minute where paint waits for nothing.</summary>
    public static int Of(Found found) =>
        ActiveLags.Into(found, TimePoint.StartOf(ProjectBuilder.Paint))
            .Where(lag => lag.Lag.From.Activity != ProjectBuilder.Ready)
            .Select(lag => lag.Earliest)
            .DefaultIfEmpty(0)
            .Max();
}

/// <summary>A minimum lag that binds in a schedule, and the earliest minute it allows.</summary>
internal readonly record struct ActiveLag(Lag Lag, int From, int Earliest);

/// <summary>Minimum lags that hold in a schedule.</summary>
internal static class ActiveLags
{
    /// <summary>Lags whose end is the given moment and which are active in the schedule.</summary>
    public static IEnumerable<ActiveLag> Into(Found found, TimePoint to)
    {
        foreach (var lag in found.Project.Project.Lags)
        {
            if (lag.Kind != LagKind.Minimum || lag.To != to)
                continue;
            if (MinuteOf(found.Schedule, lag.From, lag.FromModes) is not { } from || MinuteOf(found.Schedule, lag.To, lag.ToModes) is null)
                continue;
            int earliest = lag.Delay switch
            {
                Delay.Fixed fix => from + fix.Minutes,
                Delay.ByTime byTime => byTime.Function.At(from),
                _ => from,
            };
            yield return new ActiveLag(lag, from, earliest);
        }
    }

    /// <summary>Minute of a moment in a schedule; null where it is absent or in another mode.</summary>
    public static int? MinuteOf(Schedule schedule, TimePoint point, System.Collections.Immutable.ImmutableArray<ModeId> modes)
    {
        if (point.Batch is { } batch)
            return schedule[batch] is { Used: true } used ? (point.Edge == Edge.Start ? used.Start : used.End) : null;
        var planned = schedule[point.Activity!.Value];
        if (!planned.Present || (!modes.IsEmpty && !(planned.Mode is { } mode && modes.Contains(mode))))
            return null;
        return point.Edge == Edge.Start ? planned.Start : planned.End;
    }
}
