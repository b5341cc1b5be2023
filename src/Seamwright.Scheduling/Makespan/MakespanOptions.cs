namespace Seamwright.Scheduling;

/// <summary>How to solve a <see cref="MakespanProblem"/>.</summary>
public sealed record MakespanOptions
{
    /// <summary>For everything together. [more than 0] Default 10 s.</summary>
    public TimeSpan TimeLimit { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Threads. [1..64] Default 2: one works on the proof, the others on shorter schedules.</summary>
    public int Workers { get; init; } = 2;

    /// <summary>Seed of all random choices. [0 or more] Default 1.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>
    /// True: one thread, and the time limit counts the solver's own deterministic seconds instead of the clock, so that the answer
    /// is the same on every machine. Default false.
    /// </summary>
    public bool Deterministic { get; init; }

    /// <summary>Stops the search; the solver then throws <see cref="OperationCanceledException"/>.</summary>
    public CancellationToken Cancellation { get; init; }

    internal void ThrowIfInvalid(MakespanProblem problem)
    {
        var mistakes = problem.Mistakes();
        if (TimeLimit <= TimeSpan.Zero)
            mistakes = mistakes.Add("The time limit must be more than 0.");
        if (Workers is < 1 or > 64)
            mistakes = mistakes.Add("There must be 1 to 64 workers.");
        if (Seed < 0)
            mistakes = mistakes.Add("The seed must not be negative.");
        if (!mistakes.IsEmpty)
            throw new InvalidProjectException(mistakes);
    }
}
