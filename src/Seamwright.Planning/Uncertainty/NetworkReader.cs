using System.Collections.Immutable;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// Reads the network of a decided plan from its schedule: the same works, lags, people, lamps, windows and deliveries that the search saw, with every choice made.
/// </summary>
internal sealed class NetworkReader
{
    private readonly PlanningCase _case;
    private readonly Found _found;
    private readonly Spreads _spreads;
    private readonly NetworkDraft _draft = new();
    private readonly List<CureLaw> _laws = [];
    private readonly Dictionary<ActivityId, int> _activities = [];
    private readonly Dictionary<BatchId, int> _batches = [];
    private readonly Dictionary<PlaceId, int> _depths = [];
    private readonly List<Block> _blocks = [];
    private readonly Dictionary<ActivityId, Activity> _modes;

    private NetworkReader(PlanningCase planning, Found found, Spreads spreads)
    {
        (_case, _found, _spreads) = (planning, found, spreads);
        _modes = found.Project.Project.Activities.ToDictionary(activity => activity.Id);
    }

    /// <summary>A work with its planned minutes and what it occupies.</summary>
    private readonly record struct Block(int Work, int Start, int End, ImmutableArray<Demand> Demands);

    /// <summary>The network of a schedule.</summary>
    /// <param name="planning">The repair.</param>
    /// <param name="found">The schedule.</param>
    /// <param name="spreads">How far figures scatter.</param>
    public static PlanNetwork Read(PlanningCase planning, Found found, Spreads spreads) => new NetworkReader(planning, found, spreads).Read();

    private PlanNetwork Read()
    {
        AddWorks();
        AddDeliveries();
        AddLags();
        AddOrderOfWork();
        AddWhatBeginsTogether();
        NodaTime.Duration? behind = _case.Repair.Panel is null ? null : _case.Shop.PanelTimeConstant;
        return _draft.Build(CureGrid.For(_case.Cures, _case.Time, _laws, Schedule[ProjectBuilder.Paint].Start, behind));
    }

    private Schedule Schedule => _found.Schedule;

    private Project Project => _found.Project.Project;

    private static bool IsGoal(ActivityId id) => id == ProjectBuilder.Paint || id == ProjectBuilder.Ready || id == ProjectBuilder.Deliver;

    private void AddWorks()
    {
        double first = Schedule.Activities.Where(planned => planned.Present && planned.End > planned.Start && !IsGoal(planned.Id)).Select(planned => planned.Start).DefaultIfEmpty(0).Min();
        foreach (var batch in Project.Batches)
        {
            if (Schedule[batch.Id] is { Used: true } planned)
                _batches.Add(batch.Id, AddSession(batch, planned, first));
        }
        foreach (var planned in Schedule.Activities)
        {
            if (!planned.Present || IsGoal(planned.Id))
                continue;
            _activities.Add(planned.Id, planned.Batch is { } batch ? _batches[batch] : AddSingle(planned, first));
        }
    }

    /// <summary>A session: its set-up and each place scatter by themselves.</summary>
    private int AddSession(Batch batch, PlannedBatch planned, double first)
    {
        var meaning = _found.Project.Batches[batch.Id];
        var members = Schedule.Activities.Where(member => member.Present && member.Batch == batch.Id).ToList();
        var parts = ImmutableArray.CreateBuilder<NetworkDraft.Part>();
        AddPart(meaning.Kind, batch.Setup);
        var starts = batch.Starts;
        foreach (var member in members)
        {
            var mode = ModeOf(member);
            AddPart(_found.Project.Activities[member.Id].Kind ?? meaning.Kind, mode.Work);
            starts = Intersect(starts, StartsOf(member, mode));
        }
        var crew = batch.Crews.FirstOrDefault(crew => crew.Id == planned.Crew);
        var places = members.SelectMany(member => _found.Project.Activities[member.Id].Places).ToImmutableArray();
        return Add(new WorkLabel(meaning.Kind, places, planned.Crew?.Value, meaning.Sheet?.Id), planned.Start, planned.End, crew?.Demands ?? [], starts, first, 0, parts.ToImmutable());

        void AddPart(StepKind kind, int minutes)
        {
            if (minutes > 0)
                parts.Add(new(kind, minutes, _spreads.LabourOf(kind)));
        }
    }

    private int AddSingle(PlannedActivity planned, double first)
    {
        var mode = ModeOf(planned);
        var meaning = _found.Project.Activities[planned.Id];
        var how = _found.Project.Modes.GetValueOrDefault((planned.Id, mode.Id));
        int minutes = planned.End - planned.Start;

        // Heat and the clock do not scatter, hands do.
        int labour = how?.Person is null || meaning.Kind is null ? 0 : Math.Min(minutes, how.Labour ?? minutes);
        ImmutableArray<NetworkDraft.Part> parts = labour > 0 ? [new(meaning.Kind!.Value, labour, _spreads.LabourOf(meaning.Kind.Value))] : [];
        var label = new WorkLabel(minutes > 0 ? meaning.Kind : null, meaning.Places, how?.Person, (how?.Option?.Sheet ?? how?.Sheet ?? meaning.Sheet)?.Id);
        bool decision = minutes == 0 && mode.Demands.IsEmpty;
        return Add(label, planned.Start, planned.End, mode.Demands, decision ? [] : StartsOf(planned, mode), decision ? 0 : first, minutes - labour, parts);
    }

