using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// Lamps, as a choice: on a bond until handling strength, on a cold panel before sealing, on a sealed joint to speed its cure. One lamp
/// covers one zone. A hold is long enough for the coldest panel of the plan, so it is long enough whenever it begins.
/// </summary>
internal sealed partial class ProjectBuilder
{
    /// <summary>The lamp is put on a fresh seam, or the seal on a warm panel, within this.</summary>
    private const int LampAtHand = 10;

    /// <summary>A cold panel is soaked this long altogether before it is sealed. (common practice, no source)</summary>
    private static readonly Duration Soak = Duration.FromMinutes(20);

    private readonly Dictionary<(MaterialId, Stage, string), List<(string Key, BatchId Batch)>> _lampSessions = [];
    private readonly HashSet<BatchId> _lampCured = [];

    private bool LampsOn => _shop.Lamps is not null && !_variation.WithoutLamp;

    private bool MustBeUnderLamp(bool asked, PlaceId place) => asked && !_variation.IsSetAside(FactIds.Lamp(place));

    private static string ZoneOf(Joint joint) => joint.Zone ?? joint.Id.Value;

    private void AddLampSessions(IReadOnlyList<JointOption> options)
    {
        if (!LampsOn)
            return;
        var sheet = options[0].Sheet;
        foreach (var zone in options.GroupBy(option => ZoneOf(option.Joint)))
        {
            if (CanPreheat(zone.First()))
                AddPreheated(sheet, zone.Key, [.. zone]);
            if (LampMayHelp(sheet, zone.First()))
                AddLampCured(sheet, zone.Key, [.. zone]);
        }
    }

    private IEnumerable<(string Key, ImmutableArray<BatchId> Batches)> LampSessionsFor(JointOption option) =>
        _lampSessions.TryGetValue((option.Sheet.Id, option.Joint.Stage, ZoneOf(option.Joint)), out var sessions)
            ? sessions.Select(session => (session.Key, ImmutableArray.Create(session.Batch)))
            : [];

    private bool IsLampCured(ActivityId seal, ModeId mode) =>
        _lampCured.Any(batch => mode.Value.EndsWith($"@{batch}", StringComparison.Ordinal)) && _modeMeanings.ContainsKey((seal, mode));

    /// <summary>A lamp brings a panel that is only too cold into the sheet's range.</summary>
    private bool CanPreheat(JointOption option)
    {
        if (!LampsOn || option.Joint.Stage == Stage.AfterPaintHeat)
            return false;
        var cold = _case.Application.TooColdOnly(option.Sheet);
        return !cold.IsEmpty && !(Intersect(cold, _hours.Shop) is [var only] && only == Never);
    }

    private void AddPreheated(DataSheet sheet, string zone, ImmutableArray<JointOption> options)
    {
        var cold = _case.Application.TooColdOnly(sheet);
        var target = PreheatTarget(sheet);
        var ramp = RampTo(target);
        var soak = Duration.Max(Soak, ramp);
        var usable = PreheatedLasts(sheet, target, cold);
        var mine = options.Where(option => option.Work <= usable - SetUpMinutes(sheet, 1)).ToList();
        if (mine.Count == 0)
            return;

        var stage = options[0].Joint.Stage;
        var id = new BatchId($"{sheet.Id}/{stage}/warmed:{zone}#1");
        AddLampBatch(id, sheet, zone, stage, cold, TimeFunction.Shift(usable), HeatUse.Before);
        var lamp = AddLampRun($"warm:{id}", [.. mine.Select(option => option.Joint.Id).Distinct()], sheet, target, Minutes(soak), Minutes(_shop.Lamps!.Cooling), [new Trigger.BatchUsed(id)]);
        After(TimePoint.EndOf(lamp), TimePoint.StartOf(id));
        AddLag(LagKind.Maximum, TimePoint.EndOf(lamp), TimePoint.StartOf(id), new Delay.Fixed(PlanTime.Grid - 1));
    }

