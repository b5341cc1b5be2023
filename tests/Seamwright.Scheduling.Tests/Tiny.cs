using System.Collections.Immutable;
using Xunit;

namespace Seamwright.Scheduling.Tests;

/// <summary>Short words for hand-made projects: ids are the texts themselves.</summary>
internal static class Tiny
{
    public static Activity Activity(string id, params Mode[] modes) => new() { Id = new ActivityId(id), Modes = [.. modes] };

    public static Mode Alone(string id, int duration, long cost = 0, string? needs = null, params Window[] starts) => new()
    {
        Id = new ModeId(id),
        Duration = duration,
        Cost = cost,
        Demands = needs is null ? [] : [new Demand(new ResourceId(needs))],
        Starts = [.. starts],
    };

    public static Mode In(string batch, int work, long cost = 0) => new() { Id = new ModeId(batch), Batch = new BatchId(batch), Work = work, Cost = cost };

    public static Resource Resource(string id, params Window[] open) => new() { Id = new ResourceId(id), Open = [.. open] };

    public static Crew Crew(string id, string needs, long perMinute = 0, long cost = 0) =>
        new() { Id = new CrewId(id), Demands = [new Demand(new ResourceId(needs))], CostPerMinute = perMinute, Cost = cost };

    public static Lag Lag(TimePoint from, TimePoint to, int minutes, LagKind kind = LagKind.Minimum) =>
        new() { From = from, To = to, Delay = new Delay.Fixed(minutes), Kind = kind };

    public static Lag Lag(TimePoint from, TimePoint to, TimeFunction function, LagKind kind = LagKind.Minimum) =>
        new() { From = from, To = to, Delay = new Delay.ByTime(function), Kind = kind };

    public static TimePoint StartOf(string activity) => TimePoint.StartOf(new ActivityId(activity));

    public static TimePoint EndOf(string activity) => TimePoint.EndOf(new ActivityId(activity));

    public static ImmutableArray<ModeId> Modes(params string[] ids) => [.. ids.Select(i => new ModeId(i))];

    /// <summary>One money unit for each minute of the edge, counted in steps of the grid.</summary>
    public static Charge PerMinute(string activity, Edge edge, int horizon, int step = 5, int each = 5) => new()
    {
        Activity = new ActivityId(activity),
        Edge = edge,
        Amount = new StepFunction([.. Enumerable.Range(1, horizon / step).Select(i => new Step(i * step, (long)i * each))]),
    };

    public static SolveOptions Goals(params Goal[] goals) => new() { Goals = [.. goals], TimeLimit = TimeSpan.FromSeconds(60) };

    /// <summary>Solves to the proven optimum and lets the independent checker look at it.</summary>
    public static Outcome.Optimal Solved(Project project, SolveOptions? options = null)
    {
        Outcome outcome = ProjectSolver.Solve(project, options ?? Goals(Goal.Cost));
        var optimal = Assert.IsType<Outcome.Optimal>(outcome);
        Assert.Empty(ScheduleChecker.Check(project, optimal.Schedule));
        Assert.All(optimal.Goals, g => Assert.True(g.Proven));
        return optimal;
    }

    public static PlannedActivity Of(this Outcome.Optimal outcome, string activity) => outcome.Schedule[new ActivityId(activity)];
}
