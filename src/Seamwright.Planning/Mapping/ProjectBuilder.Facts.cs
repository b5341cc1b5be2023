using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Work;
using Step = Seamwright.Work.Step;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// What the work log says is done or under way. It is no activity that could be placed: it stands at minute 0 and holds back what waits for it,
/// its cure counted from its real end. Whoever is still at it is busy until then.
/// </summary>
internal sealed partial class ProjectBuilder
{
    private static readonly ModeId Fresh = new("fresh");

    private readonly Dictionary<ActivityId, Step> _done = [];

    private bool IsPainted => _case.Repair.DoneOn(null, StepKind.Paint) is not null;

    private bool IsDone(ActivityId id) => _done.ContainsKey(id);

    private ActivityId AddPast(string what, PlaceId? place, DataSheet? sheet)
    {
        var id = new ActivityId($"done:{what}:{place}");
        if (!_activityMeanings.ContainsKey(id))
            Add(new Activity { Id = id, Modes = [Moment([new Window(0, 1)])] }, new ActivityMeaning(null, place is { } named ? [named] : [], sheet));
        return id;
    }

    private ActivityId AddDone(Step done, PlaceId? place)
    {
        var id = AddPast(done.Kind.ToString(), place, _case.SheetOf(done.Material));
        _done[id] = done;
        return id;
    }

    private ActivityId? DoneOnCar(StepKind kind) => _case.Repair.DoneOn(null, kind) is { } done ? AddDone(done, null) : null;

    /// <summary>Not before the end of work that is done or under way.</summary>
    private void AfterDone(Step done, PlaceId? place, TimePoint to, ImmutableArray<ModeId> modes = default) => AfterDone(done, place, done.End, to, modes);

    private void AfterDone(Step done, PlaceId? place, Instant? free, TimePoint to, ImmutableArray<ModeId> modes = default) =>
        After(TimePoint.StartOf(AddDone(done, place)), to, Minute(free), default, modes);

    /// <summary>Order of the works on the whole car, any of which may be done.</summary>
    private void AfterOnCar(ActivityId from, ActivityId to)
    {
        if (IsDone(to))
            return;
        if (_done.TryGetValue(from, out var done))
            AfterDone(done, null, TimePoint.StartOf(to));
        else
            After(TimePoint.EndOf(from), TimePoint.StartOf(to));
    }

    private int Minute(Instant? at) => at is { } known ? _time.Ceiling(known) : _time.Horizon + 1;

    private void BeforePaintDone(Step done, PlaceId place, Instant? free, bool underStoneChip = false)
    {
        if (IsPainted)
            return;
        if (_variation.IsSetAside(FactIds.CureTime(place)))
            free = done.End;
        BeforePaintPast(AddDone(done, place), Minute(free), underStoneChip);
    }

    private void BeforePaintPast(ActivityId past, int minute, bool underStoneChip)
    {
        After(TimePoint.StartOf(past), TimePoint.StartOf(PaintId), minute);
        if (_variation.TimesReady)
            After(TimePoint.StartOf(past), TimePoint.StartOf(ReadyId), minute);
        foreach (var area in _case.Repair.BareAreas.Where(area => underStoneChip && area.StoneChip && _case.Repair.DoneOn(area.Id, StepKind.StoneChip) is null && !_variation.IsSetAside(FactIds.NoWay(area.Id))))
            After(TimePoint.StartOf(past), TimePoint.StartOf(StoneChipId(area.Id)), minute);
    }

    private void AddPainted(Step painted)
    {
        var mode = new ModeId("painted");
        _slots.Add((mode, painted.Start, 0));
        Add(
            new Activity { Id = PaintId, Modes = [new Mode { Id = mode, Duration = Math.Max(0, _time.Ceiling(painted.End)), Starts = [new Window(0, 1)] }] },
            new ActivityMeaning(StepKind.Paint, []));
        _modeMeanings.Add((PaintId, mode), new ModeMeaning(Slot: painted.Start, IsDone: true));
    }

