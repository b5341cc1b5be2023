using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>Joints and their sealing sessions.</summary>
internal sealed partial class ProjectBuilder
{
    /// <summary>An abraded coat takes the seal within a working day. (common practice, no source)</summary>
    private const int AbradedStaysFresh = 24 * 60;

    /// <summary>Bared steel is primed within three hours. (one trade text)</summary>
    private const int BaredSteelStaysFresh = 3 * 60;

    /// <summary>Bared aluminium and magnesium skin over at once: they are primed within the hour. (common practice; a trade text says at once)</summary>
    private const int BaredLightMetalStaysFresh = 60;

    /// <summary>Shares of a mixing nozzle are counted in thousandths.</summary>
    private const int WholeNozzle = 1000;

    private readonly Dictionary<(MaterialId, Stage), ImmutableArray<BatchId>> _sessions = [];
    private readonly Dictionary<MaterialId, int> _lives = [];

    private static ActivityId SealId(PlaceId joint) => new($"seal:{joint}");

    private bool AddSeals()
    {
        var wanted = _case.Joints.Where(facts => facts.IsSeam && !_variation.IsSetAside(FactIds.NoWay(facts.Joint.Id))).ToList();
        var chosen = new List<(Joint Joint, List<JointOption> Options)>();
        foreach (var facts in wanted)
        {
            var options = Admissible(facts).ToList();
            if (options.Count == 0)
                return false;
            chosen.Add((facts.Joint, options));
        }
        foreach (var group in chosen.SelectMany(joint => joint.Options).GroupBy(option => (option.Sheet.Id, option.Joint.Stage)))
            AddSessions([.. group]);
        foreach (var (joint, options) in chosen)
        {
            var open = MustBeUnderLamp(joint.UnderLamp, joint.Id) ? options.FindAll(option => SessionsFor(option).Any()) : options;
            if (open.Count == 0)
                return false;
            AddSeal(joint, open);
        }
        foreach (var facts in _case.Joints.Where(facts => facts.Sealed is not null))
            AddSealed(facts.Joint, facts.Sealed!);
        return true;
    }

    /// <summary>Options that may be used, or that the variation forces; facts set aside do not count against them.</summary>
    private IEnumerable<JointOption> Admissible(JointFacts facts)
    {
        var open = facts.Options.Where(IsOpen);
        if (_variation.Forced.TryGetValue(facts.Joint.Id, out var forced))
            open = open.Where(option => option.Sheet.Id == forced);
        return open.GroupBy(option => option.Sheet.Id).SelectMany(LeastPreparation);
    }

    private bool IsOpen(JointOption option) =>
        option.Sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape or MaterialUse.AntiFlutter
        && IsAllowed(option)
        && !IsUnprimed(option)
        && (option.CoatWindow is not [var window] || window != Never || _variation.IsSetAside(FactIds.Window(option.Joint.Id)))
        && (!_case.Application.For(option.Sheet).IsEmpty || _variation.IsSetAside(FactIds.Limits(option.Sheet.Id)) || CanPreheat(option))
        && PeopleFor(Skill.Seal, option.Sheet).Any();

    /// <summary>A sheet that allows bare metal saves no primer: it stays on primer unless the maker's procedure names it for bare metal too.</summary>
    private bool IsUnprimed(JointOption option) =>
        option.Preparation == Preparation.AsIs
        && option.Joint.Surface.IsBareMetal
        && !_case.Repair.Procedure.Any(statement =>
            statement.Kind == ProcedureKind.Allows && (statement.Place is null || statement.Place == option.Joint.Id) && statement.Names(option.Sheet));

    /// <summary>
    /// Of one material's preparations: as it is, and abraded too where the coat's window ends inside the plan; more work only where less
    /// is not allowed.
    /// </summary>
    private IEnumerable<JointOption> LeastPreparation(IEnumerable<JointOption> options)
    {
        var byPreparation = options.OrderBy(option => option.Preparation).ToList();
        var least = byPreparation[0];
        yield return least;
        if (least.Preparation == Preparation.AsIs && least.CoatWindow is [var window] && window.To <= _time.Horizon)
        {
            var abraded = byPreparation.Find(option => option.Preparation == Preparation.Abrade);
            if (abraded is not null)
                yield return abraded;
        }
    }

    private bool IsAllowed(JointOption option) =>
        option.Admissible
        || option.Verdicts.All(verdict => verdict.Kind <= VerdictKind.Advice || _variation.IsSetAside(FactIds.Rule(option.Joint.Id, verdict.RuleId)));

