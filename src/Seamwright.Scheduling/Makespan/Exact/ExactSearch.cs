using System.Diagnostics;
using Google.OrTools.Sat;
using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Exact;

/// <summary>Solves the whole problem; what matters is the proof, schedules come from the other searches too.</summary>
internal static class ExactSearch
{
    /// <summary>Presolve steps that cost more than they save here.</summary>
    private const string Quick = "symmetry_level:0,cp_model_probing_level:0";

    /// <summary>Activities that exclude each other in pairs are frequent; these look closer at them.</summary>
    private const string Disjunctive = "use_strong_propagation_in_disjunctive:true,use_dynamic_precedence_in_disjunctive:true";

    /// <summary>
    /// Precedences, one mode: raises the bound by cores of the objective. On eight hard instances of 30 to 120 activities the bound stayed
    /// 3.0 % below the best known makespan (3.6 % without <see cref="Disjunctive"/>), the solver's default search more than 20 %.
    /// </summary>
    private const string Cores = $"{Quick},linearization_level:0,optimize_with_core:true,use_overload_checker_in_cumulative:true,{Disjunctive}";

    /// <summary>Maximum lags: schedules and bound together. Five instances that stayed open for 10 s were closed in 2 s each.</summary>
    private const string Lags = $"{Quick},linearization_level:0,exploit_all_precedences:true,{Disjunctive}";

    /// <summary>
    /// Several modes: only a linear relaxation sees how stocks force long modes. On five instances of 50 activities the bound stayed 0.7 %
    /// below the best known makespan, 15 % or more without relaxation.
    /// </summary>
    private const string Modes = $"{Quick},linearization_level:1";

    /// <summary>As <see cref="Lags"/>, but better at finding a first schedule: 18 of 18 instances of 100 activities instead of 14.</summary>
    private const string Finding = $"{Quick},linearization_level:0,exploit_all_precedences:true";

    /// <summary>Until everything is proven or time is over; once anew when a first good schedule has come from elsewhere.</summary>
    /// <param name="search">Gets schedules and bounds.</param>
    /// <param name="options">Time and seed.</param>
    public static void Run(SharedSearch search, MakespanOptions options)
    {
        bool again = search.Makespan is null;
        Run(search, options, again ? search.Tightened : search.Done);
        if (again && !search.IsDone)
            Run(search, options, search.Done);
    }

    /// <summary>
    /// A first schedule, and shorter ones as long as they come quickly. It goes another way than <see cref="Run(SharedSearch, MakespanOptions)"/>,
    /// and like that one it may prove that there is none.
    /// </summary>
    /// <param name="search">Gets schedules and bounds.</param>
    /// <param name="seed">Of the solver.</param>
    public static void RunToFirst(SharedSearch search, int seed)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(search.Done);
        var clock = Stopwatch.StartNew();
        (int? Makespan, TimeSpan At) last = (search.Makespan, TimeSpan.Zero);
        using var watch = new Timer(_ => StopWhenSlow(), null, 20, 20);
        Solve(search, SolverRun.Limits(seed, null, null), Finding, stop.Token);

        void StopWhenSlow()
        {
            if (search.Makespan != last.Makespan)
                last = (search.Makespan, clock.Elapsed);
            else if (last.Makespan is not null && clock.Elapsed > (last.At * 1.5) + TimeSpan.FromSeconds(0.2))
                stop.Cancel();
        }
    }

    private static void Run(SharedSearch search, MakespanOptions options, CancellationToken stop)
    {
        string limits = SolverRun.Limits(options.Seed, options.Deterministic ? null : search.Left, options.Deterministic ? options.TimeLimit.TotalSeconds : null);
        Solve(search, limits, Parameters(search.Problem), stop);
    }

    private static void Solve(SharedSearch search, string limits, string parameters, CancellationToken stop)
    {
        int upper = search.Upper;
        var model = new MakespanModel(search.Problem, search.Lower, upper);
        model.Minimise();
        CpSolverStatus status = SolverRun.Solve(model, search, $"{limits},{parameters}", wholeProblem: true, stop);
        if (status == CpSolverStatus.Infeasible)
            search.Exhausted(upper);
        else if (status == CpSolverStatus.Optimal && search.Makespan is { } shortest)
            search.Raise(shortest);
    }

    private static string Parameters(ReducedProblem problem) => problem switch
    {
        { HasModes: true } => Modes,
        { IsPrecedenceOnly: true } => Cores,
        _ => Lags,
    };
}