    private int Add(
        WorkLabel label, int start, int end, ImmutableArray<Demand> demands, ImmutableArray<Window> starts, double first, double fixedMinutes,
        ImmutableArray<NetworkDraft.Part> parts)
    {
        ImmutableArray<Window> open = [];
        foreach (var demand in demands)
            open = Intersect(open, Project.Resources.First(resource => resource.Id == demand.Resource).Open);
        int work = _draft.AddWork(label, first, new OpenTimes(end - start, starts, open, _spreads.RunsOver.TotalMinutes), fixedMinutes, parts);
        _blocks.Add(new Block(work, start, end, demands));
        return work;
    }

    private Mode ModeOf(PlannedActivity planned) => _modes[planned.Id].Modes.First(mode => mode.Id == planned.Mode);

    private ImmutableArray<Window> StartsOf(PlannedActivity planned, Mode mode)
    {
        var starts = mode.Starts;
        foreach (var conditional in Project.ConditionalWindows)
        {
            var other = Schedule[conditional.WhenActivity];
            if (conditional.Activity == planned.Id && other.Present && (conditional.WhenModes.IsEmpty || conditional.WhenModes.Contains(other.Mode!.Value)))
                starts = Intersect(starts, conditional.Windows);
        }
        return starts;
    }

    /// <summary>What is delivered is not used before it has come.</summary>
    private void AddDeliveries()
    {
        var lots = Project.Lots.ToDictionary(lot => lot.Id);
        foreach (var cover in Schedule.Covers)
        {
            if (WorkOf(cover.Activity, cover.Batch) is { } work)
                _draft.NotBefore(work, lots[cover.Lot].Usable.From);
        }
    }

    private int? WorkOf(ActivityId? activity, BatchId? batch) =>
        batch is { } session ? (_batches.TryGetValue(session, out int used) ? used : null)
        : _activities.TryGetValue(activity!.Value, out int single) ? single : null;

    private int? WorkOf(TimePoint point) => WorkOf(point.Activity, point.Batch);

    private void AddLags()
    {
        foreach (var lag in Project.Lags)
        {
            if (ActiveLags.MinuteOf(Schedule, lag.From, lag.FromModes) is not { } from || ActiveLags.MinuteOf(Schedule, lag.To, lag.ToModes) is not { } to)
                continue;
            if (lag.From.Activity is { } source && IsGoal(source))
                continue;
            if (lag.Kind == LagKind.Maximum)
                AddMaximum(lag, from, to);
            else if (lag.To.Activity == ProjectBuilder.Paint)
                AddMinimum(lag, NetworkDraft.Ready, from);
            else if (lag.To.Activity is not { } goal || !IsGoal(goal))
                AddMinimum(lag, WorkOf(lag.To)!.Value, from);
        }
    }

    private void AddMinimum(Lag lag, int to, int from)
    {
        int source = WorkOf(lag.From)!.Value;
        bool atEnd = lag.From.Edge == Edge.End;
        if (lag.Delay is Delay.ByTime byTime)
            AddDelay(byTime.Function, source, atEnd, to, from, lag);
        else if (ClosedBond(lag) is { } bond)
            AddClosedBond(bond, to);
        else
            _draft.AddWait(source, atEnd, to, ((Delay.Fixed)lag.Delay).Minutes);
    }

    private void AddDelay(TimeFunction function, int source, bool atEnd, int to, int from, Lag lag)
    {
        switch (function)
        {
            case LaterFunction later:
                AddDelay(later.First, source, atEnd, to, from, lag);
                AddDelay(later.Second, source, atEnd, to, from, lag);
                break;
            case CureFunction cure:
                var place = PlaceOf(lag.From);
                _draft.AddCure(source, atEnd, to, 0, new CureWait(LawOf(cure.Law), cure.Hours, MaterialOf(lag.From), cure.ThroughDepth && place is { } joint ? DepthOf(joint) : -1, place));
                break;
            default:
                // A shift by the clock, such as a panel that cools after the lamp.
                _draft.AddWait(source, atEnd, to, function.At(from) - from);
                break;
        }
    }

    /// <summary>The bond that was closed before the plan and cures by the clock, where a lag stands for that.</summary>
    private Bond? ClosedBond(Lag lag) =>
        lag.From is { Activity: { } activity, Edge: Edge.Start }
            ? _case.Repair.Bonds.FirstOrDefault(bond => bond.Closed is not null && activity == new ActivityId($"hold:{bond.Id}"))
            : null;

