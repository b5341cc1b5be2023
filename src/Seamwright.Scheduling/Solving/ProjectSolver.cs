using Seamwright.Scheduling.Solving;

namespace Seamwright.Scheduling;

/// <summary>Solves project-scheduling problems with a constraint solver.</summary>
public static class ProjectSolver
{
    /// <summary>Finds the best schedule for ranked goals, or says that there is none.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="options">How to solve; left out: the cheapest schedule within 10 s.</param>
    /// <returns>The outcome, with the value and lower bound of each goal.</returns>
    /// <exception cref="InvalidProjectException">The project or the options contain mistakes; all are listed.</exception>
    /// <exception cref="OperationCanceledException">The options' cancellation was requested.</exception>
    public static Outcome Solve(Project project, SolveOptions? options = null)
    {
        options ??= new SolveOptions();
        if (!options.Trusted)
            ProblemValidator.ThrowIfInvalid(project);
        options.ThrowIfInvalid(project);
        return new GoalRun(project, options).Run();
    }
}
