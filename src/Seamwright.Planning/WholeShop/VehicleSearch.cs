using System.Collections.Immutable;
using BitFaster.Caching.Lru;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Planning.WholeShop;

/// <summary>
/// Plans one vehicle exactly while all others stay where they are. Slots are tried from the least bound up, so that most are never opened.
/// </summary>
internal sealed class VehicleSearch
{
    /// <summary>How much later than at once the work is taken to begin when the first choices are made; tried one after the other. [minutes]</summary>
    private static readonly int[] FirstSpares = [0, 120, 360];

    /// <summary>
    /// Problems that are kept, those used last: a vehicle mostly comes back to a few slots near the best, and a problem takes some hundred kilobytes.
    /// </summary>
    private const int KeptProjects = 8;

    private readonly PlanOptions _options;
    private readonly ImmutableArray<Slot> _slots;
    private readonly string? _painter;
    private readonly ConcurrentLru<(int Slot, bool Lamps), RepairProject?> _projects = new(1, KeptProjects, EqualityComparer<(int, bool)>.Default);
    private long _leastSpending;
    private Slot? _first;
    private int _reachedWithoutLamp = int.MaxValue;

    public VehicleSearch(RepairInput input, PlanOptions options, SharedAir? air)
    {
        Case = new PlanningCase(input, air);
        _options = options;
        _painter = input.Shop.People.FirstOrDefault(person => person.Skills.Contains(Skill.Paint))?.Id;
        _slots = [.. Enumerable.Range(0, input.Repair.PaintSlots.Length).Select(SlotAt).OfType<Slot>()];
        Bounds = [.. _slots.Select(slot => (slot.Start, slot.TimeCost))];
    }

    public PlanningCase Case { get; }

    /// <summary>The best schedule with the shop to itself; null where there is none.</summary>
    public Found? Alone { get; private set; }

    /// <summary>False where it is proven that there is no plan, even with the shop to itself.</summary>
    public bool MayHavePlan { get; private set; }

    /// <summary>Proven: no schedule of this vehicle costs less. [solver money]</summary>
    public long Bound { get; private set; }

    /// <summary>Per slot that may be reached: where it begins and a lower bound of the cost in it. [solver money]</summary>
    public ImmutableArray<(int Start, long Bound)> Bounds { get; private set; }

    /// <summary>Schedules whose choices of materials and sessions may be tried elsewhere, the newest first.</summary>
    public ImmutableArray<Found> Patterns { get; private set; } = [];

    /// <summary>Gets ready what <see cref="First"/> needs, so that several vehicles can do so at a time.</summary>
    public void Prepare()
    {
        if (!_slots.IsEmpty)
            ProjectFor(_slots[^1], lamps: false);
    }

    /// <summary>
    /// A first schedule beside the others, found in milliseconds: slot by slot cheap choices, time left aside but for what cannot be ready in it.
    /// Whether a slot is reached is looked at in the problem of the last one, so that only one slot is opened. Null where none could be reached.
    /// </summary>
    public Found? First(Others others)
    {
        if (_slots.IsEmpty || ProjectFor(_slots[^1], lamps: false) is not { Project: var last })
            return null;
        // Windows until paint do not count there: they would hold the work back to the last slot.
        var longest = Contradictions.Closed(last) with { Lags = [.. last.Lags.Where(lag => lag.Kind == LagKind.Minimum)] };
        var taken = Taken(others);
        int begin = Case.Repair.Arrives is { } arrival ? Math.Max(0, Case.Time.Ceiling(arrival)) : Case.Time.Now;
        foreach (var slot in InOrder().Where(slot => IsFree(slot, others)))
        {
            var busy = OutOfBay(taken, slot, others);
            foreach (int spare in FirstSpares)
            {
                if (CheapestChoices.Of(longest, begin + spare + _slots[^1].Start - slot.Start) is not { } choices)
                    break;
                if (ListScheduler.For(longest, choices)?.Place(busy) is not { } trial || LagTimes.EarliestStart(longest, trial, ProjectBuilder.Paint) > slot.Start)
                    continue;
                if (ProjectFor(slot, lamps: false) is not { } project || ListScheduler.For(project.Project, choices)?.Place(busy) is not { } schedule)
                    continue;
                var found = new Found(project with { Variation = project.Variation with { Others = others } }, schedule, false, 0);
                Patterns = [found, .. Patterns];
                return found;
            }
        }
        return null;
    }

