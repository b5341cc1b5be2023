using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>How to solve.</summary>
public sealed record SolveOptions
{
    /// <summary>Ranked goals; at least one. Default: cost.</summary>
    public ImmutableArray<Goal> Goals { get; init; } = [Goal.Cost];

    /// <summary>For all goals together. [more than 0] Default 10 s.</summary>
    public TimeSpan TimeLimit { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Solver threads. [1..64] Default 1: models of this size are not proven sooner by more.</summary>
    public int Workers { get; init; } = 1;

    /// <summary>Seed of the solver's random choices. [0 or more] Default 1.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>A schedule to start from, possibly of a similar project: parts that do not fit are ignored.</summary>
    public Schedule? Hint { get; init; }

    /// <summary>If given, dearer schedules are not accepted. [whole money units]</summary>
    public long? CostAtMost { get; init; }

    /// <summary>
    /// True: one worker, and the time limit counts the solver's own deterministic seconds (about as long as real ones)
    /// instead of the clock, so that the answer is the same on every machine.
    /// </summary>
    public bool Deterministic { get; init; }

    /// <summary>
    /// How much later (or earlier, for maximum lags) than its true value a time-dependent delay may be taken, to need fewer pieces.
    /// Answers always keep the true delay, but optimal and lower bound then hold for the tightened delays. [minutes, 0..60] Default 0: exact.
    /// </summary>
    public int DelayTolerance { get; init; }

    /// <summary>
    /// True: the project is known to be valid, so it is not checked again. A mistake in it then has an answer that means nothing.
    /// For programs that solve many variations of one project, where the check would take a sixth of the time. Default false.
    /// </summary>
    public bool Trusted { get; init; }

    /// <summary>True: any schedule will do, the first one found ends the search. Default false.</summary>
    public bool StopAtFirst { get; init; }

    /// <summary>Stops the search; the solver then throws <see cref="OperationCanceledException"/>.</summary>
    public CancellationToken Cancellation { get; init; }

    internal void ThrowIfInvalid(Project project)
    {
        var mistakes = new List<string>();
        if (Goals.IsDefaultOrEmpty)
            mistakes.Add("There must be at least one goal.");
        else
            mistakes.AddRange(Goals.OfType<Goal.EarliestStart>().Where(g => !IsAlwaysPresent(project, g.Activity)).Select(g => $"Goal: {g.Activity} must be an activity that is always present."));
        if (TimeLimit <= TimeSpan.Zero)
            mistakes.Add("The time limit must be more than 0.");
        if (Workers is < 1 or > 64)
            mistakes.Add("There must be 1 to 64 workers.");
        if (Seed < 0)
            mistakes.Add("The seed must not be negative.");
        if (DelayTolerance is < 0 or > 60)
            mistakes.Add("The delay tolerance must be 0 to 60 minutes.");
        if (mistakes.Count > 0)
            throw new InvalidProjectException([.. mistakes]);
    }

    private static bool IsAlwaysPresent(Project project, ActivityId id) =>
        project.Activities.Any(a => a.Id == id && a.PresentWhen.IsEmpty);
}
