using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Work;

namespace Seamwright.Planning;

/// <summary>Searches the best schedule for a variation of one repair.</summary>
internal sealed class PlanSearch(PlanningCase planning, PlanOptions options)
{
    /// <summary>A schedule with its project; cost first, then the earliest ready moment. Null where there is none.</summary>
    public Found? Best(Variation variation, Found? start = null)
    {
        var project = ProjectBuilder.Build(planning, variation);
        if (project is null)
            return null;
        var outcome = Timed("cost", () => ProjectSolver.Solve(project.Project, Options([Goal.Cost], start?.Schedule)));
        if (outcome.Plan is not { } schedule)
            return null;
        var found = new Found(project, schedule, outcome is Outcome.Optimal, outcome.Goals[0].LowerBound ?? 0);
        return Earliest(found);
    }

    /// <summary>Cost alone: for questions of which only the money and the slot matter.</summary>
    public Found? Cheapest(Variation variation, Found? start = null, long? atMost = null)
    {
        var project = ProjectBuilder.Build(planning, variation);
        if (project is null)
            return null;
        var outcome = Timed("x", () => ProjectSolver.Solve(project.Project, Options([Goal.Cost], start?.Schedule) with { CostAtMost = atMost }));
        return outcome.Plan is { } schedule ? new Found(project, schedule, outcome is Outcome.Optimal, outcome.Goals[0].LowerBound ?? 0) : null;
    }

    /// <summary>Whether any schedule keeps the constraints; stops at the first.</summary>
    public bool IsPossible(Variation variation) => Cheapest(variation) is not null;

    /// <summary>The schedule that is ready for paint first; ties by cost.</summary>
    public Found? Fastest(Found start)
    {
        int ready = ReadyMoment.Of(start);
        var variation = new Variation { Aim = PlanAim.Fastest, TimesReady = true, ReadyAtMost = UpToGrid(ready) };
        var project = ProjectBuilder.Build(planning, variation);
        if (project is null)
            return null;
        var outcome = Timed("x", () => ProjectSolver.Solve(project.Project, Options([Goal.Earliest(ProjectBuilder.Ready), Goal.Cost], start.Schedule)));
        return outcome.Plan is { } schedule ? new Found(project, schedule, outcome is Outcome.Optimal, outcome.Goals[^1].LowerBound ?? 0) : null;
    }

    /// <summary>Among the schedules of the same cost and materials, the one that is ready first.</summary>
    private Found Earliest(Found found)
    {
        var variation = found.Project.Variation with
        {
            TimesReady = true,
            ReadyAtMost = UpToGrid(ReadyMoment.Of(found)),
            Forced = Materials(found),
        };
        var project = ProjectBuilder.Build(planning, variation);
        if (project is null)
            return found;
        var outcome = Timed("x", () => ProjectSolver.Solve(project.Project, Options([Goal.Earliest(ProjectBuilder.Ready), Goal.Earliest(ProjectBuilder.Deliver)], found.Schedule) with { CostAtMost = found.Schedule.Cost }));
        return outcome.Plan is { } schedule
            ? found with { Project = project, Schedule = schedule, Proven = found.Proven && outcome is Outcome.Optimal }
            : found;
    }

    private static T Timed<T>(string what, Func<T> f) { var w = System.Diagnostics.Stopwatch.StartNew(); var r = f(); if (Environment.GetEnvironmentVariable("SW_T") is not null) Console.Error.WriteLine($"{what} {w.ElapsedMilliseconds} ms"); return r; }

    private static ImmutableDictionary<PlaceId, MaterialId> Materials(Found found)
    {
        var chosen = found.Project.Variation.Forced.ToBuilder();
        foreach (var planned in found.Schedule.Activities)
        {
            if (planned is { Present: true, Mode: { } mode } && found.Project.Modes.TryGetValue((planned.Id, mode), out var meaning) && meaning.Option is { } option)
                chosen[option.Joint.Id] = option.Sheet.Id;
        }
        return chosen.ToImmutable();
    }

    private static int UpToGrid(int minute) => (minute + PlanTime.Grid - 1) / PlanTime.Grid * PlanTime.Grid;

    private SolveOptions Options(ImmutableArray<Goal> goals, Schedule? hint) => new()
    {
        Goals = goals,
        Seed = options.Seed,
        TimeLimit = options.TimeLimit.ToTimeSpan(),
        Deterministic = options.Deterministic,
        Workers = 1,
        Hint = hint,
    };
}

/// <summary>A schedule found for a project.</summary>
/// <param name="Project">The problem with its meanings.</param>
/// <param name="Schedule">The answer.</param>
/// <param name="Proven">Whether it is proven that none is better.</param>
/// <param name="Bound">Proven lower bound of the cost. [solver money]</param>
internal sealed record Found(RepairProject Project, Schedule Schedule, bool Proven, long Bound);
