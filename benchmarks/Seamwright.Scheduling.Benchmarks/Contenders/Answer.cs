namespace Seamwright.Scheduling.Benchmarks.Contenders;

/// <summary>What a contender says about one problem.</summary>
/// <param name="Schedule">The best one found, or null.</param>
/// <param name="Bound">No schedule is shorter; null if nothing is known.</param>
/// <param name="Infeasible">It is proven that there is no schedule.</param>
internal sealed record Answer(MakespanSchedule? Schedule, int? Bound, bool Infeasible)
{
    public static Answer Nothing { get; } = new(null, null, false);

    public bool Proven => Infeasible || (Schedule is { } schedule && schedule.Makespan == Bound);
}

/// <summary>The same for every contender.</summary>
internal sealed record Limits(TimeSpan Time, int Workers, int Seed);

/// <summary>A way of solving, by the name that stands in the table.</summary>
internal sealed record Contender(string Name, Func<MakespanProblem, Limits, Answer> Solve)
{
    public static IReadOnlyList<Contender> All { get; } =
    [
        new("core", Core.Solve),
        new("plain", PlainModel.Solve),
        new("list", ListHeuristic.Solve),
    ];
}
