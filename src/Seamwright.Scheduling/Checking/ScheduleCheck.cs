namespace Seamwright.Scheduling;

/// <summary>One pass over a schedule. Everything is looked at minute by minute or one by one, slowly and plainly.</summary>
internal sealed partial class ScheduleCheck(Project project, Schedule schedule)
{
    public List<string> Violations { get; } = [];

    public void Run()
    {
        if (!HasOneEntryEach())
            return;
        foreach (Activity activity in project.Activities)
            CheckActivity(activity);
        foreach (Batch batch in project.Batches)
            CheckBatch(batch);
        if (Violations.Count > 0)
            return;     // the rest reads modes and times that are now known to make no sense

        CheckResources();
        foreach (Lag lag in project.Lags)
            CheckLag(lag);
        foreach (ConditionalWindow window in project.ConditionalWindows)
            CheckConditionalWindow(window);
        CheckLots();
        long cost = Cost();
        Refuse(cost != schedule.Cost, $"The schedule says that it costs {schedule.Cost}; it costs {cost}.");
    }

    private bool HasOneEntryEach()
    {
        foreach (Activity activity in project.Activities)
            Refuse(schedule.Activities.Count(a => a.Id == activity.Id) != 1, $"Activity {activity.Id} must have exactly one entry.");
        foreach (Batch batch in project.Batches)
            Refuse(schedule.Batches.Count(b => b.Id == batch.Id) != 1, $"Batch {batch.Id} must have exactly one entry.");
        foreach (PlannedActivity entry in schedule.Activities)
            Refuse(!project.Activities.Any(a => a.Id == entry.Id), $"The project has no activity {entry.Id}.");
        foreach (PlannedBatch entry in schedule.Batches)
            Refuse(!project.Batches.Any(b => b.Id == entry.Id), $"The project has no batch {entry.Id}.");
        return Violations.Count == 0;
    }

    private void CheckActivity(Activity activity)
    {
        PlannedActivity entry = Entry(activity.Id);
        bool wanted = activity.PresentWhen.Length == 0;
        foreach (Trigger trigger in activity.PresentWhen)
        {
            if (trigger is Trigger.BatchUsed used)
                wanted |= Entry(used.Batch).Used;
            if (trigger is Trigger.InMode inMode)
                wanted |= IsIn(inMode.Activity, inMode.Modes);
        }

        Refuse(entry.Present != wanted, $"Activity {activity.Id} is {(entry.Present ? "present" : "absent")}; it must be {(wanted ? "present" : "absent")}.");
        if (!entry.Present)
            return;

        Mode? mode = activity.Modes.SingleOrDefault(m => m.Id == entry.Mode);
        if (mode is null)
        {
            Refuse(true, $"Activity {activity.Id} has no mode {entry.Mode}.");
            return;
        }

        Refuse(entry.Batch != mode.Batch, $"Activity {activity.Id} is in batch {entry.Batch}; its mode {mode.Id} says {mode.Batch}.");
        Refuse(mode.Starts.Length > 0 && !mode.Starts.Any(w => w.From <= entry.Start && entry.Start < w.To), $"Activity {activity.Id} starts at {entry.Start}, outside the starts allowed in mode {mode.Id}.");
        if (mode.Batch is { } batch)
        {
            PlannedBatch host = Entry(batch);
            Refuse(!host.Used || host.Start != entry.Start || host.End != entry.End, $"Activity {activity.Id} [{entry.Start}, {entry.End}) does not lie on its batch {batch} [{host.Start}, {host.End}).");
            return;
        }

        Refuse(entry.End - entry.Start != mode.Duration, $"Activity {activity.Id} lasts {entry.End - entry.Start} minutes; mode {mode.Id} lasts {mode.Duration}.");
        CheckTimes($"Activity {activity.Id}", entry.Start, entry.End);
        foreach (Demand demand in mode.Demands)
            CheckInsideOneWindow($"Activity {activity.Id}", demand, entry.Start, entry.End);
    }

    private void CheckBatch(Batch batch)
    {
        PlannedBatch entry = Entry(batch.Id);
        var members = new List<Mode>();
        foreach (Activity activity in project.Activities)
        {
            PlannedActivity planned = Entry(activity.Id);
            if (planned.Present && activity.Modes.SingleOrDefault(m => m.Id == planned.Mode) is { } mode && mode.Batch == batch.Id)
                members.Add(mode);
        }

        Refuse(entry.Used != members.Count > 0, $"Batch {batch.Id} is {(entry.Used ? "used" : "unused")} with {members.Count} members.");
        if (!entry.Used)
            return;

        int work = members.Sum(m => m.Work);
        Refuse(entry.End - entry.Start != batch.Setup + work, $"Batch {batch.Id} lasts {entry.End - entry.Start} minutes; set-up and work are {batch.Setup + work}.");
        Refuse(batch.MaxWork < work, $"Batch {batch.Id} holds {work} minutes of work; {batch.MaxWork} fit.");
        int load = members.Sum(m => m.Load);
        Refuse(batch.MaxLoad < load, $"Batch {batch.Id} carries a load of {load}; {batch.MaxLoad} fits.");
        Refuse(batch.Starts.Length > 0 && !batch.Starts.Any(w => w.From <= entry.Start && entry.Start < w.To), $"Batch {batch.Id} starts at {entry.Start}, outside its allowed starts.");
        CheckTimes($"Batch {batch.Id}", entry.Start, entry.End);
        if (batch.LatestEnd is { } latest && entry.Start >= 0 && entry.Start <= project.Horizon)
            Refuse(entry.End > latest.At(entry.Start), $"Batch {batch.Id} started at {entry.Start} must end by {latest.At(entry.Start)}; it ends at {entry.End}.");
        if (batch.Crews.Length == 0)
        {
            Refuse(entry.Crew is not null, $"Batch {batch.Id} needs no crew but has {entry.Crew}.");
            return;
        }

        Crew? crew = batch.Crews.SingleOrDefault(c => c.Id == entry.Crew);
        Refuse(crew is null, $"Batch {batch.Id} has no crew {entry.Crew}.");
        foreach (Demand demand in crew?.Demands ?? [])
            CheckInsideOneWindow($"Batch {batch.Id}", demand, entry.Start, entry.End);
    }