    private void AddClosedBond(Bond bond, int to)
    {
        var sheet = _case.Sheets[bond.Adhesive];
        var handling = sheet.Milestone(MilestoneKind.Handling)!;
        double closed = (bond.Closed!.Value - _case.Time.Origin).TotalMinutes;
        _draft.AddCure(NetworkDraft.Minute, false, to, closed, new CureWait(LawOf(handling.Law), handling.Needed.Hours, _draft.Material(sheet.Id), -1, bond.Id));
    }

    /// <summary>
    /// A longest wait: the plan begins the first work late enough on purpose, so it does not begin sooner. Metal that lies open is watched as well.
    /// </summary>
    private void AddMaximum(Lag lag, int from, int to)
    {
        if (WorkOf(lag.From) is not { } source)
            return;
        int earliest = lag.Delay is Delay.Fixed wait ? to - wait.Minutes : EarliestFor(((Delay.ByTime)lag.Delay).Function, from, to);
        var block = _blocks.First(block => block.Work == source);
        _draft.NotBefore(source, lag.From.Edge == Edge.End ? earliest - (block.End - block.Start) : earliest);
        if (lag.Delay is Delay.Fixed { Minutes: >= 60 } stays && WorkOf(lag.To) is { } covering)
            _draft.AddFresh(new FreshMetal(source, covering, stays.Minutes));
    }

    /// <summary>First minute from which a window still reaches to another.</summary>
    private static int EarliestFor(TimeFunction function, int from, int to)
    {
        int no = -1, yes = from;
        while (yes - no > 1)
        {
            int middle = no + ((yes - no) / 2);
            if (function.At(middle) >= to)
                yes = middle;
            else
                no = middle;
        }
        return yes;
    }

    /// <summary>Each person and machine takes its works in the planned order.</summary>
    private void AddOrderOfWork()
    {
        foreach (var resource in Project.Resources)
        {
            var last = new Block?[resource.Capacity];
            var mine = _blocks.Where(block => block.End > block.Start && block.Demands.Any(demand => demand.Resource == resource.Id)).OrderBy(block => block.Start);
            foreach (var block in mine)
            {
                int units = block.Demands.First(demand => demand.Resource == resource.Id).Units;
                for (int unit = 0; unit < last.Length && units > 0; unit++)
                {
                    if (last[unit] is { } before && before.End > block.Start)
                        continue;
                    if (last[unit] is { } free)
                        _draft.AddWait(free.Work, true, block.Work, 0);
                    last[unit] = block;
                    units--;
                }
            }
        }
    }

    /// <summary>A lamp is set up when it is switched on, not before: whoever sets it up waits for all that the lamp waits for.</summary>
    private void AddWhatBeginsTogether()
    {
        foreach (var lag in Project.Lags)
        {
            if (lag is { Kind: LagKind.Maximum, Delay: Delay.Fixed { Minutes: 0 }, From.Edge: Edge.Start, To.Edge: Edge.Start }
                && WorkOf(lag.From) is { } first && WorkOf(lag.To) is { } second)
                _draft.WaitAlike(first, second);
        }
    }

    private int LawOf(CureLaw law)
    {
        int index = _laws.IndexOf(law);
        if (index >= 0)
            return index;
        _laws.Add(law);
        return _laws.Count - 1;
    }

    private int DepthOf(PlaceId place)
    {
        if (!_depths.TryGetValue(place, out int depth))
            _depths.Add(place, depth = _draft.Depth());
        return depth;
    }

    private PlaceId? PlaceOf(TimePoint point) =>
        point.Activity is { } activity && _found.Project.Activities[activity].Places is [var place] ? place : null;

    private int MaterialOf(TimePoint point)
    {
        if (point.Activity is not { } activity)
            return -1;
        var planned = Schedule[activity];
        var mode = planned.Mode is { } id ? _found.Project.Modes.GetValueOrDefault((activity, id)) : null;
        var sheet = mode?.Option?.Sheet ?? mode?.Sheet ?? _found.Project.Activities[activity].Sheet ?? (planned.Batch is { } batch ? _found.Project.Batches[batch].Sheet : null);
        return sheet is null ? -1 : _draft.Material(sheet.Id);
    }

    private static ImmutableArray<Window> Intersect(ImmutableArray<Window> a, ImmutableArray<Window> b)
    {
        if (a.IsDefaultOrEmpty)
            return b.IsDefault ? [] : b;
        if (b.IsDefaultOrEmpty)
            return a;
        var both = a.SelectMany(one => b.Select(other => (From: Math.Max(one.From, other.From), To: Math.Min(one.To, other.To))))
            .Where(pair => pair.From < pair.To)
            .Select(pair => new Window(pair.From, pair.To))
            .ToImmutableArray();
        return both.IsEmpty ? [new Window(-1, 0)] : both;
    }
}
