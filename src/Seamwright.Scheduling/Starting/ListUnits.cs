using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>What is placed as one piece: an activity by itself, or a batch with all its members; in the order of a known schedule.</summary>
internal sealed class ListUnits
{
    private readonly Dictionary<ActivityId, int> _activities = [];
    private readonly Dictionary<BatchId, int> _batches = [];
    private readonly Dictionary<ResourceId, int> _resources = [];

    private ListUnits()
    {
    }

    public int Count => Ways.Count;

    /// <summary>Per unit the ways of doing it that differ only by who does it.</summary>
    public List<ListWay[]> Ways { get; } = [];

    /// <summary>Per batch that limits its own end, the function of its start.</summary>
    public List<TimeFunction?> LatestEnds { get; } = [];

    /// <summary>Per unit the lags that end at it.</summary>
    public List<List<ListLag>> Minimum { get; } = [];

    /// <summary>Maximum lags between units.</summary>
    public List<ListLag> Maximum { get; } = [];

    /// <summary>Units, each after those that it waits for.</summary>
    public ImmutableArray<int> Order { get; private set; } = [];

    /// <summary>Place of the unit that an activity belongs to; −1 = absent.</summary>
    public int UnitOf(ActivityId id) => _activities.GetValueOrDefault(id, -1);

    /// <summary>Place of a batch; −1 = not used.</summary>
    public int UnitOf(BatchId id) => _batches.GetValueOrDefault(id, -1);

    public static ListUnits? Of(Project project, Schedule pattern)
    {
        var units = new ListUnits();
        for (int i = 0; i < project.Resources.Length; i++)
            units._resources.Add(project.Resources[i].Id, i);
        var starts = new List<int>();
        return units.AddBatches(project, pattern, starts) && units.AddActivities(project, pattern, starts) && units.AddLags(project, pattern)
            && units.Arrange(starts) ? units : null;
    }

    private bool AddBatches(Project project, Schedule pattern, List<int> starts)
    {
        foreach (Batch batch in project.Batches)
        {
            if (pattern.Find(batch.Id) is not { Used: true } used)
                continue;
            var members = new List<Mode>();
            var conditional = new List<ImmutableArray<Window>>();
            foreach (Activity activity in project.Activities)
            {
                if (pattern.Find(activity.Id) is not { Present: true } member || member.Batch != batch.Id)
                    continue;
                if (activity.Modes.FirstOrDefault(mode => mode.Id == member.Mode) is not { } mode)
                    return false;
                members.Add(mode);
                conditional.AddRange(Conditions(project, pattern, activity.Id));
                _activities.Add(activity.Id, Count);
            }
            if (members.Count == 0)
                return false;
            int minutes = batch.Setup + members.Sum(mode => mode.Work);
            var allowed = members.Select(mode => mode.Starts).Append(batch.Starts).Where(windows => !windows.IsEmpty).Concat(conditional).ToArray();
            ListWay[] ways = batch.Crews.IsEmpty
                ? [new ListWay(minutes, [], allowed, 0, null, null)]
                : [.. batch.Crews.Select(crew => new ListWay(minutes, Demands(crew.Demands), allowed, crew.Cost + (crew.CostPerMinute * minutes), null, crew.Id))];
            _batches.Add(batch.Id, Count);
            Add(ways, batch.LatestEnd, used.Start, starts);
        }
        return true;
    }

    private bool AddActivities(Project project, Schedule pattern, List<int> starts)
    {
        var named = project.Lags.SelectMany(lag => lag.FromModes.Select(mode => (lag.From.Activity, Mode: mode)).Concat(lag.ToModes.Select(mode => (lag.To.Activity, Mode: mode)))).ToHashSet();
        foreach (Activity activity in project.Activities)
        {
            if (pattern.Find(activity.Id) is not { Present: true, Batch: null } planned)
            {
                if (pattern.Find(activity.Id) is null)
                    return false;
                continue;
            }
            // A moment whose mode is named after the slot takes the mode that this project offers.
            Mode? chosen = activity.Modes.FirstOrDefault(mode => mode.Id == planned.Mode) ?? (activity.Modes.Length == 1 ? activity.Modes[0] : null);
            if (chosen is null || chosen.Batch is not null)
                return false;
            var alike = activity.Modes.Where(mode => mode == chosen || IsAlike(activity, mode, chosen));
            _activities.Add(activity.Id, Count);
            Add(
                [.. alike.Select(mode => new ListWay(mode.Duration, Demands(mode.Demands), [.. Conditions(project, pattern, activity.Id), .. mode.Starts.IsEmpty ? Array.Empty<ImmutableArray<Window>>() : [mode.Starts]], mode.Cost, mode.Id, null))],
                null, planned.Start, starts);
        }
        return true;

        bool IsAlike(Activity activity, Mode mode, Mode chosen) =>
            mode.Batch is null && mode.Duration == chosen.Duration && mode.Starts.SequenceEqual(chosen.Starts) && mode.Consumes.SequenceEqual(chosen.Consumes)
            && !mode.Demands.IsEmpty && !chosen.Demands.IsEmpty
            && !named.Contains((activity.Id, mode.Id)) && !named.Contains((activity.Id, chosen.Id));
    }

