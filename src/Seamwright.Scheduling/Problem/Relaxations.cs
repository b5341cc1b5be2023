namespace Seamwright.Scheduling;

/// <summary>Easier problems whose optimum bounds the cost of a project from below.</summary>
public static class Relaxations
{
    /// <summary>
    /// The same choices with time taken away: no lags, calendars, resources or dates are left, only modes, batches, lots and what they cost.
    /// Charges that depend on time are left out; they must not be negative.
    /// </summary>
    /// <param name="project">A project without mistakes.</param>
    /// <returns>A project every schedule of the first is a schedule of, at no higher cost.</returns>
    public static Project WithoutTime(Project project) => project with
    {
        Resources = [],
        Lots = [.. project.Lots.Select(lot => lot with { Usable = new Window(0, project.Horizon + 1) })],
        Activities = [.. project.Activities.Select(activity => activity with { Modes = [.. activity.Modes.Select(mode => mode with { Starts = [], Demands = [] })] })],
        Batches = [.. project.Batches.Select(batch => batch with { Starts = [], LatestEnd = null, Crews = [.. batch.Crews.Select(crew => crew with { Demands = [] })] })],
        Lags = [],
        ConditionalWindows = [],
        Charges = [],
    };
}