    private void AddLampCured(DataSheet sheet, string zone, ImmutableArray<JointOption> options)
    {
        var target = HottestAllowed(sheet);
        var milestone = sheet.Milestone(MilestoneKind.Paint);
        if (target is not { } ramp || milestone is null || HoldFor(milestone, ramp, sheet.Heat!.LeastHold) is not { } hold)
            return;

        var stage = options[0].Joint.Stage;
        var windows = StartWindows(sheet);
        var id = new BatchId($"{sheet.Id}/{stage}/lamp:{zone}#1");
        AddLampBatch(id, sheet, zone, stage, windows, LimitsEnd(sheet), HeatUse.After);
        _lampCured.Add(id);
        var places = options.Select(option => option.Joint.Id).Distinct().ToImmutableArray();
        int cooling = Minutes(_shop.Lamps!.Cooling);
        var lamp = AddLampRun($"lamp:{id}", places, sheet, ramp.Target, Minutes(ramp.Ramp + hold), cooling, [new Trigger.BatchUsed(id)]);
        After(TimePoint.EndOf(id), TimePoint.StartOf(lamp));
        AddLag(LagKind.Maximum, TimePoint.EndOf(id), TimePoint.StartOf(lamp), new Delay.Fixed(LampAtHand));
        BeforePaint(TimePoint.EndOf(lamp), TimeFunction.Shift(cooling), default, false, places[0]);
    }

