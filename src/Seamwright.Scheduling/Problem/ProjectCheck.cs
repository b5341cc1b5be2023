using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>One pass over a project that collects its mistakes.</summary>
internal sealed class ProjectCheck(Project project)
{
    private readonly Dictionary<ResourceId, Resource> resources = [];
    private readonly Dictionary<ActivityId, Activity> activities = [];
    private readonly Dictionary<BatchId, Batch> batches = [];
    private readonly HashSet<ConsumableId> consumables = [];
    private readonly HashSet<UnlockId> unlocks = [];
    private Int128 money;

    public List<string> Mistakes { get; } = [];

    public void Run()
    {
        Refuse(project.Horizon is < 1 or > ProblemValidator.LongestHorizon, $"The horizon is {project.Horizon}; it must be 1 to {ProblemValidator.LongestHorizon} minutes.");
        Refuse(project.StartStep is < 1 or > 1440, $"The start step is {project.StartStep}; it must be 1 to 1440 minutes.");
        CollectIds();
        foreach (Resource resource in project.Resources)
        {
            Refuse(resource.Capacity < 1, $"Resource {resource.Id}: the capacity is {resource.Capacity}; it must be at least 1.");
            CheckWindows(resource.Open, $"Resource {resource.Id}: open windows");
        }

        foreach (Lot lot in project.Lots)
            CheckLot(lot);
        foreach (Unlock unlock in project.Unlocks)
        {
            Refuse(unlock.Cost < 0, $"Unlock {unlock.Id}: the cost is {unlock.Cost}; it must not be negative.");
            Pay(unlock.Cost);
        }

        foreach (Activity activity in project.Activities)
            CheckActivity(activity);
        foreach (Batch batch in project.Batches)
            CheckBatch(batch);
        foreach (Lag lag in project.Lags)
            CheckLag(lag);
        foreach (ConditionalWindow window in project.ConditionalWindows)
        {
            string name = $"Conditional window on {window.Activity} when {window.WhenActivity}";
            CheckModes(window.Activity, [], name);
            CheckModes(window.WhenActivity, window.WhenModes, name);
            Refuse(window.Windows.IsDefaultOrEmpty, $"{name}: there must be at least one window.");
            CheckWindows(window.Windows, name);
        }

        foreach (Charge charge in project.Charges)
            CheckCharge(charge);
        Refuse(money > ProblemValidator.LargestTotal, $"All amounts of money together exceed {ProblemValidator.LargestTotal}.");
    }

    private void CollectIds()
    {
        foreach (Resource resource in project.Resources)
            Refuse(!resources.TryAdd(resource.Id, resource), $"Resource {resource.Id} is listed twice.");
        foreach (Consumable consumable in project.Consumables)
            Refuse(!consumables.Add(consumable.Id), $"Consumable {consumable.Id} is listed twice.");
        foreach (Unlock unlock in project.Unlocks)
            Refuse(!unlocks.Add(unlock.Id), $"Unlock {unlock.Id} is listed twice.");
        foreach (Activity activity in project.Activities)
            Refuse(!activities.TryAdd(activity.Id, activity), $"Activity {activity.Id} is listed twice.");
        foreach (Batch batch in project.Batches)
            Refuse(!batches.TryAdd(batch.Id, batch), $"Batch {batch.Id} is listed twice.");
        foreach (LotId twice in project.Lots.GroupBy(l => l.Id).Where(g => g.Count() > 1).Select(g => g.Key))
            Refuse(true, $"Lot {twice} is listed twice.");
    }

    private void CheckLot(Lot lot)
    {
        Refuse(lot.Serves.IsDefaultOrEmpty, $"Lot {lot.Id}: it must serve at least one consumable.");
        foreach (ConsumableId consumable in OrNone(lot.Serves).Where(c => !consumables.Contains(c)))
            Refuse(true, $"Lot {lot.Id}: there is no consumable {consumable}.");
        Refuse(lot.Amount < 0, $"Lot {lot.Id}: the amount is {lot.Amount}; it must not be negative.");
        Refuse(lot.Usable.From >= lot.Usable.To, $"Lot {lot.Id}: its usable window ends at {lot.Usable.To}, not after its start {lot.Usable.From}.");
        if (lot.Unlock is { } unlock)
            Refuse(!unlocks.Contains(unlock), $"Lot {lot.Id}: there is no unlock {unlock}.");
        Refuse(lot.Cost < 0, $"Lot {lot.Id}: the cost is {lot.Cost}; it must not be negative.");
        Pay(lot.Cost);
    }

