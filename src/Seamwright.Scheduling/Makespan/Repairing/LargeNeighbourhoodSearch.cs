using Google.OrTools.Sat;
using Seamwright.Scheduling.Makespan.Exact;

namespace Seamwright.Scheduling.Makespan.Repairing;

/// <summary>
/// Improves the best schedule by solving parts of it exactly, while the other activities keep their order. Sources: Shaw, large neighbourhood
/// search (CP98, LNCS 1520, 417-431); Godard, Laborie, Nuijten (2005), Randomized large neighborhood search for cumulative scheduling, ICAPS.
/// </summary>
internal sealed class LargeNeighbourhoodSearch(SharedSearch search, int seed)
{
    /// <summary>Effort for one part. [the solver's deterministic seconds]</summary>
    private const double Effort = 0.03;

    /// <summary>Without presolve a third more parts are solved in the same time (three instances of 100 activities with maximum lags).</summary>
    private const string Parameters = "linearization_level:0,symmetry_level:0,cp_model_presolve:false";

    private readonly Random random = new(seed);
    private double share = 0.15;

    public int Rounds { get; private set; }

    /// <summary>One part; there must be a schedule.</summary>
    public void Step()
    {
        (int[] starts, int[] modes) = search.Best!.Value;
        int count = search.Problem.Count;
        bool[] free = Neighbourhood.Choose(search.Problem, starts, modes, Math.Max(4, (int)(share * count)), random);
        var model = new MakespanModel(search.Problem, search.Lower, search.Upper);
        model.Minimise();
        for (int i = 0; i < count; i++)
        {
            if (!free[i])
                model.Fix(i, modes[i]);
        }

        foreach ((int first, int second) in Neighbourhood.Orders(search.Problem, starts, modes, free))
            model.Order(first, second);
        CpSolverStatus status = SolverRun.Solve(model, search, $"{SolverRun.Limits(random.Next(1, 1_000_000), null, Effort)},{Parameters}", wholeProblem: false, search.Done);
        Rounds++;

        // Parts that are soon exhausted may be larger, those that are not must be smaller.
        share = status is CpSolverStatus.Optimal or CpSolverStatus.Infeasible ? Math.Min(1, share * 1.02) : Math.Max(4.0 / count, share * 0.95);
    }
}
