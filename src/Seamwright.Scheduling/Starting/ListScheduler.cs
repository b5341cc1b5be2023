using System.Collections.Immutable;
using Seamwright.Scheduling.Solving;

namespace Seamwright.Scheduling;

/// <summary>
/// Serial schedule generation (Kolisch and Hartmann, in: Project Scheduling, ed. Weglarz, 1999, 147–178) with the choices of a known schedule:
/// its modes, batches and order are kept, and every piece of work is put at its earliest time beside what is already taken. Takes a fraction of
/// a millisecond where an exact search takes a hundred. It may find nothing where a schedule exists.
/// </summary>
public sealed class ListScheduler
{
    /// <summary>Maximum lags are kept by holding the earlier work back; after so many rounds it is given up.</summary>
    private const int Rounds = 24;

    private readonly Project _project;
    private readonly Schedule _pattern;
    private readonly ListUnits _units;

    private ListScheduler(Project project, Schedule pattern, ListUnits units) => (_project, _pattern, _units) = (project, pattern, units);

    /// <summary>Prepares a project for placing with the choices of a schedule.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="pattern">A schedule of this project or of one that has the same activities, modes and batches.</param>
    /// <returns>Null where the project has not all that the schedule uses.</returns>
    public static ListScheduler? For(Project project, Schedule pattern) =>
        ListUnits.Of(project, pattern) is { } units ? new ListScheduler(project, pattern, units) : null;

    /// <summary>Puts everything at its earliest time.</summary>
    /// <param name="taken">Minutes taken by others, ascending and not overlapping, for resources of capacity 1; runs that may overlap for the rest.</param>
    /// <param name="patience">A cheaper way of doing a piece of work is taken where it ends at most so much later. [minutes, 0 or more]</param>
    /// <returns>A schedule with its cost; null where none was found.</returns>
    public Schedule? Place(IReadOnlyDictionary<ResourceId, ImmutableArray<Window>> taken, int patience = 0)
    {
        ArgumentNullException.ThrowIfNull(taken);
        var floors = new int[_units.Count];
        for (int round = 0; round < Rounds; round++)
        {
            var placement = new ListPlacement(_project, _units, taken, floors, patience);
            if (!placement.Run())
                return null;
            if (placement.HoldBack(floors))
                continue;
            return Read(placement);
        }
        return null;
    }

    private Schedule? Read(ListPlacement placement)
    {
        var activities = ImmutableArray.CreateBuilder<PlannedActivity>(_project.Activities.Length);
        foreach (Activity activity in _project.Activities)
        {
            int unit = _units.UnitOf(activity.Id);
            if (unit < 0)
            {
                activities.Add(new PlannedActivity(activity.Id, false, null, -1, -1, null));
                continue;
            }
            PlannedActivity before = _pattern[activity.Id];
            ModeId mode = before.Batch is null ? placement.Way(unit).Mode!.Value : before.Mode!.Value;
            activities.Add(new PlannedActivity(activity.Id, true, mode, placement.Start(unit), placement.End(unit), before.Batch));
        }
        var batches = ImmutableArray.CreateBuilder<PlannedBatch>(_project.Batches.Length);
        foreach (Batch batch in _project.Batches)
        {
            int unit = _units.UnitOf(batch.Id);
            batches.Add(unit < 0
                ? new PlannedBatch(batch.Id, false, null, -1, -1)
                : new PlannedBatch(batch.Id, true, placement.Way(unit).Crew, placement.Start(unit), placement.End(unit)));
        }
        var bare = new Schedule(activities.ToImmutable(), batches.ToImmutable(), [], [], 0);
        var (covers, unlocked) = LotCovers.For(_project, bare);
        if (covers.IsDefault)
            return null;
        var priced = new Schedule(bare.Activities, bare.Batches, covers, unlocked, 0);
        return new Schedule(bare.Activities, bare.Batches, covers, unlocked, ScheduleCost.Of(_project, priced));
    }
}