    /// <summary>
    /// The same choices with time taken away: a pattern to begin with, and what is spent at least in any slot. Bay days and lateness come on top.
    /// </summary>
    public void Relax()
    {
        if (_slots.IsEmpty || ProjectFor(_slots[^1], lamps: false) is not { } project)
        {
            Bounds = [];
            return;
        }
        var outcome = ProjectSolver.Solve(Relaxations.WithoutTime(project.Project), Options());
        if (outcome.Plan is not { } schedule)
        {
            Bounds = [];
            return;
        }
        _leastSpending = Math.Max(0, (outcome.Goals[0].LowerBound ?? 0) - _slots[^1].SlotCost);
        MayHavePlan = true;
        Patterns = [new Found(project, schedule, Proven: false, 0), .. Patterns];
        Bounds = [.. _slots.Select(slot => (slot.Start, _leastSpending + slot.TimeCost))];
        Bound = Bounds.Min(slot => slot.Bound);
    }

    /// <summary>Plans the vehicle alone in the first slot that it reaches, exactly.</summary>
    public void ReachASlot()
    {
        if (!MayHavePlan)
            return;
        var closed = new HashSet<int>();
        foreach (var slot in InOrder())
        {
            Alone = Solve(slot, null, null, long.MaxValue, out long bound);
            if (Alone is not null)
            {
                _first = slot;
                Patterns = [Alone, .. Patterns];
                Bounds = [.. InOrder().Where(other => !closed.Contains(other.Start)).Select(other => (other.Start, other == slot ? Math.Max(bound, Least(slot)) : Least(other)))];
                Bound = Bounds.Min(other => other.Bound);
                return;
            }
            if (bound == long.MaxValue)
                closed.Add(slot.Start);
        }
        MayHavePlan = closed.Count < _slots.Length;
        Bounds = [];
        Bound = 0;
    }

    /// <summary>Opens the slots that may still be better, until it is proven that none is; sharper bounds come with it.</summary>
    public void Tighten(CancellationToken stop)
    {
        if (Alone is null)
            return;
        var bounds = Bounds.ToDictionary(slot => slot.Start, slot => slot.Bound);
        foreach (var slot in InOrder().Where(slot => slot != _first && bounds.ContainsKey(slot.Start)))
        {
            if (stop.IsCancellationRequested || Least(slot) >= Alone.Schedule.Cost)
                break;
            var found = Solve(slot, null, Alone, Alone.Schedule.Cost - 1, out long bound);
            // Where nothing cheaper than the best so far exists, it is at least as dear there.
            bounds[slot.Start] = Math.Max(Least(slot), found is not null ? bound : Math.Min(bound, Alone.Schedule.Cost));
            Alone = found ?? Alone;
        }
        if (Alone != Patterns[0])
            Patterns = [Alone, .. Patterns];
        Bounds = [.. bounds.Select(entry => (entry.Key, entry.Value))];
        Bound = Bounds.Min(slot => slot.Bound);
    }

    private IEnumerable<Slot> InOrder() => _slots.OrderBy(slot => slot.TimeCost).ThenBy(slot => slot.Start);

    private long Least(Slot slot) => _leastSpending + slot.TimeCost;

    /// <summary>
    /// A schedule beside the others that makes the choices of a known one, in the slot in which that costs least; null where it fits nowhere
    /// within a limit. Found in milliseconds.
    /// </summary>
    public Found? Quick(Others others, Found pattern, long atMost, int patience)
    {
        Found? best = null;
        var taken = Taken(others);
        foreach (var slot in _slots.OrderBy(BoundOf).ThenBy(slot => slot.Start))
        {
            long limit = best is null ? atMost : best.Schedule.Cost - 1;
            if (BoundOf(slot) > limit)
                break;
            if (!IsFree(slot, others) || ProjectFor(slot, pattern.Project.Variation.LampCuresSeals) is not { } project || ListScheduler.For(project.Project, pattern.Schedule) is not { } list)
                continue;
            if (list.Place(OutOfBay(taken, slot, others), patience) is { } schedule && schedule.Cost <= limit)
                best = new Found(project with { Variation = project.Variation with { Others = others } }, schedule, false, Bound);
        }
        return best;
    }

    private RepairProject? ProjectFor(Slot slot, bool lamps)
    {
        return _projects.GetOrAdd((slot.Index, lamps), key => ProjectBuilder.Build(Case, Variation.Recommended with { Slot = key.Slot, LampCuresSeals = key.Lamps }));
    }

    private static Dictionary<ResourceId, ImmutableArray<Window>> Taken(Others others)
    {
        var taken = others.People.ToDictionary(entry => ProjectBuilder.PersonResource(entry.Key), entry => entry.Value);
        taken.Add(ProjectBuilder.Lamp, others.Lamps);
        taken.Add(ProjectBuilder.Booth, others.Booth);
        return taken;
    }

