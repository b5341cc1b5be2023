namespace Seamwright.Scheduling.Solving;

/// <summary>What a schedule costs, from the schedule alone.</summary>
internal static class ScheduleCost
{
    public static long Of(Project project, Schedule schedule)
    {
        long cost = 0;
        foreach (Activity activity in project.Activities)
        {
            PlannedActivity planned = schedule[activity.Id];
            if (planned.Present)
                cost += activity.Modes.First(m => m.Id == planned.Mode).Cost;
        }

        foreach (Batch batch in project.Batches)
        {
            PlannedBatch planned = schedule[batch.Id];
            if (!planned.Used)
                continue;
            cost += batch.Cost;
            if (batch.Crews.FirstOrDefault(c => c.Id == planned.Crew) is { } crew)
                cost += crew.Cost + (crew.CostPerMinute * (planned.End - planned.Start));
        }

        var drawn = schedule.Covers.Select(c => c.Lot).ToHashSet();
        cost += project.Lots.Where(l => drawn.Contains(l.Id)).Sum(l => l.Cost);
        cost += project.Unlocks.Where(u => schedule.Unlocked.Contains(u.Id)).Sum(u => u.Cost);
        foreach (Charge charge in project.Charges)
        {
            PlannedActivity planned = schedule[charge.Activity];
            int time = charge.Edge == Edge.Start ? planned.Start : planned.End;
            if (planned.Present)
                cost += charge.Amount.Steps.Where(s => s.From <= time).Select(s => s.Amount).LastOrDefault();
        }

        return cost;
    }
}
