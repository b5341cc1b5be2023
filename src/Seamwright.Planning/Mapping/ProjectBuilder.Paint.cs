using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>The paint slot, stone-chip before it, foam, wax, refit and checks after it, and what lateness costs.</summary>
internal sealed partial class ProjectBuilder
{
    /// <summary>So many days after the last slot are looked at where the slots are set aside; their places follow those of the slots offered.</summary>
    public const int WishedSlots = 3;

    private readonly List<(ModeId Id, Instant Slot, int Start)> _slots = [];

    private IReadOnlyList<(ModeId Id, Instant Slot, int Start)> PaintModes => _slots;

    private static ActivityId StoneChipId(PlaceId area) => new($"stone-chip:{area}");

    private void AddPaint()
    {
        if (_case.Repair.DoneOn(null, StepKind.Paint) is { } painted)
        {
            AddPainted(painted);
            return;
        }
        var slots = _case.Repair.PaintSlots;
        int minutes = Minutes(_shop.Times.Paint);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        for (int i = 0; i < slots.Length; i++)
        {
            var mode = new ModeId($"slot{i + 1}");
            int start = _time.GridCeiling(slots[i]);
            if (!PainterAt(start, minutes, out var painter))
                continue;
            long labour = painter is null ? 0 : SolverMoney.Labour(painter, minutes);
            if (start + minutes > _time.Horizon || start < _time.Now || (_variation.Slot is { } only && only != i) || !IsFree(start, start + minutes, painter))
                continue;
            _slots.Add((mode, slots[i], start));
            // The index breaks ties between slots that cost the same: the earlier one.
            long bay = ValueOfTime(_shop.TimeValue.BayDay * _hours.BayDays(_case.Repair.MeantSlot!.Value, slots[i]));
            modes.Add(new Mode { Id = mode, Duration = minutes, Starts = [new Window(start, start + 1)], Cost = labour + bay + (_variation.SpendingOnly ? 0 : i) + PriceOfSlot(slots[i]) });
            _modeMeanings.Add((PaintId, mode), new ModeMeaning(painter?.Id, Slot: slots[i]));
        }
        if (_variation.IsSetAside(FactIds.Slots))
            AddWishedSlots(modes, minutes);
        if (modes.Count == 0)
            modes.Add(new Mode { Id = new ModeId("no-slot"), Duration = minutes, Starts = [Never] });
        Add(new Activity { Id = PaintId, Modes = modes.ToImmutable() }, new ActivityMeaning(StepKind.Paint, []));
    }

    /// <summary>Whether booth and painter are free, and the vehicle has arrived.</summary>
    private bool IsFree(int start, int end, Person? painter) =>
        (_case.Repair.Arrives is not { } arrival || _time.Ceiling(arrival) <= start)
        && (_variation.Others is not { } others || (!others.Booth.Meets(start, end) && (painter is null || !others.Of(painter.Id).Meets(start, end))));

    /// <summary>Where the slots are set aside: the hour of the last one (of now, where that is past) on each of the next days.</summary>
    private void AddWishedSlots(ImmutableArray<Mode>.Builder modes, int minutes)
    {
        var painter = _shop.People.FirstOrDefault(person => person.Skills.Contains(Skill.Paint));
        long labour = painter is null ? 0 : SolverMoney.Labour(painter, minutes);
        var slots = _case.Repair.PaintSlots;
        int from = _time.GridCeiling(slots.Append(_case.Repair.Now).Max());
        for (int day = 1; day <= WishedSlots; day++)
        {
            int start = from + day * 24 * 60;
            if (start + minutes > _time.Horizon || (_variation.Slot is { } only && only != slots.Length + day - 1))
                continue;
            var mode = new ModeId($"later{day}");
            modes.Add(new Mode { Id = mode, Duration = minutes, Starts = [new Window(start, start + 1)], Cost = labour });
            _modeMeanings.Add((PaintId, mode), new ModeMeaning(painter?.Id));
        }
    }

