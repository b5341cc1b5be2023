using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>
/// Modes and batches that cost little, time left aside: a pattern for <see cref="ListScheduler"/> where no schedule is known yet. Every
/// activity takes its cheapest mode, then single activities and whole batches change over as long as that saves money. Takes
/// about a millisecond where an exact search takes tens. What it finds need not be the cheapest, and time may still forbid it; only modes from which
/// the latest start of what follows cannot be reached at all are left out.
/// </summary>
public static class CheapestChoices
{
    /// <summary>Descents end long before; a limit keeps the time bounded.</summary>
    private const int Passes = 8;

    /// <summary>Finds a pattern.</summary>
    /// <param name="project">A project without mistakes.</param>
    /// <param name="spare">Minutes taken to pass before the first work. The more, the sooner ready what is chosen. [minutes, 0 or more]</param>
    /// <returns>Choices without times (every start is 0); null where what the lots hold or the batches take is not enough for what was tried.</returns>
    public static Schedule? Of(Project project, int spare = 0)
    {
        ArgumentNullException.ThrowIfNull(project);
        var priced = new ChoicePrices(project, spare);
        int[] chosen = [.. Enumerable.Range(0, project.Activities.Length).Select(activity => Cheapest(priced, activity))];
        long? cost = priced.Cost(chosen);
        for (int pass = 0; pass < Passes; pass++)
        {
            long? before = cost;
            cost = ChangeOne(priced, chosen, cost);
            cost = Gather(priced, chosen, cost);
            if (cost == before)
                break;
        }
        return cost is null ? null : Read(priced, chosen);
    }

    private static int Cheapest(ChoicePrices priced, int activity)
    {
        int best = -1;
        for (int i = 0; i < priced.Project.Activities[activity].Modes.Length; i++)
        {
            if (priced.MayBeInTime(activity, i) && (best < 0 || priced.Alone(activity, i) < priced.Alone(activity, best)))
                best = i;
        }
        return Math.Max(best, 0);
    }

    private static long? ChangeOne(ChoicePrices priced, int[] chosen, long? cost)
    {
        for (int i = 0; i < chosen.Length; i++)
        {
            if (!priced.Present(chosen)[i])
                continue;
            for (int mode = 0; mode < priced.Project.Activities[i].Modes.Length; mode++)
            {
                int before = chosen[i];
                // A dearer mode can only pay where a batch is left empty by it, or where the first choices are not possible at all.
                if (mode == before || (cost is not null && !priced.IsLast(i, chosen) && priced.Alone(i, mode) >= priced.Alone(i, before)))
                    continue;
                chosen[i] = mode;
                if (priced.Cost(chosen) is { } now && (cost is null || now < cost))
                    cost = now;
                else
                    chosen[i] = before;
            }
        }
        return cost;
    }

    /// <summary>Gathers in one batch all that may join it, or those of one other batch: no single member would save a set-up.</summary>
    private static long? Gather(ChoicePrices priced, int[] chosen, long? cost)
    {
        var batches = priced.Project.Batches;
        foreach (Batch into in batches)
        {
            foreach (BatchId? from in batches.Where(batch => batch != into && priced.IsUsed(batch.Id, chosen)).Select(batch => (BatchId?)batch.Id).Append(null).ToList())
            {
                int[] moved = [.. chosen];
                if (Move(priced.Project, moved, from, into.Id) && priced.Cost(moved) is { } now && (cost is null || now < cost))
                {
                    moved.CopyTo(chosen, 0);
                    cost = now;
                }
            }
        }
        return cost;
    }

    /// <summary>Whatever may join a batch does; only the members of one other where that is given.</summary>
    private static bool Move(Project project, int[] chosen, BatchId? from, BatchId into)
    {
        bool any = false;
        for (int i = 0; i < chosen.Length; i++)
        {
            var modes = project.Activities[i].Modes;
            if (modes[chosen[i]].Batch is not { } now || now == into || (from is not null && now != from))
                continue;
            int mode = modes.IndexOf(modes.FirstOrDefault(candidate => candidate.Batch == into)!);
            if (mode < 0)
                continue;
            chosen[i] = mode;
            any = true;
        }
        return any;
    }

    private static Schedule Read(ChoicePrices priced, int[] chosen)
    {
        Project project = priced.Project;
        bool[] present = priced.Present(chosen);
        var used = new HashSet<BatchId>();
        var activities = ImmutableArray.CreateBuilder<PlannedActivity>(chosen.Length);
        for (int i = 0; i < chosen.Length; i++)
        {
            Activity activity = project.Activities[i];
            Mode mode = activity.Modes[chosen[i]];
            if (present[i] && mode.Batch is { } joined)
                used.Add(joined);
            activities.Add(present[i]
                ? new PlannedActivity(activity.Id, true, mode.Id, 0, mode.Duration, mode.Batch)
                : new PlannedActivity(activity.Id, false, null, -1, -1, null));
        }
        var batches = project.Batches.Select(batch => used.Contains(batch.Id)
            ? new PlannedBatch(batch.Id, true, batch.Crews.IsEmpty ? null : batch.Crews.MinBy(crew => crew.CostPerMinute)!.Id, 0, batch.Setup)
            : new PlannedBatch(batch.Id, false, null, -1, -1));
        return new Schedule(activities.ToImmutable(), [.. batches], [], [], 0);
    }
}
