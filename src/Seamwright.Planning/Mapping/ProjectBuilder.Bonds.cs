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

/// <summary>Adhesive bonds, other work of the repair, and bringing the vehicle level.</summary>
internal sealed partial class ProjectBuilder
{
    private static ActivityId OperationId(PlaceId id) => new($"operation:{id}");

    private static ActivityId FitId(PlaceId id) => new($"fit:{id}");

    private static ActivityId HoldId(PlaceId id) => new($"hold:{id}");

    private static ActivityId CleanBondId(PlaceId id) => new($"unclamp:{id}");

    private static ActivityId RePrimeId(PlaceId id) => new($"reprime:{id}");

    private void AddOperations()
    {
        foreach (var operation in _case.Repair.Operations)
        {
            var id = OperationId(operation.Id);
            if (_case.Repair.DoneOn(operation.Id, StepKind.Operation) is { } done)
            {
                AddDoneOperation(operation, done);
                continue;
            }
            AddWork(id.Value, StepKind.Operation, [operation.Id], operation.Skill, Minutes(operation.Time), BeforeDays(operation.Stage));
            AddAfterPlaces(operation.After, operation.Id, TimePoint.StartOf(id), default);
            if (operation.Stage == Stage.AfterPaintHeat)
            {
                After(TimePoint.EndOf(PaintId), TimePoint.StartOf(id));
                After(TimePoint.EndOf(id), TimePoint.StartOf(DeliverId));
            }
            else
            {
                BeforePaint(TimePoint.EndOf(id), null, default, false, operation.Id);
            }
        }
    }

    private void AddBonds()
    {
        foreach (var bond in _case.Repair.Bonds)
        {
            var sheet = _case.Sheets[bond.Adhesive];
            if (_case.Repair.DoneOn(bond.Id, StepKind.CleanBond) is { } cleaned)
            {
                AddCleanedBond(bond, cleaned);
                continue;
            }
            var handling = sheet.Milestone(MilestoneKind.Handling);
            var hold = HoldId(bond.Id);
            var unheated = new ModeId("clock");
            var modes = ImmutableArray.CreateBuilder<Mode>();
            modes.Add(new Mode { Id = unheated, Starts = [MustBeUnderLamp(bond.UnderLamp, bond.Id) ? Never : new Window(0, 1)] });
            var clean = AddWork(CleanBondId(bond.Id).Value, StepKind.CleanBond, [bond.Id], Skill.Clean, Minutes(bond.CleanTime), BeforePaintDays);
            if (bond.Closed is null)
                AddFit(bond, sheet);
            AddHandling(bond, handling, hold, unheated, clean);
            foreach (var heat in BondHeats(bond, sheet, handling))
                modes.Add(AddBondLamp(bond, hold, heat, clean));
            Add(new Activity { Id = hold, Modes = modes.ToImmutable() }, new ActivityMeaning(null, [bond.Id], sheet));
            if (bond.RePrime)
                AddRePrime(bond, TimePoint.EndOf(clean), 0);
            else
                BeforePaint(TimePoint.EndOf(clean), null, default, false, bond.Id);
        }
    }

    private void AddFit(Bond bond, DataSheet sheet)
    {
        var fit = FitId(bond.Id);
        var windows = StartWindows(sheet);
        var amount = AdhesiveAmount(sheet, bond);
        long cost = SolverMoney.From(CostOf(sheet, amount, Length.Zero)) + SolverMoney.From(NozzleCost(sheet, 1));
        AddWork(fit.Value, StepKind.Bond, [bond.Id], Skill.Seal, Math.Max(1, Minutes(bond.FitTime)), Intersect(windows, BeforePaintDays), cost: cost, consumes: OwnSessionConsumes(sheet, amount));
        _activityMeanings[fit] = new ActivityMeaning(StepKind.Bond, [bond.Id], sheet, amount);
        AddAfterPlaces(bond.After, bond.Id, TimePoint.StartOf(fit), default);
    }

    private void AddHandling(Bond bond, Milestone? handling, ActivityId hold, ModeId unheated, ActivityId clean)
    {
        if (handling is null || _variation.IsSetAside(FactIds.CureTime(bond.Id)))
        {
            if (bond.Closed is null)
                After(TimePoint.EndOf(FitId(bond.Id)), TimePoint.StartOf(clean));
            return;
        }
        if (bond.Closed is { } closed)
        {
            var free = _case.FinishOn(bond.Id, handling.Law, handling.Needed, closed);
            int minute = free is { } at ? _time.Ceiling(at) : _time.Horizon + 1;
            // Counted from the decision, which always lies at minute 0.
            After(TimePoint.StartOf(hold), TimePoint.StartOf(clean), Math.Max(0, minute), [unheated]);
        }
        else
        {
            var cure = TimeFunctions.Latest(_case.Cures.Reached(handling))!;
            var clock = new ActivityId($"clamped:{bond.Id}");
            Add(new Activity { Id = clock, Modes = [new Mode { Id = new ModeId("at") }], PresentWhen = [new Trigger.InMode(hold, [unheated])] }, new ActivityMeaning(null, [bond.Id]));
            AddLag(LagKind.Minimum, TimePoint.EndOf(FitId(bond.Id)), TimePoint.StartOf(clock), new Delay.ByTime(cure));
            After(TimePoint.StartOf(clock), TimePoint.StartOf(clean));
        }
    }