    private void CheckTimes(string name, int start, int end)
    {
        Refuse(start < 0 || end < start || end > project.Horizon, $"{name} [{start}, {end}) does not lie inside 0..{project.Horizon}.");
        Refuse(start % project.StartStep != 0, $"{name} starts at {start}, not a multiple of {project.StartStep}.");
    }

    private void CheckInsideOneWindow(string name, Demand demand, int start, int end)
    {
        Resource resource = project.Resources.Single(r => r.Id == demand.Resource);
        Refuse(!resource.Open.Any(w => w.From <= start && end <= w.To), $"{name} [{start}, {end}) does not lie inside one open window of {demand.Resource}.");
    }

    private void CheckResources()
    {
        foreach (Resource resource in project.Resources)
        {
            var load = new int[project.Horizon + 1];
            foreach ((int start, int end, Demand demand) in Work().Where(w => w.Demand.Resource == resource.Id))
            {
                for (int minute = start; minute < end; minute++)
                    load[minute] += demand.Units;
            }

            int over = Array.FindIndex(load, units => units > resource.Capacity);
            Refuse(over >= 0, $"Resource {resource.Id} is demanded {(over < 0 ? 0 : load[over])} times at minute {over}; its capacity is {resource.Capacity}.");
        }
    }

    private IEnumerable<(int Start, int End, Demand Demand)> Work()
    {
        foreach (Activity activity in project.Activities)
        {
            PlannedActivity entry = Entry(activity.Id);
            foreach (Demand demand in ModeOf(activity.Id)?.Demands ?? [])
                yield return (entry.Start, entry.End, demand);
        }

        foreach (Batch batch in project.Batches)
        {
            PlannedBatch entry = Entry(batch.Id);
            foreach (Demand demand in entry.Used ? batch.Crews.SingleOrDefault(c => c.Id == entry.Crew)?.Demands ?? [] : [])
                yield return (entry.Start, entry.End, demand);
        }
    }

    private void CheckLag(Lag lag)
    {
        if (Time(lag.From, lag.FromModes) is not { } from || Time(lag.To, lag.ToModes) is not { } to)
            return;
        int bound = lag.Delay switch
        {
            Delay.Fixed f => from + f.Minutes,
            Delay.ByTime f => f.Function.At(from),
            _ => throw new InvalidOperationException(),
        };
        Refuse(lag.Kind == LagKind.Minimum && to < bound, $"The {lag.To} is at {to}; after the {lag.From} at {from} it must be at {bound} or later.");
        Refuse(lag.Kind == LagKind.Maximum && to > bound, $"The {lag.To} is at {to}; after the {lag.From} at {from} it must be at {bound} or sooner.");
    }

    private int? Time(TimePoint point, IReadOnlyCollection<ModeId> modes)
    {
        if (point.Batch is { } batch)
            return Entry(batch) is { Used: true } used ? (point.Edge == Edge.Start ? used.Start : used.End) : null;
        ActivityId activity = point.Activity!.Value;
        return IsIn(activity, modes) ? (point.Edge == Edge.Start ? Entry(activity).Start : Entry(activity).End) : null;
    }

    private void CheckConditionalWindow(ConditionalWindow window)
    {
        PlannedActivity entry = Entry(window.Activity);
        if (entry.Present && IsIn(window.WhenActivity, window.WhenModes))
            Refuse(!window.Windows.Any(w => w.From <= entry.Start && entry.Start < w.To), $"Activity {entry.Id} starts at {entry.Start}, outside its windows while {window.WhenActivity} is in mode {Entry(window.WhenActivity).Mode}.");
    }

    private bool IsIn(ActivityId activity, IReadOnlyCollection<ModeId> modes)
    {
        PlannedActivity entry = Entry(activity);
        return entry.Present && (modes.Count == 0 || modes.Any(m => m == entry.Mode));
    }

    private Mode? ModeOf(ActivityId id) =>
        Entry(id).Present ? project.Activities.Single(a => a.Id == id).Modes.Single(m => m.Id == Entry(id).Mode) : null;

    private PlannedActivity Entry(ActivityId id) => schedule[id];

    private PlannedBatch Entry(BatchId id) => schedule[id];

    private void Refuse(bool wrong, FormattableString violation)
    {
        if (wrong)
            Violations.Add(ScheduleChecker.Text(violation));
    }
}