    private void AddDoneOperation(Operation operation, Step done)
    {
        if (operation.Stage == Stage.AfterPaintHeat)
            AfterDone(done, operation.Id, TimePoint.StartOf(DeliverId));
        else if (done.End > _case.Repair.Now)
            BeforePaintDone(done, operation.Id, done.End);
    }

    private void AddCleanedBond(Bond bond, Step cleaned)
    {
        if (bond.RePrime)
            AddRePrime(bond, TimePoint.StartOf(AddDone(cleaned, bond.Id)), Math.Max(0, _time.Ceiling(cleaned.End)));
        else if (cleaned.End > _case.Repair.Now)
            BeforePaintDone(cleaned, bond.Id, cleaned.End);
    }

    /// <summary>A seam that is made cures from its real end; where a slot lies beyond its window, it is abraded before that slot.</summary>
    private void AddSealed(Joint joint, Step seam)
    {
        if (joint.Stage == Stage.AfterPaintHeat)
        {
            AfterDone(seam, joint.Id, TimePoint.StartOf(DeliverId));
            return;
        }
        var sheet = _case.SheetOf(seam.Material);
        BeforePaintDone(seam, joint.Id, _case.ReadyOf(joint, seam), joint.Above == LayerAbove.StoneChip);
        if (sheet?.NextLayerWithin is { } window && joint.Above is LayerAbove.Paint or LayerAbove.StoneChip && !IsPainted && !IsAbradedSince(joint.Id, seam.End))
            AddScuff(joint, seam, _case.Cures.LatestNextLayer(window, seam.End));
        var touch = sheet?.Milestone(MilestoneKind.TackFree) ?? sheet?.Milestone(MilestoneKind.Skin);
        foreach (var closing in joint.Stage == Stage.BeforeAccessCloses ? ClosingStarts() : [])
            AfterDone(seam, joint.Id, touch is null ? seam.End : _case.FinishOn(joint.Id, touch.Law, touch.Needed, seam.End), closing);
    }

    private bool IsAbradedSince(PlaceId place, Instant seam) => _case.Repair.DoneOn(place, StepKind.Abrade) is { } abraded && abraded.Start >= seam;

    private void AddScuff(Joint joint, Step seam, Instant paintBy)
    {
        var missed = PaintModes.Where(mode => mode.Slot > paintBy).Select(mode => mode.Id).ToImmutableArray();
        if (missed.Length == 0)
            return;
        var scuff = AddWork($"scuff:{joint.Id}", StepKind.Abrade, [joint.Id], Skill.Clean, AbradeMinutes(joint), BeforePaintDays, [new Trigger.InMode(PaintId, missed)]);
        BeforePaint(TimePoint.EndOf(scuff), null, default, false, joint.Id);
        // A bead is abraded when it is hard enough for paint, not while it smears.
        AfterDone(seam, joint.Id, _case.ReadyOf(joint, seam), TimePoint.StartOf(scuff));
    }

    /// <summary>Metal that is ready already is taken as it is while it is fresh; later it is cleaned again.</summary>
    private void AddFresh(ActivityId work, PlaceId place, ImmutableArray<Mode>.Builder modes)
    {
        if (_case.Repair.DoneOn(place, StepKind.Abrade) is null)
            return;
        modes.Add(new Mode { Id = Fresh, Starts = [new Window(0, 1)] });
        _modeMeanings.Add((work, Fresh), new ModeMeaning(IsDone: true));
    }

    /// <summary>Modes in which metal work is still to do; default = all.</summary>
    private ImmutableArray<ModeId> ToDo(ActivityId work) =>
        _modeMeanings.ContainsKey((work, Fresh)) ? [.. _activities.Find(activity => activity.Id == work)!.Modes.Select(mode => mode.Id).Where(mode => mode != Fresh)] : default;

