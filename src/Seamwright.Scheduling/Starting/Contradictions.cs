using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>
/// Modes that can never be taken, because what follows may begin only after it must have begun: a minimum and a maximum lag between the same points
/// that agree at no time. Costs and minimum lags alone do not show them, so a pattern made of cheap choices would run into them again and again.
/// </summary>
public static class Contradictions
{
    /// <summary>Lags that depend on time are looked at this often. [minutes]</summary>
    private const int Step = 60;

    /// <summary>A window in which nothing starts.</summary>
    private static readonly Window Never = new(-1, 0);

    /// <summary>The same project in which those modes never start; they stay in it, as other things may name them.</summary>
    /// <param name="project">A project without mistakes.</param>
    public static Project Closed(Project project)
    {
        ArgumentNullException.ThrowIfNull(project);
        var impossible = Find(project).ToHashSet();
        return impossible.Count == 0 ? project : project with { Activities = [.. project.Activities.Select(Close)] };

        Activity Close(Activity activity) => activity.Modes.Any(mode => impossible.Contains((activity.Id, mode.Id)))
            ? activity with { Modes = [.. activity.Modes.Select(mode => impossible.Contains((activity.Id, mode.Id)) ? mode with { Starts = [Never] } : mode)] }
            : activity;
    }

    private static IEnumerable<(ActivityId, ModeId)> Find(Project project)
    {
        var minimum = project.Lags.Where(lag => lag.Kind == LagKind.Minimum && lag.From.Activity is not null).ToLookup(lag => (lag.From, lag.To));
        var activities = project.Activities.ToDictionary(activity => activity.Id);
        foreach (Lag maximum in project.Lags.Where(lag => lag.Kind == LagKind.Maximum && lag.From.Activity is not null && lag.ToModes.IsEmpty))
        {
            foreach (Lag least in minimum[(maximum.From, maximum.To)].Where(lag => lag.ToModes.IsEmpty))
            {
                if (AgreeAtSomeTime(least, maximum, project.Horizon))
                    continue;
                ActivityId from = maximum.From.Activity!.Value;
                foreach (Mode mode in activities[from].Modes)
                {
                    if (AppliesIn(least, mode) && AppliesIn(maximum, mode))
                        yield return (from, mode.Id);
                }
            }
        }
    }

    private static bool AgreeAtSomeTime(Lag minimum, Lag maximum, int horizon)
    {
        for (int minute = 0; minute <= horizon; minute += Step)
        {
            if (ListLag.At(minimum.Delay, minute, horizon) <= ListLag.At(maximum.Delay, minute, horizon))
                return true;
        }
        return false;
    }

    private static bool AppliesIn(Lag lag, Mode mode) => lag.FromModes.IsEmpty || lag.FromModes.Contains(mode.Id);
}