    private void CheckActivity(Activity activity)
    {
        Refuse(activity.Modes.IsDefaultOrEmpty, $"Activity {activity.Id}: it must have at least one mode.");
        foreach (ModeId twice in OrNone(activity.Modes).GroupBy(m => m.Id).Where(g => g.Count() > 1).Select(g => g.Key))
            Refuse(true, $"Activity {activity.Id}: mode {twice} is listed twice.");
        foreach (Mode mode in OrNone(activity.Modes))
            CheckMode($"Activity {activity.Id}, mode {mode.Id}", mode);
        Pay(OrNone(activity.Modes).Select(m => Size(m.Cost)).DefaultIfEmpty().Max());
        foreach (Trigger trigger in OrNone(activity.PresentWhen))
        {
            switch (trigger)
            {
                case Trigger.InMode inMode:
                    CheckModes(inMode.Activity, inMode.Modes, $"Activity {activity.Id}: trigger");
                    break;
                case Trigger.BatchUsed used:
                    Refuse(!batches.ContainsKey(used.Batch), $"Activity {activity.Id}: trigger: there is no batch {used.Batch}.");
                    break;
            }
        }
    }

    private void CheckMode(string name, Mode mode)
    {
        Refuse(mode.Duration < 0, $"{name}: the duration is {mode.Duration}; it must not be negative.");
        Refuse(mode.Work < 0, $"{name}: the work is {mode.Work}; it must not be negative.");
        if (mode.Batch is { } batch)
        {
            Refuse(!batches.ContainsKey(batch), $"{name}: there is no batch {batch}.");
            Refuse(mode.Duration != 0, $"{name}: a mode in a batch has no duration of its own; give its work instead.");
            Refuse(!OrNone(mode.Demands).IsEmpty, $"{name}: a mode in a batch has no demands of its own; the crew of the batch has them.");
        }
        else
        {
            Refuse(mode.Work != 0, $"{name}: work counts only in a batch; give a duration instead.");
            Refuse(mode.Load != 0, $"{name}: load counts only in a batch.");
        }

        CheckDemands(name, mode.Demands);
        CheckWindows(mode.Starts, $"{name}: starts");
        CheckConsumption(name, mode.Consumes);
    }

    private void CheckBatch(Batch batch)
    {
        string name = $"Batch {batch.Id}";
        Refuse(batch.Setup < 0, $"{name}: the set-up is {batch.Setup}; it must not be negative.");
        Refuse(batch.MaxLoad < 0, $"{name}: the most load is {batch.MaxLoad}; it must not be negative.");
        Refuse(batch.MaxWork < 0, $"{name}: the most work is {batch.MaxWork}; it must not be negative.");
        CheckWindows(batch.Starts, $"{name}: starts");
        CheckConsumption(name, batch.Consumes);
        Pay(Size(batch.Cost));
        foreach (CrewId twice in OrNone(batch.Crews).GroupBy(c => c.Id).Where(g => g.Count() > 1).Select(g => g.Key))
            Refuse(true, $"{name}: crew {twice} is listed twice.");
        foreach (Crew crew in OrNone(batch.Crews))
        {
            CheckDemands($"{name}, crew {crew.Id}", crew.Demands);
            Refuse(crew.CostPerMinute < 0, $"{name}, crew {crew.Id}: the cost per minute is {crew.CostPerMinute}; it must not be negative.");
        }

        Pay(OrNone(batch.Crews).Select(c => Size(c.Cost) + ((Int128)project.Horizon * c.CostPerMinute)).DefaultIfEmpty().Max());
    }

    private void CheckLag(Lag lag)
    {
        string name = $"Lag from {lag.From} to {lag.To}";
        CheckPoint(lag.From, lag.FromModes, name);
        CheckPoint(lag.To, lag.ToModes, name);
        if (lag.Delay is Delay.Fixed { Minutes: var minutes })
            Refuse(Math.Abs((long)minutes) > ProblemValidator.LongestHorizon, $"{name}: a delay of {minutes} minutes is out of range.");
        if (lag.Delay is Delay.ByTime { Function: var function })
            CheckFunction(function, name);
    }

