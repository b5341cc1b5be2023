using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace Seamwright.Scheduling.Solving;

/// <summary>The whole solver model of a project for one goal.</summary>
internal sealed class ProjectModel
{
    private readonly List<LinearExpr> costs = [];
    private long constantCost;

    private ProjectModel(Project project, IReadOnlyDictionary<ActivityId, int> latestStarts, int tolerance, FunctionValues values)
    {
        (Project, LatestStarts, Tolerance, Values) = (project, latestStarts, tolerance, values);
        Calendar = new Calendar(project);
        Times = new TimePoints(Hinted);
    }

    public Project Project { get; }

    public HintedModel Hinted { get; } = new();

    public CpModel Model => Hinted.Model;

    public Calendar Calendar { get; }

    public TimePoints Times { get; }

    public int Tolerance { get; }

    public FunctionValues Values { get; }

    public Dictionary<BatchId, BatchVariables> Batches { get; } = [];

    /// <summary>One entry per activity; identical activities share theirs.</summary>
    public Dictionary<ActivityId, ActivityVariables> Activities { get; } = [];

    /// <summary>Each once, in the project's order.</summary>
    public List<ActivityVariables> Groups { get; } = [];

    public LotModel Lots { get; private set; } = null!;

    private IReadOnlyDictionary<ActivityId, int> LatestStarts { get; }

    /// <param name="project">A valid project.</param>
    /// <param name="goals">Goals so far with the values to keep; the last one, without a value, is to be minimised.</param>
    /// <param name="costAtMost">A limit on the cost, or none.</param>
    /// <param name="latestStarts">Known upper bounds on starts.</param>
    /// <param name="tolerance">How inexact a time-dependent delay may be. [minutes]</param>
    /// <param name="values">Values of time functions found so far.</param>
    public static ProjectModel Build(
        Project project, IReadOnlyList<(Goal Goal, long? Keep)> goals, long? costAtMost, IReadOnlyDictionary<ActivityId, int> latestStarts, int tolerance, FunctionValues values)
    {
        var model = new ProjectModel(project, latestStarts, tolerance, values);
        model.AddBatches();
        model.AddActivities(goals.Select(g => g.Goal).OfType<Goal.EarliestStart>().Select(g => g.Activity));
        BatchConstraints.Add(model);
        PresenceConstraints.Add(model);
        ResourceConstraints.Add(model);
        LagConstraints.Add(model);
        SymmetryConstraints.Add(model);
        model.Lots = LotModel.Add(model);
        ChargeModel.Add(model);
        model.AddGoals(goals, costAtMost);
        return model;
    }

    public void AddCost(LinearExpr amount) => costs.Add(amount);

    public void AddCost(ILiteral? literal, long amount)
    {
        if (literal is null)
            constantCost += amount;
        else if (amount != 0)
            costs.Add(LinearExpr.Term(literal, amount));
    }

    /// <summary>What the objective leaves out because it is the same in every schedule. [money units]</summary>
    public long ConstantCost => constantCost;

    private void AddBatches()
    {
        var joins = Project.Batches.ToDictionary(b => b.Id, _ => new List<(ActivityId, int)>());
        foreach (Activity activity in Project.Activities)
        {
            foreach (Mode mode in activity.Modes)
            {
                if (mode.Batch is { } joined)
                    joins[joined].Add((activity.Id, mode.Work));
            }
        }

        foreach (Batch batch in Project.Batches)
            Batches[batch.Id] = BatchVariables.Create(Hinted, Project, Calendar, batch, joins[batch.Id]);
    }

    private void AddActivities(IEnumerable<ActivityId> keepApart)
    {
        foreach (List<Activity> group in IdenticalActivities.Groups(Project, keepApart))
        {
            int? latest = LatestStarts.TryGetValue(group[0].Id, out int start) ? start : null;
            ActivityVariables variables = ActivityVariables.Create(Hinted, Project, Calendar, group, Batches, latest);
            Groups.Add(variables);
            foreach (Activity member in group)
                Activities[member.Id] = variables;
            for (int k = 0; k < variables.Chosen.Length; k++)
                AddMode(variables, k);
        }
    }

    private void AddMode(ActivityVariables variables, int k)
    {
        Mode mode = variables.Data.Modes[k];
        if (mode.Cost != 0 && variables.Chosen[k] is null)
            constantCost += mode.Cost * variables.Count;
        else if (mode.Cost != 0)
            costs.Add(variables.Counts[k] * mode.Cost);
        if (variables.Batches[k] is not { } batch)
            return;
        batch.Members.Add(variables.Chosen[k]);
        batch.Modes.Add((mode, variables.Chosen[k]));
        if (mode.Work != 0)
            batch.Work.Add(variables.Counts[k] * mode.Work);
        if (mode.Load != 0)
            batch.Load.Add(variables.Counts[k] * mode.Load);
    }

    private void AddGoals(IReadOnlyList<(Goal Goal, long? Keep)> goals, long? costAtMost)
    {
        LinearExpr cost = LinearExpr.Sum(costs);
        if (costAtMost is { } most)
            Model.Add(cost <= most - constantCost);
        foreach ((Goal goal, long? keep) in goals)
        {
            LinearExpr value = goal is Goal.EarliestStart earliest ? StartOf(earliest.Activity) : cost;
            long constant = goal is Goal.EarliestStart ? 0 : constantCost;
            if (keep is { } limit)
                Model.Add(value <= limit - constant);
            else
                Model.Minimize(value);
        }
    }

    private LinearExpr StartOf(ActivityId activity)
    {
        var points = Activities[activity].Points(Hinted, Edge.Start).ToList();
        if (points is [(var only, null, _)])
            return only.Minutes;
        IntVar start = Hinted.Int(0, Project.Horizon, h => h.Schedule.Find(activity)?.Start);
        foreach ((TimeExpression time, ILiteral? applies, _) in points)
            Model.Add(start >= time.Minutes).When(applies);
        return start;
    }
}

internal static class Enforcement
{
    /// <summary>Enforces a constraint only if all literals hold; null stands for one that always does.</summary>
    public static void When(this Constraint constraint, params ReadOnlySpan<ILiteral?> literals)
    {
        var needed = new List<ILiteral>();
        foreach (ILiteral? literal in literals)
        {
            if (literal is not null && !needed.Any(n => n.GetIndex() == literal.GetIndex()))
                needed.Add(literal);
        }

        if (needed.Count > 0)
            constraint.OnlyEnforceIf([.. needed]);
    }
}
