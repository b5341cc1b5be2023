using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Modes that never begin, and those from which something that follows by a minimum lag cannot begin in time, however soon they are done.</summary>
internal static class TooLate
{
    /// <summary>The modes, each with its activity.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="spare">Nothing begins before. [minutes]</param>
    public static IEnumerable<(ActivityId, ModeId)> In(Project project, int spare)
    {
        var latest = project.Activities.ToDictionary(activity => activity.Id, activity => activity.Modes.Max(mode => Latest(project, mode)));
        var batches = project.Batches.ToDictionary(batch => batch.Id);
        foreach (Activity activity in project.Activities)
        {
            foreach (Mode mode in activity.Modes.Where(mode => Latest(project, mode) < 0))
                yield return (activity.Id, mode.Id);
        }
        foreach (Lag lag in project.Lags)
        {
            if (lag.Kind != LagKind.Minimum || lag.To is not { Activity: { } follows, Edge: Edge.Start } || latest[follows] >= project.Horizon)
                continue;
            foreach (var (activity, mode) in From(project, lag))
            {
                Batch? batch = mode.Batch is { } joined ? batches[joined] : null;
                int start = Earliest(mode.Starts, Earliest(batch is null ? [] : batch.Starts, spare));
                int end = start + mode.Duration + (batch is null ? 0 : batch.Setup + mode.Work);
                if (end > project.Horizon || ListLag.At(lag.Delay, lag.From.Edge == Edge.Start ? start : end, project.Horizon) > latest[follows])
                    yield return (activity.Id, mode.Id);
            }
        }
    }

    private static IEnumerable<(Activity, Mode)> From(Project project, Lag lag)
    {
        foreach (Activity activity in project.Activities)
        {
            if (lag.From.Activity is { } named && activity.Id != named)
                continue;
            foreach (Mode mode in activity.Modes)
            {
                if (lag.From.Batch is { } batch ? mode.Batch == batch : lag.FromModes.IsEmpty || lag.FromModes.Contains(mode.Id))
                    yield return (activity, mode);
            }
        }
    }

    private static int Latest(Project project, Mode mode) => mode.Starts.IsEmpty ? project.Horizon : mode.Starts[^1].To - 1;

    private static int Earliest(ImmutableArray<Window> windows, int from)
    {
        foreach (Window window in windows)
        {
            if (from < window.To)
                return Math.Max(from, window.From);
        }
        return windows.IsEmpty ? from : int.MaxValue / 2;
    }
}