    private void CheckPoint(TimePoint point, ImmutableArray<ModeId> modes, string name)
    {
        if (point.Activity is { } activity)
        {
            CheckModes(activity, modes, name);
        }
        else
        {
            Refuse(point.Batch is not { } batch || !batches.ContainsKey(batch), $"{name}: there is no batch {point.Batch}.");
            Refuse(!OrNone(modes).IsEmpty, $"{name}: a batch has no modes.");
        }
    }

    private void CheckCharge(Charge charge)
    {
        string name = $"Charge on {charge.Activity}";
        CheckModes(charge.Activity, [], name);
        ImmutableArray<Step> steps = OrNone(charge.Amount.Steps);
        Refuse(steps.Any(s => s.Amount < 0), $"{name}: an amount is negative.");
        for (int i = 1; i < steps.Length; i++)
        {
            Refuse(steps[i].From <= steps[i - 1].From, $"{name}: the step at {steps[i].From} does not come after the one at {steps[i - 1].From}.");
            Refuse(steps[i].Amount < steps[i - 1].Amount, $"{name}: the amount falls at {steps[i].From}.");
        }

        Pay(steps.Select(s => Size(s.Amount)).DefaultIfEmpty().Max());
    }

    /// <summary>Samples the function: a falling one would make the answers wrong, so it is worth a few calls.</summary>
    private void CheckFunction(TimeFunction function, string name)
    {
        int previous = int.MinValue;
        for (int i = 0; i <= 16; i++)
        {
            int value = function.At((int)((long)project.Horizon * i / 16));
            Refuse(value < previous, $"{name}: the delay function falls; what begins later must not be ready sooner.");
            previous = value;
        }
    }

    private void CheckModes(ActivityId activity, ImmutableArray<ModeId> modes, string name)
    {
        if (!activities.TryGetValue(activity, out Activity? found))
        {
            Refuse(true, $"{name}: there is no activity {activity}.");
            return;
        }

        foreach (ModeId mode in OrNone(modes).Where(m => !OrNone(found.Modes).Any(own => own.Id == m)))
            Refuse(true, $"{name}: activity {activity} has no mode {mode}.");
    }

    private void CheckDemands(string name, ImmutableArray<Demand> demands)
    {
        foreach (Demand demand in OrNone(demands))
        {
            if (!resources.TryGetValue(demand.Resource, out Resource? resource))
                Refuse(true, $"{name}: there is no resource {demand.Resource}.");
            else
                Refuse(demand.Units < 1 || demand.Units > resource.Capacity, $"{name}: it demands {demand.Units} of {demand.Resource}; there are 1 to {resource.Capacity}.");
        }

        foreach (ResourceId twice in OrNone(demands).GroupBy(d => d.Resource).Where(g => g.Count() > 1).Select(g => g.Key))
            Refuse(true, $"{name}: resource {twice} is demanded twice.");
    }

    private void CheckConsumption(string name, ImmutableArray<Consumption> consumptions)
    {
        foreach (Consumption consumption in OrNone(consumptions))
        {
            Refuse(!consumables.Contains(consumption.Consumable), $"{name}: there is no consumable {consumption.Consumable}.");
            Refuse(consumption.Amount is < 0 or > 100_000_000, $"{name}: it consumes {consumption.Amount} of {consumption.Consumable}; 0 to 100 000 000 is possible.");
        }

        foreach (ConsumableId twice in OrNone(consumptions).GroupBy(c => c.Consumable).Where(g => g.Count() > 1).Select(g => g.Key))
            Refuse(true, $"{name}: consumable {twice} is consumed twice.");
    }

    private void CheckWindows(ImmutableArray<Window> windows, string name)
    {
        ImmutableArray<Window> all = OrNone(windows);
        for (int i = 0; i < all.Length; i++)
        {
            Refuse(all[i].From >= all[i].To, $"{name}: a window ends at {all[i].To}, not after its start {all[i].From}.");
            if (i > 0)
                Refuse(all[i].From < all[i - 1].To, $"{name}: the window from {all[i].From} begins before the previous one ends.");
        }
    }

    // A default array would crash every later look at it, so it is read as empty here and refused nowhere but where empty is.
    private static ImmutableArray<T> OrNone<T>(ImmutableArray<T> array) => array.IsDefault ? [] : array;

    private static Int128 Size(long amount) => Int128.Abs(amount);

    private void Pay(Int128 amount) => money += amount;

    private void Refuse(bool wrong, FormattableString mistake)
    {
        if (wrong)
            Mistakes.Add(ProblemValidator.Text(mistake));
    }
}