    private static IEnumerable<ImmutableArray<Window>> Conditions(Project project, Schedule pattern, ActivityId activity) =>
        project.ConditionalWindows.Where(window => window.Activity == activity && IsIn(project, pattern, window)).Select(window => window.Windows);

    /// <summary>Where the pattern's own slot is another one, the condition is read off the only mode that this project offers.</summary>
    private static bool IsIn(Project project, Schedule pattern, ConditionalWindow window)
    {
        if (pattern.Find(window.WhenActivity) is not { Present: true } when)
            return false;
        Activity activity = project.Activities.First(candidate => candidate.Id == window.WhenActivity);
        ModeId? mode = activity.Modes.Length == 1 ? activity.Modes[0].Id : when.Mode;
        return window.WhenModes.IsEmpty || window.WhenModes.Any(candidate => candidate == mode);
    }

    private void Add(ListWay[] ways, TimeFunction? latestEnd, int start, List<int> starts)
    {
        Ways.Add(ways);
        LatestEnds.Add(latestEnd);
        Minimum.Add([]);
        starts.Add(start);
    }

    private (int Resource, int Units)[] Demands(ImmutableArray<Demand> demands) => [.. demands.Select(demand => (_resources[demand.Resource], demand.Units))];

    private bool AddLags(Project project, Schedule pattern)
    {
        foreach (Lag lag in project.Lags)
        {
            int from = UnitOf(project, pattern, lag.From, lag.FromModes);
            int to = UnitOf(project, pattern, lag.To, lag.ToModes);
            if (from < 0 || to < 0)
                continue;
            var between = new ListLag(from, lag.From.Edge, to, lag.To.Edge, lag.Delay);
            if (lag.Kind == LagKind.Minimum)
                Minimum[to].Add(between);
            else
                Maximum.Add(between);
        }
        return true;
    }

    private int UnitOf(Project project, Schedule pattern, TimePoint point, ImmutableArray<ModeId> modes)
    {
        if (point.Batch is { } batch)
            return UnitOf(batch);
        int unit = UnitOf(point.Activity!.Value);
        if (unit < 0 || modes.IsEmpty)
            return unit;
        Activity activity = project.Activities.First(candidate => candidate.Id == point.Activity);
        ModeId? mode = activity.Modes.Length == 1 ? activity.Modes[0].Id : pattern[activity.Id].Mode;
        return mode is { } chosen && modes.Contains(chosen) ? unit : -1;
    }

    /// <summary>By the start in the pattern, but never before something that it waits for.</summary>
    private bool Arrange(List<int> starts)
    {
        var order = ImmutableArray.CreateBuilder<int>(Count);
        var waiting = new int[Count];
        var next = Enumerable.Range(0, Count).Select(_ => new List<int>()).ToArray();
        for (int unit = 0; unit < Count; unit++)
        {
            foreach (ListLag lag in Minimum[unit])
            {
                if (lag.From == unit)
                    continue;
                waiting[unit]++;
                next[lag.From].Add(unit);
            }
        }
        var ready = new PriorityQueue<int, (int, int)>();
        for (int unit = 0; unit < Count; unit++)
        {
            if (waiting[unit] == 0)
                ready.Enqueue(unit, (starts[unit], unit));
        }
        while (ready.TryDequeue(out int unit, out _))
        {
            order.Add(unit);
            foreach (int after in next[unit])
            {
                if (--waiting[after] == 0)
                    ready.Enqueue(after, (starts[after], after));
            }
        }
        Order = order.ToImmutable();
        return Order.Length == Count;
    }
}

/// <summary>One way of doing a unit.</summary>
internal sealed record ListWay(int Minutes, (int Resource, int Units)[] Demands, ImmutableArray<Window>[] Starts, long Cost, ModeId? Mode, CrewId? Crew);

/// <summary>A lag between two units.</summary>
internal sealed record ListLag(int From, Edge FromEdge, int To, Edge ToEdge, Delay Delay)
{
    /// <summary>The minute that the delay carries a minute to.</summary>
    public int At(int minute, int horizon) => At(Delay, minute, horizon);

    /// <summary>The minute that a delay carries a minute to.</summary>
    public static int At(Delay delay, int minute, int horizon) => delay switch
    {
        Delay.Fixed fix => minute + fix.Minutes,
        Delay.ByTime byTime => byTime.Function.At(Math.Clamp(minute, 0, horizon)),
        _ => minute,
    };
}
