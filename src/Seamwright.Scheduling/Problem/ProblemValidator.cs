using System.Collections.Immutable;
using System.Globalization;

namespace Seamwright.Scheduling;

/// <summary>Finds every mistake in a project at once.</summary>
public static class ProblemValidator
{
    /// <summary>Longest horizon. [minutes; about four weeks]</summary>
    public const int LongestHorizon = 40_000;

    /// <summary>Largest sum of all amounts of money that could be paid together; keeps sums far from overflow.</summary>
    public const long LargestTotal = 1_000_000_000_000_000;

    /// <summary>Lists the mistakes of a project.</summary>
    /// <param name="project">Any project.</param>
    /// <returns>One sentence per mistake, in the order in which the project lists its parts; empty if it can be solved.</returns>
    public static ImmutableArray<string> Mistakes(Project project)
    {
        ArgumentNullException.ThrowIfNull(project);
        var check = new ProjectCheck(project);
        check.Run();
        if (check.Mistakes.Count == 0)
            check.Mistakes.AddRange(SymmetryClaims.Mistakes(project));
        return [.. check.Mistakes];
    }

    /// <summary>Refuses a project with mistakes.</summary>
    /// <param name="project">Any project.</param>
    /// <exception cref="InvalidProjectException">There are mistakes; it lists them all.</exception>
    public static void ThrowIfInvalid(Project project)
    {
        ImmutableArray<string> mistakes = Mistakes(project);
        if (!mistakes.IsEmpty)
            throw new InvalidProjectException(mistakes);
    }

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
