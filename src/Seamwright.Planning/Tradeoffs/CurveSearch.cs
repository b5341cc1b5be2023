using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;

namespace Seamwright.Planning.Tradeoffs;

/// <summary>
/// Goes along the curve from the least spending: a plan that is ready at the latest five minutes before the one found last, the cheapest such plan, then the
/// earliest that costs no more; until nothing is ready so early (the epsilon-constraint method). Slots are looked at one by one, as for a single plan.
/// </summary>
internal sealed class CurveSearch(PlanningCase planning, PlanOptions options)
{
    /// <summary>A curve of more points than this is cut off: nobody reads it.</summary>
    private const int MostPoints = 60;

    private bool _proven = true;

    /// <summary>True where it is proven that no plan is ready before the last point.</summary>
    public bool IsComplete { get; private set; }

    private IEnumerable<int?> Slots => planning.Repair.PaintSlots.IsEmpty ? [null] : Enumerable.Range(0, planning.Repair.PaintSlots.Length).Select(slot => (int?)slot);

    /// <summary>The points, from the cheapest to the earliest.</summary>
    public List<Found> Points()
    {
        var points = new List<Found>();
        Found? last = null;
        while (points.Count < MostPoints)
        {
            int? readyBy = last is null ? null : UpToGrid(ReadyMoment.Of(last)) - PlanTime.Grid;
            _proven = true;
            if (readyBy < 0 || Cheapest(readyBy, last) is not { } cheapest)
            {
                IsComplete = _proven;
                return points;
            }
            last = Earliest(cheapest) with { Proven = _proven, Bound = cheapest.Bound };
            points.Add(last);
        }
        return points;
    }

    private Found? Cheapest(int? readyBy, Found? start)
    {
        Found? best = null;
        foreach (int? slot in Slots)
        {
            var project = Build(slot, readyBy);
            if (project is null || (best is not null && CostBounds.WithoutTime(project.Project) >= best.Schedule.Cost))
                continue;
            var outcome = ProjectSolver.Solve(project.Project, Options([Goal.Cost], (best ?? start)?.Schedule) with { CostAtMost = best?.Schedule.Cost - 1 });
            _proven &= outcome is Outcome.Optimal or Outcome.Infeasible;
            if (outcome.Plan is { } schedule)
                best = new Found(project, schedule, Proven: false, Lowest(best, outcome));
        }
        return best;
    }

    /// <summary>Another slot that costs less has a bound of its own; the least of all holds.</summary>
    private static long Lowest(Found? best, Outcome outcome)
    {
        long bound = outcome.Goals[0].LowerBound ?? 0;
        return best is null ? bound : Math.Min(best.Bound, bound);
    }

    /// <summary>Of everything that costs no more, the schedule that is ready, then handed over, first: whatever its materials and slot.</summary>
    private Found Earliest(Found cheapest)
    {
        var best = cheapest;
        foreach (int? slot in Slots)
        {
            if (Build(slot, UpToGrid(ReadyMoment.Of(best)), timesReady: true) is not { } project)
                continue;
            var goals = ImmutableArray.Create(Goal.Earliest(ProjectBuilder.Ready), Goal.Earliest(ProjectBuilder.Deliver));
            var outcome = ProjectSolver.Solve(project.Project, Options(goals, best.Schedule) with { CostAtMost = cheapest.Schedule.Cost });
            _proven &= outcome is Outcome.Optimal or Outcome.Infeasible;
            if (outcome.Plan is { } schedule && new Found(project, schedule, false, 0) is var found && (best == cheapest || When(found).CompareTo(When(best)) < 0))
                best = found;
        }
        return best;
    }

    private static (int Ready, int Delivered) When(Found found) => (UpToGrid(ReadyMoment.Of(found)), found.Schedule[ProjectBuilder.Deliver].Start);

    private RepairProject? Build(int? slot, int? readyBy, bool timesReady = false) => ProjectBuilder.Build(planning, new Variation
    {
        SpendingOnly = true,
        Slot = slot,
        TimesReady = timesReady || readyBy is not null,
        ReadyAtMost = readyBy,
        LampCuresSeals = planning.Shop.Lamps is not null,
    });

    private static int UpToGrid(int minute) => (minute + PlanTime.Grid - 1) / PlanTime.Grid * PlanTime.Grid;

    private SolveOptions Options(ImmutableArray<Goal> goals, Schedule? hint) => new()
    {
        Goals = goals,
        Seed = options.Seed,
        TimeLimit = options.TimeLimit.ToTimeSpan(),
        Deterministic = options.Deterministic,
        Workers = 1,
        Hint = hint,
        Trusted = PlanSearch.Trusted,
    };
}