    private void AddLampBatch(BatchId id, DataSheet sheet, string zone, Stage stage, ImmutableArray<Window> windows, TimeFunction? end, HeatUse heat)
    {
        int nozzles = sheet.Method == ApplicationMethod.CartridgeWithMixer ? 1 : 0;
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
        });
        _batchMeanings.Add(id, new BatchMeaning(StepKind.Seal, sheet, nozzles, heat));
        var key = (sheet.Id, stage, zone);
        if (!_lampSessions.TryGetValue(key, out var list))
            _lampSessions.Add(key, list = []);
        list.Add((heat == HeatUse.Before ? "/warmed" : "/lamp", id));
    }

    /// <summary>A lamp run: the lamp is busy until it cools; somebody sets it up at its start.</summary>
    private ActivityId AddLampRun(string id, ImmutableArray<PlaceId> places, DataSheet sheet, Temperature target, int minutes, int cooling, ImmutableArray<Trigger> when)
    {
        var run = new ActivityId(id);
        long cost = SolverMoney.From(LampCost(minutes + cooling));
        Add(
            new Activity { Id = run, Modes = [new Mode { Id = new ModeId("on"), Duration = minutes, Demands = [new Demand(LampId, 1)], Cost = cost }], PresentWhen = when },
            new ActivityMeaning(StepKind.Lamp, places, sheet, HeatTo: target));
        var setUp = AddWork($"set-up:{id}", StepKind.SetUpLamp, places, Skill.Weld, Minutes(_shop.Lamps!.SetUp), BeforePaintDays, when);
        After(TimePoint.StartOf(setUp), TimePoint.StartOf(run));
        AddLag(LagKind.Maximum, TimePoint.StartOf(setUp), TimePoint.StartOf(run), new Delay.Fixed(0));
        return run;
    }

    /// <summary>Cost of a lamp in use for some minutes, its cooling counted: started hours.</summary>
    private Money LampCost(int minutes) => _shop.Lamps!.PerStartedHour * (int)Math.Ceiling(minutes / 60.0);

    private IEnumerable<(LampRamp Ramp, Duration Hold)> BondHeats(Bond bond, DataSheet sheet, Milestone? handling)
    {
        if (LampsOn && handling is not null && HottestAllowed(sheet) is { } ramp && HoldFor(handling, ramp, sheet.Heat!.LeastHold) is { } hold)
            yield return (ramp, hold);
    }

    private Mode AddBondLamp(Bond bond, ActivityId hold, (LampRamp Ramp, Duration Hold) heat, ActivityId clean)
    {
        var mode = new ModeId("lamp");
        int cooling = Minutes(_shop.Lamps!.Cooling);
        var sheet = _case.Sheets[bond.Adhesive];
        var lamp = AddLampRun($"lamp:{bond.Id}", [bond.Id], sheet, heat.Ramp.Target, Minutes(heat.Ramp.Ramp + heat.Hold), cooling, [new Trigger.InMode(hold, [mode])]);
        if (bond.Closed is null)
            After(TimePoint.EndOf(FitId(bond.Id)), TimePoint.StartOf(lamp));
        After(TimePoint.EndOf(lamp), TimePoint.StartOf(clean), cooling);
        return new Mode { Id = mode, Starts = [new Window(0, 1)] };
    }

    private LampRamp? HottestAllowed(DataSheet sheet)
    {
        if (sheet.Heat is not { } heat || _shop.Lamps is not { } lamps)
            return null;
        var allowed = lamps.Ramps.Where(ramp => ramp.Target <= heat.PanelUpTo).ToList();
        return allowed.Count > 0 ? allowed.MaxBy(ramp => ramp.Target) : null;
    }

    private Duration? HoldFor(Milestone milestone, LampRamp ramp, Duration least)
    {
        var coldest = _time.At(ColdestMinute());
        var heat = new HeatProfile(coldest, ramp.Target, ramp.Ramp, least, Duration.Zero);
        return LocalHeatCure.HoldNeeded(milestone.Law, milestone.Needed, coldest, heat, _case.Cures.Panel, least);
    }

    private int ColdestMinute()
    {
        int coldest = _time.Now;
        for (int minute = _time.Now; minute < _time.Horizon; minute += 6 * PlanTime.Grid)
        {
            if (_case.Application.PanelAt(minute) < _case.Application.PanelAt(coldest))
                coldest = minute;
        }
        return coldest;
    }

    /// <summary>Whether a lamp is offered to speed this seal's cure: the search asks for it where a slot is not reached without.</summary>
    private bool LampMayHelp(DataSheet sheet, JointOption option) =>
        (_variation.LampCuresSeals || MustBeUnderLamp(option.Joint.UnderLamp, option.Joint.Id)) && sheet.IsTwoPart && sheet.Heat is not null && option.Joint.Stage != Stage.AfterPaintHeat && option.Ready is not null;

    /// <summary>Warm enough to begin, cool enough to allow: ten kelvins above the sheet's floor, at most halfway to its ceiling.</summary>
    private static Temperature PreheatTarget(DataSheet sheet)
    {
        var from = sheet.Limits.PanelFrom!.Value;
        var ten = from + TemperatureDifference.FromKelvins(10);
        return sheet.Limits.PanelTo is { } to ? Temperature.Min(ten, from + ((to - from) * 0.5)) : ten;
    }

    private Duration RampTo(Temperature target)
    {
        var ramps = _shop.Lamps!.Ramps;
        foreach (var ramp in ramps)
        {
            if (ramp.Target >= target)
                return ramp.Ramp;
        }
        return ramps.Length > 0 ? ramps[^1].Ramp : Duration.Zero;
    }

    /// <summary>Minutes until the warmed panel is back at the sheet's floor, at the coldest panel; and not beyond the mixer's life at the target.</summary>
    private int PreheatedLasts(DataSheet sheet, Temperature target, ImmutableArray<Window> cold)
    {
        var floor = sheet.Limits.PanelFrom!.Value;
        var coldest = cold.Min(window => _case.Application.PanelAt(window.From));
        coldest = Temperature.Min(coldest, _case.Application.PanelAt(ColdestMinute()));
        int lasts = (int)Math.Floor(_shop.Lamps!.Cooling.TotalMinutes * ((target - floor).Kelvins / (target - coldest).Kelvins));
        if (sheet.Milestone(MilestoneKind.WorkEnd) is { } work)
        {
            double rate = CureRate.Rate(work.Law, target, _case.Cures.Panel.VapourPressureAt(_time.At(_time.Now)), _case.Cures.Panel.HumidityAt(_time.At(_time.Now)));
            lasts = Math.Min(lasts, (int)Math.Floor(work.Needed.Minutes / rate) + SetUpMinutes(sheet, 1));
        }
        return lasts;
    }
}
