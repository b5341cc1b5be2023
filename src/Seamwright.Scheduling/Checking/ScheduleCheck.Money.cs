namespace Seamwright.Scheduling;

/// <summary>The part about lots and money.</summary>
internal sealed partial class ScheduleCheck
{
    private void CheckLots()
    {
        foreach (Activity activity in project.Activities)
        {
            foreach (Consumption consumption in ModeOf(activity.Id)?.Consumes ?? [])
                CheckCovered($"Activity {activity.Id}", consumption, schedule.Covers.Where(c => c.Activity == activity.Id && c.Batch is null), Entry(activity.Id).Start);
        }

        foreach (Batch batch in project.Batches.Where(b => Entry(b.Id).Used))
        {
            foreach (Consumption consumption in batch.Consumes)
                CheckCovered($"Batch {batch.Id}", consumption, schedule.Covers.Where(c => c.Batch == batch.Id && c.Activity is null), Entry(batch.Id).Start);
        }

        foreach (Lot lot in project.Lots)
        {
            long taken = schedule.Covers.Where(c => c.Lot == lot.Id).Sum(c => (long)c.Amount);
            Refuse(taken > lot.Amount, $"Lot {lot.Id} holds {lot.Amount}; {taken} are taken.");
            if (lot.Unlock is { } unlock && taken > 0)
                Refuse(!schedule.Unlocked.Contains(unlock), $"Lot {lot.Id} is used, but {unlock} is not paid for.");
        }

        foreach (Cover cover in schedule.Covers)
            CheckCover(cover);
        foreach (UnlockId unlock in schedule.Unlocked)
            Refuse(!project.Unlocks.Any(u => u.Id == unlock) || schedule.Unlocked.Count(u => u == unlock) > 1, $"Unlock {unlock} is unknown or listed twice.");
    }

    private void CheckCovered(string name, Consumption consumption, IEnumerable<Cover> covers, int start)
    {
        List<Cover> own = [.. covers.Where(c => c.Consumable == consumption.Consumable)];
        long covered = own.Sum(c => (long)c.Amount);
        Refuse(covered != consumption.Amount, $"{name} consumes {consumption.Amount} of {consumption.Consumable}; lots cover {covered}.");
        foreach (Cover cover in own)
        {
            Lot? lot = project.Lots.FirstOrDefault(l => l.Id == cover.Lot);
            Refuse(lot is not null && (start < lot.Usable.From || start >= lot.Usable.To), $"{name} starts at {start}; lot {cover.Lot} is usable in [{lot?.Usable.From}, {lot?.Usable.To}).");
        }
    }

    private void CheckCover(Cover cover)
    {
        Lot? lot = project.Lots.FirstOrDefault(l => l.Id == cover.Lot);
        Refuse(lot is null, $"There is no lot {cover.Lot}.");
        Refuse(lot is not null && !lot.Serves.Contains(cover.Consumable), $"Lot {cover.Lot} does not serve {cover.Consumable}.");
        Refuse(cover.Amount < 1, $"Lot {cover.Lot} covers {cover.Amount}; an entry must be 1 or more.");
        bool asked = cover switch
        {
            { Activity: { } a, Batch: null } => schedule.Find(a) is not null && (ModeOf(a)?.Consumes ?? []).Any(c => c.Consumable == cover.Consumable),
            { Activity: null, Batch: { } b } => schedule.Find(b) is { Used: true } && project.Batches.Single(x => x.Id == b).Consumes.Any(c => c.Consumable == cover.Consumable),
            _ => false,
        };
        Refuse(!asked, $"Lot {cover.Lot} covers {cover.Consumable} that {cover.Activity}{cover.Batch} does not consume.");
    }

    private long Cost()
    {
        long modes = project.Activities.Sum(a => ModeOf(a.Id)?.Cost ?? 0);
        long batches = 0;
        foreach (Batch batch in project.Batches)
        {
            PlannedBatch entry = Entry(batch.Id);
            if (!entry.Used)
                continue;
            batches += batch.Cost;
            if (batch.Crews.SingleOrDefault(c => c.Id == entry.Crew) is { } crew)
                batches += crew.Cost + (crew.CostPerMinute * (entry.End - entry.Start));
        }

        long lots = project.Lots.Where(l => schedule.Covers.Any(c => c.Lot == l.Id)).Sum(l => l.Cost);
        long unlocks = project.Unlocks.Where(u => schedule.Unlocked.Contains(u.Id)).Sum(u => u.Cost);
        long charges = project.Charges.Where(c => Entry(c.Activity).Present).Sum(ChargeOf);
        return modes + batches + lots + unlocks + charges;
    }

    private long ChargeOf(Charge charge)
    {
        int time = charge.Edge == Edge.Start ? Entry(charge.Activity).Start : Entry(charge.Activity).End;
        long amount = 0;
        foreach (Step step in charge.Amount.Steps)
            amount = time >= step.From ? step.Amount : amount;
        return amount;
    }
}