    /// <summary>The cleaned edge is primed again; seams and paint wait for that primer.</summary>
    private void AddRePrime(Bond bond, TimePoint cleaned, int later)
    {
        var prime = RePrimeId(bond.Id);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        int minutes = Minutes(_shop.Times.SpotRePrime);
        foreach (var primer in _case.Primers.Where(primer => PrimerChoice.MayGo(primer, _case.Repair, bond.Id)))
        {
            var windows = StartWindows(primer);
            if (windows is [var none] && none == Never)
                continue;
            var amount = SpotAmount(primer, bond);
            foreach (var person in PeopleFor(Skill.Prime, primer))
            {
                var mode = new ModeId($"{primer.Id}/{person.Id}");
                modes.Add(new Mode
                {
                    Id = mode,
                    Duration = minutes,
                    Demands = [new Demand(PersonId(person), 1)],
                    Cost = SolverMoney.Labour(person, minutes) + SolverMoney.From(CostOf(primer, amount, Length.Zero)),
                    Starts = Intersect(windows, BeforePaintDays),
                    Consumes = Consumes(primer, amount, Length.Zero),
                });
                _modeMeanings.Add((prime, mode), new ModeMeaning(person.Id, Sheet: primer));
            }
        }
        if (modes.Count == 0)
            modes.Add(new Mode { Id = new ModeId("no-primer"), Starts = [Never] });
        Add(new Activity { Id = prime, Modes = modes.ToImmutable() }, new ActivityMeaning(StepKind.Prime, [bond.Id]));
        After(cleaned, TimePoint.StartOf(prime), later);
        foreach (var (primer, mine) in PrimerModes(prime, modes))
        {
            if (primer.Milestone(MilestoneKind.NextLayer) is { } next)
                BeforePaint(TimePoint.EndOf(prime), _case.Cures.Reached(next), mine, false, bond.Id);
        }
    }

    private IEnumerable<(DataSheet Primer, ImmutableArray<ModeId> Modes)> PrimerModes(ActivityId prime, IEnumerable<Mode> modes) =>
        modes.Where(mode => _modeMeanings.ContainsKey((prime, mode.Id)))
            .GroupBy(mode => _modeMeanings[(prime, mode.Id)].Sheet!)
            .Select(group => (group.Key, group.Select(mode => mode.Id).ToImmutableArray()));

    /// <summary>What a joint, bond or operation waits for: the places it names, and hot work near it.</summary>
    private void AddAfterPlaces(ImmutableArray<PlaceId> after, PlaceId place, TimePoint start, ImmutableArray<ModeId> modes)
    {
        var repair = _case.Repair;
        foreach (var bond in repair.Bonds.Where(bond => after.Contains(bond.Id)))
        {
            if (!bond.RePrime)
            {
                if (_case.Repair.DoneOn(bond.Id, StepKind.CleanBond) is { } cleaned)
                    AfterDone(cleaned, bond.Id, start, modes);
                else
                    After(TimePoint.EndOf(CleanBondId(bond.Id)), start, 0, default, modes);
                continue;
            }
            var prime = RePrimeId(bond.Id);
            var activity = _activities.Find(candidate => candidate.Id == prime)!;
            foreach (var (primer, mine) in PrimerModes(prime, activity.Modes))
            {
                if (primer.Milestone(MilestoneKind.NextLayer) is { } next)
                    AddLag(LagKind.Minimum, TimePoint.EndOf(prime), start, new Delay.ByTime(_case.Cures.Reached(next)), mine, modes);
                if (primer.NextLayerWithin is { } window)
                    AddLag(LagKind.Maximum, TimePoint.EndOf(prime), start, new Delay.ByTime(_case.Cures.Latest(window)), mine, modes);
            }
        }
        var waits = repair.Operations.Where(operation => operation.Id != place && (after.Contains(operation.Id) || (operation.HotWork && operation.Near.Contains(place))));
        foreach (var operation in waits)
        {
            if (repair.DoneOn(operation.Id, StepKind.Operation) is { } done)
                AfterDone(done, operation.Id, start, modes);
            else
                After(TimePoint.EndOf(OperationId(operation.Id)), start, 0, default, modes);
        }
    }

    /// <summary>Starts of the work that closes the access to inner seams.</summary>
    private IEnumerable<TimePoint> ClosingStarts() =>
        _case.Repair.Operations.Where(operation => operation.ClosesAccess && _case.Repair.DoneOn(operation.Id, StepKind.Operation) is null).Select(operation => TimePoint.StartOf(OperationId(operation.Id)))
            .Concat(_case.Repair.Bonds.Where(bond => bond.ClosesAccess && bond.Closed is null).Select(bond => TimePoint.StartOf(FitId(bond.Id))));

    /// <summary>A self-levelling material on a vehicle that leans waits until the vehicle is level.</summary>
    private void AddLevelling(ActivityId seal, Dictionary<JointOption, List<ModeId>> modesOf)
    {
        var leaning = modesOf
            .Where(entry => entry.Key.Sheet.LevelOnly && _case.Repair.VehicleTilt is { } tilt && tilt > (entry.Key.Sheet.MaximumTilt ?? Angle.Zero))
            .SelectMany(entry => entry.Value)
            .ToImmutableArray();
        if (leaning.Length == 0)
            return;
        var level = new ActivityId("level");
        if (!_activityMeanings.ContainsKey(level))
            AddWork(level.Value, StepKind.Level, [], Skill.Clean, Minutes(_shop.Times.Level), BeforePaintDays, [new Trigger.InMode(seal, leaning)]);
        else
            AddTrigger(level, new Trigger.InMode(seal, leaning));
        After(TimePoint.EndOf(level), TimePoint.StartOf(seal), 0, default, leaning);
    }

    private void AddTrigger(ActivityId id, Trigger trigger)
    {
        int index = _activities.FindIndex(activity => activity.Id == id);
        _activities[index] = _activities[index] with { PresentWhen = _activities[index].PresentWhen.Add(trigger) };
    }
}
