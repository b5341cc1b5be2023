using System.Collections.Immutable;
using System.Globalization;

namespace Seamwright.Scheduling;

/// <summary>Says whether a schedule keeps a project's constraints, by brute force and without any code of the solver.</summary>
public static class ScheduleChecker
{
    /// <summary>Lists what a schedule violates.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="schedule">Any schedule, from the solver or not.</param>
    /// <returns>One sentence per violation, with ids and minutes; empty if the schedule keeps everything.</returns>
    public static ImmutableArray<string> Check(Project project, Schedule schedule)
    {
        ArgumentNullException.ThrowIfNull(project);
        ArgumentNullException.ThrowIfNull(schedule);
        var check = new ScheduleCheck(project, schedule);
        check.Run();
        return [.. check.Violations];
    }

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