    /// <summary>Metal made ready takes its next layer within so many minutes, whether it is still to be made ready or is already.</summary>
    private void StaysFresh(ActivityId work, PlaceId place, int minutes, TimePoint next, ImmutableArray<ModeId> nextModes)
    {
        AddLag(LagKind.Maximum, TimePoint.EndOf(work), next, new Delay.Fixed(minutes), ToDo(work), nextModes);
        if (!_modeMeanings.ContainsKey((work, Fresh)) || _case.Repair.DoneOn(place, StepKind.Abrade) is not { } done)
            return;
        AddLag(LagKind.Maximum, TimePoint.StartOf(work), next, new Delay.Fixed(_time.Floor(done.End) + minutes), [Fresh], nextModes);
        if (done.End > _case.Repair.Now)
            AddLag(LagKind.Minimum, TimePoint.StartOf(work), next, new Delay.Fixed(_time.Ceiling(done.End)), [Fresh], nextModes);
    }

    private void AddFoamed(Cavity cavity, Step foamed)
    {
        if (cavity.Stage != Stage.AfterPaintHeat && foamed.End > _case.Repair.Now)
            BeforePaintDone(foamed, cavity.Id, foamed.End);
        AfterDone(foamed, cavity.Id, TimePoint.StartOf(DeliverId));
    }

    private void AddStoneChipped(BareArea area, Step sprayed)
    {
        var sheet = _case.SheetOf(sprayed.Material);
        var ready = sprayed.HeatTo is null ? sheet?.Milestone(MilestoneKind.Paint) ?? sheet?.Milestone(MilestoneKind.Full) : null;
        BeforePaintDone(sprayed, area.Id, ready is null ? sprayed.End : _case.Cures.Finish(ready.Law, ready.Needed, sprayed.End));
    }

    /// <summary>A coat on an area that is not dry yet.</summary>
    private void AddDryingCoat(BareArea area, DataSheet coat, Instant applied)
    {
        if (IsPainted || coat.Milestone(MilestoneKind.NextLayer) is not { } next || _variation.IsSetAside(FactIds.CureTime(area.Id)))
            return;
        int dry = Minute(_case.Cures.Finish(next.Law, next.Needed, applied));
        if (dry <= _time.Now)
            return;
        var past = AddPast("coat", area.Id, coat);
        if (area.StoneChip)
            After(TimePoint.StartOf(past), TimePoint.StartOf(StoneChipId(area.Id)), dry);
        else
            BeforePaintPast(past, dry, underStoneChip: false);
    }

    /// <summary>Time for which somebody is still at work that has begun.</summary>
    private IEnumerable<Window> RunningOf(Person person) =>
        _case.Repair.Done.Where(done => done.Person == person.Id && done.End > _case.Repair.Now).Select(done => new Window(0, _time.Ceiling(done.End)));

    private IEnumerable<Window> RunningLamps() =>
        _case.Repair.Done.Where(done => done.Kind == StepKind.Lamp && done.End > _case.Repair.Now).Select(done => new Window(0, _time.Ceiling(done.End)));

    private IEnumerable<Window> RunningBooth() =>
        _case.Repair.Done.Where(done => done is { Kind: StepKind.StoneChip, HeatTo: not null } or { Kind: StepKind.Paint } && done.End > _case.Repair.Now).Select(done => new Window(0, _time.Ceiling(done.End)));

    /// <summary>Starts at which somebody is there for so many minutes, whatever the hours; empty = any.</summary>
    private ImmutableArray<Window> NotAway(Person person, int minutes)
    {
        if (person.Absences.IsEmpty)
            return [];
        ImmutableArray<Window> always = [new Window(0, _time.Horizon + 1)];
        var there = always.Without(Windows.Union(person.Absences.Select(away => new Window(_time.Floor(away.Start) - minutes + 1, _time.Ceiling(away.End)))));
        return there.IsEmpty ? [Never] : there;
    }
}