    /// <summary>Everybody is taken while the vehicle finds no bay.</summary>
    private Dictionary<ResourceId, ImmutableArray<Window>> OutOfBay(Dictionary<ResourceId, ImmutableArray<Window>> taken, Slot slot, Others others)
    {
        if (others.FullBays.IsEmpty)
            return taken;
        var outside = Bays.Outside(others.FullBays, slot.Start, slot.Start + Paint, Case.Time.Horizon);
        var all = new Dictionary<ResourceId, ImmutableArray<Window>>(taken);
        foreach (var person in Case.Shop.People)
        {
            var id = ProjectBuilder.PersonResource(person.Id);
            all[id] = Windows.Union([.. taken.GetValueOrDefault(id, []), .. outside]);
        }
        return all;
    }

    private int Paint => (int)Case.Shop.Times.Paint.TotalMinutes;

    private bool IsFree(Slot slot, Others others)
    {
        int end = slot.Start + Paint;
        return !others.Booth.Meets(slot.Start, end) && (_painter is null || !others.Of(_painter).Meets(slot.Start, end))
            && !others.FullBays.Meets(slot.Start - 1, slot.Start) && !others.FullBays.Meets(end, end + 1);
    }

    /// <summary>The best schedule beside the others, cheaper than or equal to a limit; null where there is none.</summary>
    public Found? Beside(Others others, Found? hint, long atMost)
    {
        Found? best = null;
        foreach (var slot in _slots.OrderBy(BoundOf).ThenBy(slot => slot.Start))
        {
            long limit = best is null ? atMost : best.Schedule.Cost - 1;
            if (BoundOf(slot) > limit)
                break;
            if (!IsFree(slot, others))
                continue;
            if (Solve(slot, others, hint, limit, out _) is { } found)
                best = found;
        }
        return best;
    }

    private long BoundOf(Slot slot)
    {
        foreach (var (start, bound) in Bounds)
        {
            if (start == slot.Start)
                return bound;
        }
        return _leastSpending + slot.TimeCost;
    }

    /// <summary>One slot: without lamps on seals, then with them where it is not reached without. Bound: of the cost; the largest number = proven that there is no schedule.</summary>
    private Found? Solve(Slot slot, Others? others, Found? hint, long atMost, out long bound)
    {
        bound = long.MaxValue;
        // A lamp on a seal only buys time: where an earlier slot was reached without one, so is this.
        bool mayHelp = Case.Shop.Lamps is not null && slot.Start < _reachedWithoutLamp;
        foreach (bool lamps in mayHelp ? (ReadOnlySpan<bool>)[false, true] : [false])
        {
            var variation = Variation.Recommended with { Slot = slot.Index, LampCuresSeals = lamps, Others = others };
            if (ProjectBuilder.Build(Case, variation) is not { } project)
                return null;
            if (lamps && !project.Batches.Values.Any(batch => batch.Heat == HeatUse.After))
                return null;
            var outcome = ProjectSolver.Solve(project.Project, Options() with { Hint = hint?.Schedule, CostAtMost = atMost == long.MaxValue ? null : atMost });
            bound = outcome is Outcome.Infeasible ? long.MaxValue : Math.Min(bound, outcome.Goals[0].LowerBound ?? 0);
            if (outcome.Plan is not null && !lamps)
                _reachedWithoutLamp = Math.Min(_reachedWithoutLamp, slot.Start);
            if (outcome.Plan is { } schedule)
                return new Found(project, schedule, outcome is Outcome.Optimal, outcome.Goals[0].LowerBound ?? 0);
        }
        return null;
    }

    private SolveOptions Options() => new()
    {
        Seed = _options.Seed,
        TimeLimit = _options.TimeLimit.ToTimeSpan(),
        Deterministic = _options.Deterministic,
        Trusted = true,
    };

    private Slot? SlotAt(int index)
    {
        var (time, shop, repair) = (Case.Time, Case.Shop, Case.Repair);
        int start = time.GridCeiling(repair.PaintSlots[index]);
        int end = start + (int)shop.Times.Paint.TotalMinutes;
        if (start < time.Now || end > time.Horizon || (repair.Arrives is { } arrival && time.Ceiling(arrival) > start))
            return null;
        long bay = SolverMoney.From(shop.TimeValue.BayDay * Case.Hours.BayDays(repair.PaintSlots[0], repair.PaintSlots[index]));
        int hours = Case.Hours.StartedHoursAfter(repair.Promise).TakeWhile(minute => minute <= end).Count();
        var late = shop.TimeValue.LatePerStartedHour * hours;
        return new Slot(index, start, bay + index, bay + index + SolverMoney.From(late > shop.TimeValue.LateAtMost ? shop.TimeValue.LateAtMost : late));
    }

    /// <summary>A paint slot of the repair.</summary>
    /// <param name="Index">Place in the repair's list.</param>
    /// <param name="Start">Minute of the plan.</param>
    /// <param name="SlotCost">What the slot itself costs: bay days. [solver money]</param>
    /// <param name="TimeCost">Bay days and the lateness that even a hand-over right after paint has. [solver money]</param>
    private sealed record Slot(int Index, int Start, long SlotCost, long TimeCost);
}
