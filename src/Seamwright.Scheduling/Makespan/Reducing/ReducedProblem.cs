using Seamwright.Scheduling.Makespan.Bounds;

namespace Seamwright.Scheduling.Makespan.Reducing;

/// <summary>A mode that stayed, as arrays for inner loops.</summary>
internal sealed record ReducedMode(int Number, int Duration, int[] Demands, int[] Consumes);

/// <summary>The problem without superfluous modes and stocks, with the longest paths between its starts.</summary>
internal sealed class ReducedProblem
{
    private ReducedProblem(MakespanProblem source, ReducedMode[][] modes, int[] stocks, LagNetwork network) =>
        (Source, Modes, Stocks, Network) = (source, modes, stocks, network);

    public MakespanProblem Source { get; }

    /// <summary>One entry per activity: its modes; consumption is listed for the scarce stocks only.</summary>
    public ReducedMode[][] Modes { get; }

    /// <summary>Amounts of the scarce stocks.</summary>
    public int[] Stocks { get; }

    public LagNetwork Network { get; }

    public int Count => Modes.Length;

    public int Resources => Source.Capacities.Length;

    public bool HasModes => Array.Exists(Modes, m => m.Length > 1);

    /// <summary>
    /// Every lag makes somebody wait for the end of somebody else, perhaps longer: lists then always give a schedule, as long as
    /// the stocks suffice for the modes.
    /// </summary>
    public bool IsPrecedenceOnly => Network.IsAcyclic
        && Source.Lags.All(l => l.Length >= (l.Edge == Edge.End ? 0 : Modes[l.From].Max(m => m.Duration)));

    /// <summary>Long enough for the shortest schedule, if there is one: every activity and every lag one after the other.</summary>
    public int Horizon => Modes.Sum(m => m.Max(k => k.Duration)) + Source.Lags.Sum(l => Math.Max(0, l.Length));

    public int ShortestDuration(int activity) => Modes[activity].Min(m => m.Duration);

    /// <returns>Null if no schedule exists: no mode is left for some activity, or lags contradict each other.</returns>
    public static ReducedProblem? Of(MakespanProblem problem)
    {
        if (ModeReduction.Kept(problem) is not { } kept)
            return null;
        int[] scarce = ModeReduction.Scarce(problem, kept);
        ReducedMode[][] modes = [.. kept.Select((numbers, i) => numbers.Select(k =>
        {
            MakespanMode mode = problem.Activities[i].Modes[k];
            return new ReducedMode(k, mode.Duration, [.. mode.Demands], [.. scarce.Select(s => mode.Consumes[s])]);
        }).ToArray())];
        int[] shortest = [.. modes.Select(m => m.Min(k => k.Duration))];
        return LagNetwork.Of(problem.Lags, shortest) is { } network
            ? new ReducedProblem(problem, modes, [.. scarce.Select(s => problem.Stocks[s])], network)
            : null;
    }

    /// <summary>A schedule in the numbers of the source.</summary>
    public MakespanSchedule Schedule(int[] starts, int[] modes) => new(
        [.. starts],
        [.. modes.Select((k, i) => Modes[i][k].Number)],
        Enumerable.Range(0, Count).Select(i => starts[i] + Modes[i][modes[i]].Duration).DefaultIfEmpty(0).Max());
}
