using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>One run over all goals: each is solved with the earlier ones kept, starting from their schedule.</summary>
internal sealed class GoalRun(Project project, SolveOptions options)
{
    /// <summary>
    /// Small models are proven by propagation; cuts, probing, symmetry search and repeated presolve cost more than they save.
    /// Measured on the sample projects (15 tasks, 12 batches, median of 8, processor time): 419 ms with the solver's
    /// defaults, 95 ms with these; worst case 800 ms against 110 ms.
    /// </summary>
    private const string Tuning = "cut_level:0,cp_model_probing_level:0,symmetry_level:0,max_presolve_iterations:1,cp_model_use_sat_presolve:false";

    /// <summary>
    /// Most models are proven without a linear relaxation, in a fifth less time (sixteen models of 1000 variables: 734 ms
    /// instead of 918 ms). A few need it badly, above all those that count identical activities (seconds instead of 100 ms): so it is
    /// left out at first, but only for this long. [the solver's own deterministic seconds, here about 0.4 s]
    /// </summary>
    private const double WithoutRelaxation = 0.05;

    private readonly Stopwatch clock = Stopwatch.StartNew();
    private readonly FunctionValues functions = new(project.Horizon);
    private readonly List<GoalValue> values = [];
    private readonly List<(Goal Goal, long? Keep)> kept = [];
    private Schedule? best = options.Hint;
    private bool found;
    private int tolerance = options.DelayTolerance;
    private double deterministicLeft = options.TimeLimit.TotalSeconds;

    /// <summary>Further solver parameters, for tests and measurements.</summary>
    public string Extra { get; init; } = "";

    public Outcome Run()
    {
        foreach (Goal goal in options.Goals)
        {
            (CpSolverStatus status, long? bound) = Solve(goal);
            if (status == CpSolverStatus.Infeasible && tolerance > 0)
            {
                // Only the true delays can prove that there is no schedule.
                tolerance = 0;
                (status, bound) = Solve(goal);
            }

            if (status == CpSolverStatus.ModelInvalid)
                throw new InvalidOperationException("The solver refused the model; this is a fault of the scheduling core.");
            if (status == CpSolverStatus.Infeasible && !found)
                return new Outcome.Infeasible { Goals = Unreached(), WallTime = clock.Elapsed };
            if (!found)
                return new Outcome.TimeLimit { Goals = [new GoalValue(goal, null, bound), .. Unreached().Skip(1)], WallTime = clock.Elapsed };

            // When the time ran out before this goal improved anything, the schedule so far stands.
            long value = ValueOf(goal, best!);
            values.Add(new GoalValue(goal, value, status == CpSolverStatus.Optimal ? value : bound));
            kept.Add((goal, value));
        }

        ImmutableArray<GoalValue> goals = [.. values];
        return goals.All(g => g.Proven)
            ? new Outcome.Optimal(best!) { Goals = goals, WallTime = clock.Elapsed }
            : new Outcome.Feasible(best!) { Goals = goals, WallTime = clock.Elapsed };
    }

    private (CpSolverStatus Status, long? Bound) Solve(Goal goal)
    {
        options.Cancellation.ThrowIfCancellationRequested();
        double left = options.Deterministic ? deterministicLeft : (options.TimeLimit - clock.Elapsed).TotalSeconds;
        if (left <= 0)
            return (CpSolverStatus.Unknown, null);

        // A schedule in hand bounds what is still to be minimised; the model then needs delays only up to there.
        var latest = new Dictionary<ActivityId, int>();
        foreach (Goal.EarliestStart earliest in kept.Select(k => k.Goal).Append(goal).OfType<Goal.EarliestStart>())
        {
            if (found && best is { } sofar)
                latest[earliest.Activity] = sofar[earliest.Activity].Start;
        }

        ProjectModel model = ProjectModel.Build(project, [.. kept, (goal, null)], options.CostAtMost, latest, tolerance, functions);
        if (best is not null)
            model.Hinted.Hint(best);
        bool counts = model.Groups.Exists(g => g.Count > 1);
        (CpSolverStatus status, long? bound) = Search(model, goal, left, relaxation: counts);
        if (counts || (options.StopAtFirst && found) || status is CpSolverStatus.Optimal or CpSolverStatus.Infeasible or CpSolverStatus.ModelInvalid)
            return (status, bound);

        left = options.Deterministic ? deterministicLeft : (options.TimeLimit - clock.Elapsed).TotalSeconds;
        if (left <= 0)
            return (status, bound);
        if (best is not null)
            model.Hinted.Hint(best);
        (CpSolverStatus again, long? higher) = Search(model, goal, left, relaxation: true);
        bound = bound > higher || higher is null ? bound : higher;
        return (again == CpSolverStatus.Unknown ? status : again, bound);
    }

    private (CpSolverStatus Status, long? Bound) Search(ProjectModel model, Goal goal, double secondsLeft, bool relaxation)
    {
        using var solver = new CpSolver { StringParameters = Parameters(secondsLeft, relaxation) };
        CpSolverStatus status;
        using (Stopper.For(solver, options.Cancellation))
            status = solver.Solve(model.Model);
        options.Cancellation.ThrowIfCancellationRequested();
        deterministicLeft -= solver.Response?.DeterministicTime ?? 0;
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
            return (status, status == CpSolverStatus.Unknown ? Bound(solver, goal, model) : null);

        best = ScheduleReader.Read(model, solver);
        found = true;
        return (status, Bound(solver, goal, model));
    }

    /// <summary>The solver's lower bound, or null if it has none (it then answers with a huge negative number).</summary>
    private static long? Bound(CpSolver solver, Goal goal, ProjectModel model)
    {
        double bound = solver.BestObjectiveBound;
        if (!(Math.Abs(bound) < ProblemValidator.LargestTotal * 2.0))
            return null;
        return (long)Math.Ceiling(bound - 1e-6) + (goal is Goal.LowestCost ? model.ConstantCost : 0);
    }

    private string Parameters(double secondsLeft, bool relaxation)
    {
        int workers = options.Deterministic ? 1 : options.Workers;
        double deterministic = Math.Min(options.Deterministic ? secondsLeft : double.PositiveInfinity, relaxation ? double.PositiveInfinity : WithoutRelaxation);
        string limits = (options.Deterministic ? "" : string.Create(CultureInfo.InvariantCulture, $"max_time_in_seconds:{secondsLeft:F6},"))
            + (double.IsFinite(deterministic) ? string.Create(CultureInfo.InvariantCulture, $"max_deterministic_time:{deterministic:F6},") : "")
            + (relaxation ? "" : "linearization_level:0,")
            + (options.StopAtFirst ? "stop_after_first_solution:true," : "");
        return string.Create(CultureInfo.InvariantCulture, $"num_workers:{workers},random_seed:{options.Seed},{limits}{Tuning},{Extra}");
    }

    private ImmutableArray<GoalValue> Unreached() => [.. options.Goals.Select(g => new GoalValue(g, null, null))];

    private static long ValueOf(Goal goal, Schedule schedule) =>
        goal is Goal.EarliestStart earliest ? schedule[earliest.Activity].Start : schedule.Cost;
}
