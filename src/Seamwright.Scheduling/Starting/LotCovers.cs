using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>Covers what a schedule consumes, in the order of time: what is there first, what ends soonest first.</summary>
internal static class LotCovers
{
    /// <returns>Covers and what is unlocked for them; covers not set (<c>IsDefault</c>) where something is missing.</returns>
    public static (ImmutableArray<Cover> Covers, ImmutableArray<UnlockId> Unlocked) For(Project project, Schedule schedule)
    {
        var left = project.Lots.ToDictionary(lot => lot.Id, lot => lot.Amount);
        var order = project.Lots.OrderBy(lot => lot.Unlock is not null).ThenBy(lot => lot.Usable.To).ToList();
        var covers = ImmutableArray.CreateBuilder<Cover>();
        foreach (var (start, activity, batch, consumption) in Asked(project, schedule).OrderBy(asked => asked.Start))
        {
            int open = consumption.Amount;
            foreach (Lot lot in order)
            {
                if (open == 0)
                    break;
                if (left[lot.Id] == 0 || !lot.Usable.Contains(start) || !lot.Serves.Contains(consumption.Consumable))
                    continue;
                int amount = Math.Min(open, left[lot.Id]);
                left[lot.Id] -= amount;
                open -= amount;
                covers.Add(new Cover(lot.Id, consumption.Consumable, activity, batch, amount));
            }
            if (open > 0)
                return (default, []);
        }
        var used = covers.Select(cover => cover.Lot).ToHashSet();
        var needed = project.Lots.Where(lot => lot.Unlock is not null && used.Contains(lot.Id)).Select(lot => lot.Unlock!.Value).ToHashSet();
        return (covers.ToImmutable(), [.. project.Unlocks.Select(unlock => unlock.Id).Where(needed.Contains)]);
    }

    private static IEnumerable<(int Start, ActivityId? Activity, BatchId? Batch, Consumption Consumption)> Asked(Project project, Schedule schedule)
    {
        foreach (Activity activity in project.Activities)
        {
            if (schedule[activity.Id] is not { Present: true } planned)
                continue;
            foreach (Consumption consumption in activity.Modes.First(mode => mode.Id == planned.Mode).Consumes)
                yield return (planned.Start, activity.Id, null, consumption);
        }
        foreach (Batch batch in project.Batches)
        {
            if (schedule[batch.Id] is not { Used: true } planned)
                continue;
            foreach (Consumption consumption in batch.Consumes)
                yield return (planned.Start, null, batch.Id, consumption);
        }
    }
}