    private void AddSessions(IReadOnlyList<JointOption> options)
    {
        var sheet = options[0].Sheet;
        var joints = options.Select(option => option.Joint.Id).Distinct().ToList();
        var windows = StartWindows(sheet);
        if (!(windows is [var only] && only == Never))
        {
            bool mixer = Nozzles.Takes(sheet);
            AddAlikeSessions(sheet, options[0].Joint.Stage, options, windows, Math.Min(joints.Count, 2), mixer ? 1 : 0);
        }
        AddLampSessions(options);
    }

    /// <summary>Up to two sessions of one material in a stage: one for all, one more for late joints. Mixers take further nozzles inside a session.</summary>
    private void AddAlikeSessions(DataSheet sheet, Stage stage, IReadOnlyList<JointOption> options, ImmutableArray<Window> windows, int count, int nozzles)
    {
        string name = $"{sheet.Id}/{stage}";
        var end = LimitsEnd(sheet);
        int most = options.GroupBy(option => option.Joint.Id).Sum(group => group.Max(NozzleShare));
        var ids = ImmutableArray.CreateBuilder<BatchId>();
        for (int i = 0; i < count; i++)
        {
            var id = new BatchId($"{name}#{i + 1}");
            ids.Add(id);
            _batches.Add(new Batch
            {
                Id = id,
                Setup = SetUpMinutes(sheet, nozzles),
                Crews = [.. PeopleFor(Skill.Seal, sheet).Select(Crew)],
                Cost = SolverMoney.From(NozzleCost(sheet, nozzles)),
                Consumes = SessionConsumes(sheet, nozzles),
                Starts = windows,
                LatestEnd = end,
                MaxLoad = nozzles > 0 ? WholeNozzle : null,
                SymmetryGroup = count > 1 && most <= WholeNozzle ? name : null,
                SymmetryIndex = i,
            });
            _batchMeanings.Add(id, new BatchMeaning(StepKind.Seal, sheet, nozzles, HeatUse.None));
            if (nozzles > 0)
                AddFurtherNozzles(id, sheet, most);
        }
        _sessions[(sheet.Id, stage)] = ids.ToImmutable();
    }

    /// <summary>
    /// Nozzles beyond the first as members of the session that make room: one, two and four of them, so that any number up to seven is one choice
    /// of each. A nozzle is done when its life or its pack is.
    /// </summary>
    private void AddFurtherNozzles(BatchId session, DataSheet sheet, int most)
    {
        int needed = (most + WholeNozzle - 1) / WholeNozzle - 1;
        for (int count = 1; count <= needed && count <= 4; count *= 2)
        {
            var id = new ActivityId($"nozzles:{session}+{count}");
            var (none, fresh) = (new ModeId("none"), new ModeId("fresh"));
            Add(
                new Activity
                {
                    Id = id,
                    Modes =
                    [
                        new Mode { Id = none, Starts = [new Window(0, 1)] },
                        new Mode
                        {
                            Id = fresh,
                            Batch = session,
                            Work = count * Minutes(_shop.Times.NewNozzle),
                            Load = -count * WholeNozzle,
                            Cost = SolverMoney.From(NozzleCost(sheet, count)),
                            Consumes = SessionConsumes(sheet, count),
                        },
                    ],
                },
                new ActivityMeaning(null, []));
            _modeMeanings.Add((id, fresh), new ModeMeaning(Nozzles: count));
        }
    }

    /// <summary>Share of a mixing nozzle that a joint takes: of its life by the work, of its pack by the bead, whichever is more. [thousandths]</summary>
    private int NozzleShare(JointOption option)
    {
        if (!Nozzles.Takes(option.Sheet))
            return 0;
        double life = option.Work / (double)NozzleLife(option.Sheet);
        double pack = option.Amount / (option.Sheet.Pack.Content - Nozzles.Waste(_shop.Amounts));
        return (int)Math.Ceiling((WholeNozzle * Math.Max(life, pack)) - 1e-6);
    }

    private int NozzleLife(DataSheet sheet)
    {
        if (!_lives.TryGetValue(sheet.Id, out int life))
            _lives.Add(sheet.Id, life = ShortestLife(sheet, StartWindows(sheet)));
        return life;
    }

    private Crew Crew(Person person) => new()
    {
        Id = new CrewId(person.Id),
        Demands = [new Demand(PersonId(person), 1)],
        CostPerMinute = SolverMoney.Labour(person, 1),
    };