    /// <summary>Something that must be done, and have cured, before paint.</summary>
    private void BeforePaint(TimePoint end, TimeFunction? ready, ImmutableArray<ModeId> modes, bool underStoneChip, PlaceId place)
    {
        if (_variation.IsSetAside(FactIds.CureTime(place)))
            ready = null;
        Delay delay = ready is null ? new Delay.Fixed(0) : new Delay.ByTime(ready);
        AddLag(LagKind.Minimum, end, TimePoint.StartOf(PaintId), delay, modes);
        if (_variation.TimesReady)
            AddLag(LagKind.Minimum, end, TimePoint.StartOf(ReadyId), delay, modes);
        if (underStoneChip)
        {
            foreach (var area in _case.Repair.BareAreas.Where(area => area.StoneChip && !_variation.IsSetAside(FactIds.NoWay(area.Id))))
                AddLag(LagKind.Minimum, end, TimePoint.StartOf(StoneChipId(area.Id)), delay, modes);
        }
    }

    /// <summary>Whoever paints in a slot: the first painter who is there; false where all painters are away.</summary>
    private bool PainterAt(int start, int minutes, out Person? painter)
    {
        var painters = _shop.People.Where(person => person.Skills.Contains(Skill.Paint)).ToList();
        painter = painters.Find(person => !person.IsAway(_time.At(start), _time.At(start + minutes)));
        return painter is not null || painters.Count == 0;
    }

    private void AddReadyMoment()
    {
        int last = Math.Clamp(_variation.ReadyAtMost ?? _time.Horizon, 0, _time.Horizon);
        AddMoment(ReadyId.Value, [new Window(0, last + 1)]);
        After(TimePoint.StartOf(ReadyId), TimePoint.StartOf(PaintId), _variation.Reserve);
    }

    /// <summary>Stone-chip coating: in the warm booth, or in shop air where the sheet's times fit.</summary>
    private void AddStoneChip(BareArea area)
    {
        var id = StoneChipId(area.Id);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        int spraying = Minutes(_shop.Times.StoneChipSetUp) + Minutes(_shop.Times.StoneChipPerSquareMetre, area.Area.SquareMetres);
        foreach (var sheet in _case.Input.Sheets.Where(sheet => sheet.Use == MaterialUse.StoneChip))
        {
            var amount = StoneChipAmount(sheet, area);
            long material = SolverMoney.From(CostOf(sheet, amount, Length.Zero));
            var consumes = Consumes(sheet, amount, Length.Zero);
            if (BoothCure(sheet) is { } cure)
            {
                foreach (var person in _shop.People.Where(person => person.Skills.Contains(Skill.Paint)))
                {
                    int minutes = Minutes(_shop.Booth!.Ramp) + spraying + cure;
                    var mode = new ModeId($"{sheet.Id}/booth/{person.Id}");
                    modes.Add(new Mode
                    {
                        Id = mode,
                        Duration = minutes,
                        Demands = [new Demand(BoothId, 1)],
                        Starts = NotAway(person, spraying),
                        Cost = material + SolverMoney.Labour(person, spraying) + SolverMoney.From(BoothCost(minutes)),
                        Consumes = consumes,
                    });
                    _modeMeanings.Add((id, mode), new ModeMeaning(person.Id, Sheet: sheet, Labour: spraying));
                    BeforePaint(TimePoint.EndOf(id), null, [mode], false, area.Id);
                }
            }
            var windows = StartWindows(sheet);
            if (!(windows is [var none] && none == Never) && (sheet.Milestone(MilestoneKind.Paint) ?? sheet.Milestone(MilestoneKind.Full)) is { } ready)
            {
                foreach (var person in PeopleFor(Skill.Paint, sheet))
                {
                    var mode = new ModeId($"{sheet.Id}/air/{person.Id}");
                    modes.Add(new Mode
                    {
                        Id = mode,
                        Duration = spraying,
                        Cost = material + SolverMoney.Labour(person, spraying),
                        Demands = [new Demand(PersonId(person), 1)],
                        Starts = Intersect(windows, BeforePaintDays),
                        Consumes = consumes,
                    });
                    _modeMeanings.Add((id, mode), new ModeMeaning(person.Id, Sheet: sheet));
                    BeforePaint(TimePoint.EndOf(id), _case.Cures.Reached(ready), [mode], false, area.Id);
                }
            }
        }
        if (modes.Count == 0)
            modes.Add(new Mode { Id = new ModeId("no-coating"), Starts = [Never] });
        Add(new Activity { Id = id, Modes = modes.ToImmutable() }, new ActivityMeaning(StepKind.StoneChip, [area.Id]));
        AddAfterPlaces(area.After, area.Id, TimePoint.StartOf(id), default);
    }

