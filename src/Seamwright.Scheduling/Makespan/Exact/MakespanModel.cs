using Google.OrTools.Sat;
using Seamwright.Scheduling.Makespan.Reducing;

namespace Seamwright.Scheduling.Makespan.Exact;

/// <summary>
/// The problem as a CP-SAT model: start variables within heads and tails, one interval per mode, one cumulative per resource that can
/// run short, lags, stocks, and the makespan as objective.
/// </summary>
internal sealed class MakespanModel
{
    private readonly ReducedProblem problem;
    private readonly IntVar[] starts;
    private readonly BoolVar[][] chosen;
    private readonly LinearExpr[] durations;
    private readonly IntVar makespan;
    private readonly Dictionary<(int Activity, int Mode), IntervalVar> intervals = [];

    /// <param name="problem">Any.</param>
    /// <param name="lower">Nothing shorter is looked for.</param>
    /// <param name="upper">Nothing longer is accepted.</param>
    public MakespanModel(ReducedProblem problem, int lower, int upper)
    {
        this.problem = problem;
        int count = problem.Count;
        starts = new IntVar[count];
        chosen = new BoolVar[count][];
        durations = new LinearExpr[count];
        makespan = Model.NewIntVar(Math.Min(lower, upper), upper, "");
        for (int i = 0; i < count; i++)
        {
            (int head, int latest) = (problem.Network.Heads[i], upper - problem.Network.Tails[i]);
            if (latest < head)
            {
                IsContradiction = true;
                latest = head;
            }

            starts[i] = Model.NewIntVar(head, latest, "");
        }

        for (int i = 0; i < count; i++)
            Modes(i);
        Resources();
        Stocks();
        foreach (MakespanLag lag in problem.Source.Lags)
            Model.Add(starts[lag.To] >= starts[lag.From] + (lag.Edge == Edge.End ? durations[lag.From] : LinearExpr.Constant(0)) + lag.Length);
        for (int i = 0; i < count; i++)
        {
            // Whoever has a follower that cannot end sooner decides nothing about the end of the project.
            if (!Enumerable.Range(0, count).Any(j => j != i && Outlasts(j, i)))
                Model.Add(makespan >= starts[i] + durations[i]);
        }
    }

    public CpModel Model { get; } = new();

    /// <summary>Heads and tails leave some activity no start at all.</summary>
    public bool IsContradiction { get; }

    /// <summary>Shortest makespan as objective; without it any schedule will do.</summary>
    public void Minimise() => Model.Minimize(makespan);

    /// <summary>The mode of an activity is as in a schedule.</summary>
    public void Fix(int activity, int mode)
    {
        if (chosen[activity].Length > 1)
            Model.AddBoolAnd([chosen[activity][mode]]);
    }

    /// <summary>The second starts when the first has ended, or later.</summary>
    public void Order(int first, int second) => Model.Add(starts[second] >= starts[first] + durations[first]);

    /// <summary>Tells the solver a whole schedule to begin from.</summary>
    public void Hint(int[] atStarts, int[] modes)
    {
        Model.Model.SolutionHint = new PartialVariableAssignment();
        void Add(IntVar variable, long value)
        {
            Model.Model.SolutionHint.Vars.Add(variable.GetIndex());
            Model.Model.SolutionHint.Values.Add(value);
        }

        for (int i = 0; i < starts.Length; i++)
        {
            Add(starts[i], atStarts[i]);
            for (int k = 0; k < chosen[i].Length; k++)
                Add(chosen[i][k], modes[i] == k ? 1 : 0);
        }

        Add(makespan, Enumerable.Range(0, starts.Length).Max(i => atStarts[i] + problem.Modes[i][modes[i]].Duration));
    }

    /// <summary>Starts and modes of a solution; the value function is that of the solver or of its callback.</summary>
    public (int[] Starts, int[] Modes) Read(Func<IntVar, long> value) => (
        [.. starts.Select(s => (int)value(s))],
        [.. chosen.Select(c => Math.Max(0, Array.FindIndex(c, b => value(b) == 1)))]);

    private bool Outlasts(int j, int i)
    {
        int distance = problem.Network.Distance(i, j);
        if (problem.HasModes)
            return problem.Source.Lags.Any(l => l.From == i && l.To == j && l.Edge == Edge.End && l.Length >= 0) && !Back(i, j);
        int overlap = distance + problem.ShortestDuration(j) - problem.ShortestDuration(i);
        return distance > Bounds.LagNetwork.None && (overlap > 0 || (overlap == 0 && (!Back(i, j) || j > i)));
    }

    private bool Back(int i, int j) => problem.Network.Distance(j, i) > Bounds.LagNetwork.None;

    private void Modes(int i)
    {
        ReducedMode[] modes = problem.Modes[i];
        chosen[i] = modes.Length == 1 ? [] : [.. modes.Select(_ => Model.NewBoolVar(""))];
        if (modes.Length > 1)
            Model.AddExactlyOne(chosen[i]);
        durations[i] = modes.Length == 1 ? LinearExpr.Constant(modes[0].Duration) : LinearExpr.WeightedSum(chosen[i], modes.Select(m => m.Duration));
    }

    private IntervalVar Interval(int i, int k)
    {
        if (!intervals.TryGetValue((i, k), out IntervalVar? known))
        {
            int duration = problem.Modes[i][k].Duration;
            known = intervals[(i, k)] = chosen[i].Length == 0
                ? Model.NewFixedSizeIntervalVar(starts[i], duration, "")
                : Model.NewOptionalFixedSizeIntervalVar(starts[i], duration, chosen[i][k], "");
        }

        return known;
    }

    private void Resources()
    {
        int count = problem.Count;
        for (int r = 0; r < problem.Resources; r++)
        {
            int capacity = problem.Source.Capacities[r];
            var users = Enumerable.Range(0, count).SelectMany(i => problem.Modes[i].Select((m, k) => (i, k, m.Duration, Units: m.Demands[r]))).Where(u => u.Units > 0 && u.Duration > 0).ToArray();
            if (users.GroupBy(u => u.i).Sum(g => (long)g.Max(u => u.Units)) <= capacity)
                continue;
            CumulativeConstraint use = Model.AddCumulative(capacity);
            foreach (var (i, k, _, units) in users)
                use.AddDemand(Interval(i, k), units);
        }
    }

    private void Stocks()
    {
        for (int s = 0; s < problem.Stocks.Length; s++)
        {
            var used = problem.Modes.Select((modes, i) => modes.Length == 1
                ? LinearExpr.Constant(modes[0].Consumes[s])
                : LinearExpr.WeightedSum(chosen[i], modes.Select(m => m.Consumes[s])));
            Model.Add(LinearExpr.Sum(used) <= problem.Stocks[s]);
        }
    }
}