    private void AddSeal(Joint joint, List<JointOption> options)
    {
        var id = SealId(joint.Id);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        var modesOf = new Dictionary<JointOption, List<ModeId>>();
        foreach (var option in options)
        {
            var list = modesOf[option] = [];
            foreach (var (key, batches) in SessionsFor(option))
            {
                foreach (var batch in batches)
                {
                    var mode = new ModeId($"{option.Key}{key}@{batch}");
                    list.Add(mode);
                    modes.Add(new Mode
                    {
                        Id = mode,
                        Batch = batch,
                        Work = option.Work,
                        Load = NozzleShare(option),
                        Cost = SolverMoney.From(CostOf(option.Sheet, option.Amount, option.StripLength)),
                        Starts = _variation.IsSetAside(FactIds.Window(joint.Id)) ? [] : option.CoatWindow,
                        Consumes = Consumes(option.Sheet, option.Amount, option.StripLength),
                    });
                    _modeMeanings.Add((id, mode), new ModeMeaning(Option: option));
                }
            }
        }
        Add(new Activity { Id = id, Modes = modes.ToImmutable() }, new ActivityMeaning(StepKind.Seal, [joint.Id]));
        AddPreparation(joint, modesOf);
        AddBefore(joint, id, modesOf);
        AddReadiness(joint, id, modesOf);
        AddLevelling(id, modesOf);
    }

    private IEnumerable<(string Key, ImmutableArray<BatchId> Batches)> SessionsFor(JointOption option)
    {
        var joint = option.Joint;
        bool onlyLamp = MustBeUnderLamp(joint.UnderLamp, joint.Id);
        if (!onlyLamp && _sessions.TryGetValue((option.Sheet.Id, joint.Stage), out var sessions))
            yield return ("", sessions);
        foreach (var lamp in LampSessionsFor(option).Where(lamp => !onlyLamp || _lampCured.Contains(lamp.Batches[0])))
            yield return lamp;
    }

    /// <summary>What must be done before the joint: bonds and operations named, and the stage.</summary>
    private void AddBefore(Joint joint, ActivityId seal, Dictionary<JointOption, List<ModeId>> modesOf)
    {
        var direct = modesOf.Where(entry => entry.Key.Preparation == Preparation.AsIs || (entry.Key.Preparation == Preparation.Prime && IsPrimedWithBond(joint))).SelectMany(entry => entry.Value).ToImmutableArray();
        if (direct.Length > 0)
            AddAfterPlaces(joint.After, joint.Id, TimePoint.StartOf(seal), direct);
        if (joint.Stage == Stage.AfterPaintHeat)
            After(TimePoint.EndOf(PaintId), TimePoint.StartOf(seal));
        else
            RestrictToDays(seal);
        if (joint.Stage == Stage.BeforeAccessCloses)
            CloseAfter(seal, modesOf);
    }

    /// <summary>Access may be closed when the bead can be touched.</summary>
    private void CloseAfter(ActivityId seal, Dictionary<JointOption, List<ModeId>> modesOf)
    {
        foreach (var closing in ClosingStarts())
        {
            foreach (var (option, modes) in modesOf)
            {
                var touch = option.Sheet.Milestone(MilestoneKind.TackFree) ?? option.Sheet.Milestone(MilestoneKind.Skin);
                var delay = touch is null ? new Delay.Fixed(0) : (Delay)new Delay.ByTime(_case.Cures.Reached(touch));
                AddLag(LagKind.Minimum, TimePoint.EndOf(seal), closing, delay, [.. modes]);
            }
        }
    }

    /// <summary>Paint after the bead is ready and before its window ends.</summary>
    private void AddReadiness(Joint joint, ActivityId seal, Dictionary<JointOption, List<ModeId>> modesOf)
    {
        if (joint.Stage == Stage.AfterPaintHeat)
        {
            After(TimePoint.EndOf(seal), TimePoint.StartOf(DeliverId));
            return;
        }
        var unheated = modesOf.Select(entry => (Option: entry.Key, Modes: entry.Value.Where(mode => !IsLampCured(seal, mode)).ToImmutableArray())).Where(entry => entry.Modes.Length > 0);
        foreach (var group in unheated.GroupBy(entry => entry.Option.Ready))
        {
            var modes = group.SelectMany(entry => entry.Modes).ToImmutableArray();
            BeforePaint(TimePoint.EndOf(seal), group.Key, modes, joint.Above == LayerAbove.StoneChip, joint.Id);
        }
        foreach (var group in modesOf.GroupBy(entry => entry.Key.PaintBy).Where(group => group.Key is not null))
            AddPaintBy(joint, seal, group.Key!, [.. group.SelectMany(entry => entry.Value)]);
    }