    /// <summary>Minutes in the warm booth until the coating is ready; null where there is no booth or the sheet gives no time at its heat.</summary>
    private int? BoothCure(DataSheet sheet)
    {
        if (_shop.Booth is not { } booth || (sheet.Milestone(MilestoneKind.Paint) ?? sheet.Milestone(MilestoneKind.Full)) is not { } ready)
            return null;
        var humidity = _case.Cures.Panel.HumidityAt(_time.At(_time.Now));
        double rate = CureRate.Rate(ready.Law, booth.PanelTemperature, _case.Cures.Panel.VapourPressureAt(_time.At(_time.Now)), humidity);
        return rate > 0 ? (int)Math.Ceiling(ready.Needed.Minutes / rate - 1e-6) : null;
    }

    private Money BoothCost(int minutes) => _shop.Booth!.PerStartedHour * (int)Math.Ceiling(minutes / 60.0);

    private bool AddCavities()
    {
        foreach (var cavity in _case.Repair.Cavities.Where(cavity => cavity.Treatment is CavityTreatment.FlexibleFoam or CavityTreatment.RigidFoam))
        {
            if (_case.Repair.DoneOn(cavity.Id, StepKind.Foam) is { } foamed)
                AddFoamed(cavity, foamed);
            else if (!_variation.IsSetAside(FactIds.NoWay(cavity.Id)) && !AddFoam(cavity))
                return false;
        }
        return true;
    }

    private bool AddFoam(Cavity cavity)
    {
        var use = cavity.Treatment == CavityTreatment.FlexibleFoam ? MaterialUse.FlexibleFoam : MaterialUse.RigidFoam;
        var id = new ActivityId($"foam:{cavity.Id}");
        var modes = ImmutableArray.CreateBuilder<Mode>();
        var facts = _case.Cavities.First(facts => facts.Joint.Id == cavity.Id);
        int minutes = Minutes(_shop.Times.FoamPerCavity) + Minutes(_shop.Times.TwoPartSetUp) + Minutes(_shop.Times.NewNozzle);
        foreach (var option in facts.Options.Where(option => option.Sheet.Use == use && option.Preparation == Preparation.AsIs && IsAllowed(option)))
        {
            var sheet = option.Sheet;
            var amount = FoamAmount.Of(sheet, cavity, _shop.Amounts);
            foreach (var person in PeopleFor(Skill.Seal, sheet))
            {
                var mode = new ModeId($"{sheet.Id}/{person.Id}");
                modes.Add(new Mode
                {
                    Id = mode,
                    Duration = minutes,
                    Demands = [new Demand(PersonId(person), 1)],
                    Cost = SolverMoney.Labour(person, minutes) + SolverMoney.From(CostOf(sheet, amount, Length.Zero) + NozzleCost(sheet, 1)),
                    Starts = StartWindows(sheet),
                    Consumes = OwnSessionConsumes(sheet, amount),
                });
                _modeMeanings.Add((id, mode), new ModeMeaning(person.Id, Sheet: sheet));
            }
        }
        if (modes.Count == 0)
            return false;
        Add(new Activity { Id = id, Modes = modes.ToImmutable() }, new ActivityMeaning(StepKind.Foam, [cavity.Id]));
        AddAfterPlaces(cavity.After, cavity.Id, TimePoint.StartOf(id), default);
        if (cavity.Stage == Stage.AfterPaintHeat)
        {
            After(TimePoint.EndOf(PaintId), TimePoint.StartOf(id));
            AfterSlotDays(id);
        }
        else
        {
            RestrictToDays(id);
            BeforePaint(TimePoint.EndOf(id), null, default, false, cavity.Id);
            if (cavity.Stage == Stage.BeforeAccessCloses)
            {
                foreach (var closing in ClosingStarts())
                    After(TimePoint.EndOf(id), closing);
            }
        }
        After(TimePoint.EndOf(id), TimePoint.StartOf(DeliverId));
        return true;
    }

