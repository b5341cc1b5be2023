using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Work;

namespace Seamwright.Planning;

/// <summary>
/// Searches the best schedule for a variation of one repair. Paint slots are looked at one by one: with the slot fixed, every cure becomes a
/// latest end, and the model is proven several times faster. A slot whose bay days and least costs alone reach the best plan so far is left out.
/// </summary>
internal sealed class PlanSearch(PlanningCase planning, PlanOptions options)
{
    /// <summary>For the fastest plan lamps on seals are tried on repairs of up to this many joints: each joint brings a session of its own.</summary>
    private const int FewJoints = 6;

    /// <summary>
    /// Whether the solver may take what the mapping builds as valid. While developing and testing every problem is checked; in use the check
    /// would be a tenth of the time of an answer.
    /// </summary>
    internal const bool Trusted =
#if DEBUG
        false;
#else
        true;
#endif

    /// <summary>A schedule with its project; cost first, then the earliest ready moment and hand-over. Null where there is none.</summary>
    public Found? Best(Variation variation, Found? start = null) => Cheapest(variation, start) is { } found ? Earliest(found) : null;

    /// <summary>Cost alone: for questions of which only the money and the slot matter. Null where there is none.</summary>
    /// <param name="variation">What is asked.</param>
    /// <param name="start">A schedule to start from, possibly of another variation.</param>
    public Found? Cheapest(Variation variation, Found? start = null)
    {
        Found? best = null;
        bool proven = true;
        bool reachedWithout = false;
        foreach (int? slot in Slots(variation))
        {
            // A lamp on a seal only buys time, so it is asked for where neither this slot nor an earlier one is reached without.
            foreach (bool lamps in planning.Shop.Lamps is null || variation.WithoutLamp || reachedWithout ? (ReadOnlySpan<bool>)[false] : [false, true])
            {
                var project = ProjectBuilder.Build(planning, variation with { Slot = slot, LampCuresSeals = lamps });
                if (project is null)
                    return null;
                if (best is not null && CostBounds.WithoutTime(project.Project) >= best.Schedule.Cost)
                    break;
                if (lamps && !project.Batches.Values.Any(batch => batch.Heat == HeatUse.After))
                    break;
                var outcome = ProjectSolver.Solve(project.Project, Options([Goal.Cost], (best ?? start)?.Schedule) with { CostAtMost = best?.Schedule.Cost - 1 });
                proven &= outcome is Outcome.Optimal or Outcome.Infeasible;
                reachedWithout |= outcome.Plan is not null && !lamps;
                if (outcome.Plan is { } schedule)
                {
                    best = new Found(project, schedule, Proven: false, outcome.Goals[0].LowerBound ?? 0);
                    break;
                }
            }
        }
        return best is null ? null : best with { Proven = proven };
    }

    /// <summary>The schedule that is ready for paint first; ties by cost. Never later than the one to start from.</summary>
    public Found? Fastest(Found start)
    {
        var best = start;
        bool proven = true;
        foreach (int? slot in Slots(start.Project.Variation).Where(slot => slot is null || slot <= start.Project.Variation.Slot))
        {
            var variation = new Variation { Aim = PlanAim.Fastest, TimesReady = true, ReadyAtMost = UpToGrid(ReadyMoment.Of(best)), Slot = slot, LampCuresSeals = planning.Joints.Length <= FewJoints };
            if (ProjectBuilder.Build(planning, variation) is not { } project)
                continue;
            var outcome = ProjectSolver.Solve(project.Project, Options([Goal.Earliest(ProjectBuilder.Ready), Goal.Cost], best.Schedule));
            proven &= outcome is Outcome.Optimal or Outcome.Infeasible;
            if (outcome.Plan is { } schedule)
                best = new Found(project, schedule, Proven: false, outcome.Goals[^1].LowerBound ?? 0);
        }
        return best with { Proven = proven };
    }

    /// <summary>Among the schedules of the same cost and materials, the one that is ready, and then handed over, first.</summary>
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
        var goals = ImmutableArray.Create(Goal.Earliest(ProjectBuilder.Ready), Goal.Earliest(ProjectBuilder.Deliver));
        var outcome = ProjectSolver.Solve(project.Project, Options(goals, found.Schedule) with { CostAtMost = found.Schedule.Cost });
        return outcome.Plan is { } schedule
            ? found with { Project = project, Schedule = schedule, Proven = found.Proven && outcome is Outcome.Optimal }
            : found;
    }

    /// <summary>The slots one by one; all at once where the slots themselves are set aside.</summary>
    private IEnumerable<int?> Slots(Variation variation) =>
        variation.IsSetAside(FactIds.Slots) || planning.Repair.PaintSlots.IsEmpty ? [null] : Enumerable.Range(0, planning.Repair.PaintSlots.Length).Select(slot => (int?)slot);

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
        Trusted = Trusted,
    };
}

/// <summary>A schedule found for a project.</summary>
/// <param name="Project">The problem with its meanings.</param>
/// <param name="Schedule">The answer.</param>
/// <param name="Proven">Whether it is proven that none is better.</param>
/// <param name="Bound">Proven lower bound of the cost. [solver money]</param>
internal sealed record Found(RepairProject Project, Schedule Schedule, bool Proven, long Bound);