    /// <summary>
    /// The seam's window until paint. An inner seam cannot wait for the slot, so it may be abraded again before paint instead;
    /// an outer one is simply applied later.
    /// </summary>
    private void AddPaintBy(Joint joint, ActivityId seal, TimeFunction paintBy, ImmutableArray<ModeId> modes)
    {
        if (joint.Stage != Stage.BeforeAccessCloses)
        {
            AddLag(LagKind.Maximum, TimePoint.EndOf(seal), TimePoint.StartOf(PaintId), new Delay.ByTime(paintBy), modes);
            return;
        }
        var finish = new ActivityId($"window:{joint.Id}");
        var (within, scuffed) = (new ModeId("within"), new ModeId("scuffed"));
        if (!_activityMeanings.ContainsKey(finish))
        {
            Add(
                new Activity { Id = finish, Modes = [new Mode { Id = within, Starts = [new Window(0, 1)] }, new Mode { Id = scuffed, Starts = [new Window(0, 1)] }] },
                new ActivityMeaning(null, [joint.Id]));
            var scuff = AddWork($"scuff:{joint.Id}", StepKind.Abrade, [joint.Id], Skill.Clean, AbradeMinutes(joint), BeforePaintDays, [new Trigger.InMode(finish, [scuffed])]);
            BeforePaint(TimePoint.EndOf(scuff), null, default, false, joint.Id);
            After(TimePoint.EndOf(seal), TimePoint.StartOf(scuff));
        }
        // The window binds in mode "within" only: an activity of its own stands for that case.
        var bound = new ActivityId($"paint-by:{joint.Id}");
        if (!_activityMeanings.ContainsKey(bound))
        {
            Add(new Activity { Id = bound, Modes = [new Mode { Id = new ModeId("at") }], PresentWhen = [new Trigger.InMode(finish, [within])] }, new ActivityMeaning(null, [joint.Id]));
            After(TimePoint.StartOf(PaintId), TimePoint.StartOf(bound));
        }
        AddLag(LagKind.Maximum, TimePoint.EndOf(seal), TimePoint.StartOf(bound), new Delay.ByTime(paintBy), modes);
    }

    /// <summary>A session must end while the sheet's limits still hold.</summary>
    private TimeFunction? LimitsEnd(DataSheet sheet)
    {
        if (_variation.IsSetAside(FactIds.Limits(sheet.Id)))
            return null;
        var stretches = _case.Application.For(sheet);
        if (stretches is [var all] && all.To >= _time.Horizon - PlanTime.Grid)
            return null;
        return TimeFunction.Of(start =>
        {
            foreach (var stretch in stretches)
            {
                if (stretch.To > start)
                    return stretch.To - 1 + PlanTime.Grid;
            }
            return _time.Horizon;
        });
    }

    private ImmutableArray<Window> StartWindows(DataSheet sheet)
    {
        if (_variation.IsSetAside(FactIds.Limits(sheet.Id)))
            return [];
        var stretches = _case.Application.For(sheet);
        return stretches.IsEmpty ? [Never] : stretches;
    }

    /// <summary>Shortest life of a mixing nozzle in the windows, during working hours. [min]</summary>
    private int ShortestLife(DataSheet sheet, ImmutableArray<Window> windows)
    {
        if (sheet.Milestone(MilestoneKind.WorkEnd) is not { } workEnd)
            return int.MaxValue;
        var reached = _case.Cures.Reached(workEnd);
        int shortest = int.MaxValue;
        foreach (var window in Intersect(windows, _hours.Shop))
        {
            for (int start = Math.Max(0, window.From); start < window.To; start += 30)
                shortest = Math.Min(shortest, reached.At(start) - start);
        }
        return Math.Max(1, shortest);
    }

    private int SetUpMinutes(DataSheet sheet, int nozzles) =>
        Minutes(sheet.Method == ApplicationMethod.CartridgeWithMixer ? _shop.Times.TwoPartSetUp : _shop.Times.OnePartSetUp)
        + nozzles * Minutes(_shop.Times.NewNozzle);

    private void RestrictToDays(ActivityId activity)
    {
        if (_hours.HasSlotWeekends)
            _conditional.Add(new ConditionalWindow { Activity = activity, Windows = BeforePaintDays, WhenActivity = PaintId });
    }
}