    private void AddAfterPaint()
    {
        AddMoment(DeliverId.Value);
        var waxed = _case.Repair.Cavities.Where(cavity => cavity.Treatment == CavityTreatment.Wax).ToList();
        var wax = DoneOnCar(StepKind.Wax) ?? AddWork(
            "wax", StepKind.Wax, [.. waxed.Select(cavity => cavity.Id)], Skill.Wax,
            Math.Max(Minutes(_shop.Times.WaxPerCar), Minutes(_shop.Times.WaxPerCavity, waxed.Count)),
            cost: WaxCost(waxed), consumes: WaxConsumes(waxed));
        var refit = DoneOnCar(StepKind.Refit) ?? AddWork("refit", StepKind.Refit, [], Skill.Refit, Minutes(_shop.Times.Refit));
        var check = DoneOnCar(StepKind.FinalCheck) ?? AddWork("check", StepKind.FinalCheck, [], Skill.Check, Minutes(_shop.Times.FinalCheck));
        // Trim hides the holes, so wax goes first; the drains are looked at once the wax is in.
        AfterOnCar(PaintId, wax);
        AfterOnCar(wax, refit);
        AfterOnCar(wax, check);
        AfterOnCar(refit, DeliverId);
        AfterOnCar(check, DeliverId);
        foreach (var id in new[] { wax, refit, check }.Where(id => !IsDone(id)))
            AfterSlotDays(id);
        foreach (var operation in _case.Repair.Operations.Where(operation => operation.Stage == Stage.AfterPaintHeat && _case.Repair.DoneOn(operation.Id, StepKind.Operation) is null))
            AfterSlotDays(OperationId(operation.Id));
        foreach (var facts in _case.Joints.Where(facts => facts.Joint.Stage == Stage.AfterPaintHeat && !facts.Joint.IsBare))
        {
            if (_activityMeanings.ContainsKey(SealId(facts.Joint.Id)))
                AfterSlotDays(SealId(facts.Joint.Id));
        }
    }

    /// <summary>A weekend day is worked only for the slot that lies on it.</summary>
    private void AfterSlotDays(ActivityId activity)
    {
        if (!_hours.HasSlotWeekends)
            return;
        foreach (var (mode, slot, _) in _slots)
            _conditional.Add(new ConditionalWindow { Activity = activity, Windows = _hours.DaysFor(slot), WhenActivity = PaintId, WhenModes = [mode] });
    }

    private ImmutableArray<Charge> Charges()
    {
        var steps = ImmutableArray.CreateBuilder<Seamwright.Scheduling.Step>();
        var late = Money.Zero;
        foreach (int minute in _hours.StartedHoursAfter(_case.Repair.Promise))
        {
            var next = late + _shop.TimeValue.LatePerStartedHour;
            if (next > _shop.TimeValue.LateAtMost)
                next = _shop.TimeValue.LateAtMost;
            if (next == late)
                break;
            late = next;
            steps.Add(new Seamwright.Scheduling.Step(Math.Max(0, minute), ValueOfTime(late)));
        }
        ImmutableArray<Charge> lateness = steps.Count == 0 || _variation.SpendingOnly ? [] : [new Charge { Activity = DeliverId, Edge = Edge.Start, Amount = new StepFunction(steps.ToImmutable()) }];
        return [.. lateness, .. PriceOfHandOver()];
    }

    /// <summary>The plan of least spending counts time so little that it only decides between plans that spend the same to within a few cents.</summary>
    private long ValueOfTime(Money money) => _variation.SpendingOnly ? 0 : _variation.Aim == PlanAim.Cheapest ? SolverMoney.From(money) / 10_000 : SolverMoney.From(money);
}
