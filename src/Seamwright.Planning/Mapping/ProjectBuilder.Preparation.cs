using System.Collections.Immutable;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>Stripping, abrading and priming under joints and on bare areas.</summary>
internal sealed partial class ProjectBuilder
{
    /// <summary>Something to prime: it joins a primer session.</summary>
    private sealed record ToPrime(ActivityId Activity, PlaceId Place, Stage Stage, Volume Amount, Func<DataSheet, Volume> AmountOf, ImmutableArray<Trigger> When, TimePoint Next, ImmutableArray<ModeId> NextModes, bool NextIsPaint);

    private readonly List<ToPrime> _toPrime = [];
    private readonly Dictionary<Stage, ImmutableArray<BatchId>> _metalSessions = [];

    private void AddPreparation(Joint joint, Dictionary<JointOption, List<ModeId>> modesOf)
    {
        var seal = SealId(joint.Id);
        var abraded = ModesWith(modesOf, Preparation.Abrade);
        var primed = IsPrimedWithBond(joint) ? [] : ModesWith(modesOf, Preparation.Prime);
        var stripped = ModesWith(modesOf, Preparation.StripAndPrime);
        if (abraded.Length > 0)
        {
            var abrade = AddMetalWork($"abrade:{joint.Id}", StepKind.Abrade, joint.Id, AbradeMinutes(joint), joint.Stage, When(seal, abraded, modesOf), modesOf.Keys.First(option => option.Preparation == Preparation.Abrade).CoatWindow);
            AddAfterPlaces(joint.After, joint.Id, TimePoint.StartOf(abrade), ToDo(abrade));
            After(TimePoint.EndOf(abrade), TimePoint.StartOf(seal), 0, default, abraded);
            StaysFresh(abrade, joint.Id, AbradedStaysFresh, TimePoint.StartOf(seal), abraded);
        }
        if (primed.Length > 0 || stripped.Length > 0)
        {
            ImmutableArray<ModeId> both = [.. primed, .. stripped];
            var prime = new ActivityId($"prime:{joint.Id}");
            _toPrime.Add(new ToPrime(prime, joint.Id, joint.Stage, Volume.Zero, primer => PrimerAmount(primer, joint), When(seal, both, modesOf), TimePoint.StartOf(seal), both, NextIsPaint: false));
            ToMetal($"clean:{joint.Id}", StepKind.Abrade, AbradeMinutes(joint), primed);
            ToMetal($"strip:{joint.Id}", StepKind.Strip, StripMinutes(joint), stripped);

            void ToMetal(string id, StepKind kind, int minutes, ImmutableArray<ModeId> modes)
            {
                if (modes.Length == 0)
                    return;
                var work = AddMetalWork(id, kind, joint.Id, minutes, joint.Stage, When(seal, modes, modesOf));
                AddAfterPlaces(joint.After, joint.Id, TimePoint.StartOf(work), ToDo(work));
                After(TimePoint.EndOf(work), TimePoint.StartOf(prime));
                StaysFresh(work, joint.Id, BaredStaysFresh(joint.Metals), TimePoint.StartOf(prime), default);
            }
        }
    }

    /// <summary>
    /// Stripping, abrading and cleaning of a stage are done in up to two goes, one place after the other: nobody walks back to the bench for
    /// each seam, and the model has one block to place instead of many alike.
    /// </summary>
    private ActivityId AddMetalWork(string id, StepKind kind, PlaceId place, int minutes, Stage stage, ImmutableArray<Trigger> when, ImmutableArray<Window> starts = default)
    {
        var activity = new ActivityId(id);
        var modes = ImmutableArray.CreateBuilder<Mode>();
        if (!PeopleFor(Skill.Clean, default).Any())
            modes.Add(Moment([Never]));
        foreach (var session in modes.Count > 0 ? [] : MetalSessions(stage))
            modes.Add(new Mode { Id = new ModeId(session.Value), Batch = session, Work = minutes, Starts = starts.IsDefault ? [] : starts });
        if (kind != StepKind.Strip)
            AddFresh(activity, place, modes);
        Add(new Activity { Id = activity, Modes = modes.ToImmutable(), PresentWhen = when }, new ActivityMeaning(kind, [place]));
        if (stage == Stage.AfterPaintHeat)
            AfterPaint(activity);
        return activity;
    }

    /// <summary>After paint, and on a weekend day only where the slot lies on it.</summary>
    private void AfterPaint(ActivityId activity)
    {
        After(TimePoint.EndOf(PaintId), TimePoint.StartOf(activity));
        AfterSlotDays(activity);
    }

    private ImmutableArray<BatchId> MetalSessions(Stage stage)
    {
        if (_metalSessions.TryGetValue(stage, out var known))
            return known;
        var ids = ImmutableArray.CreateBuilder<BatchId>();
        for (int i = 0; i < 2; i++)
        {
            var id = new BatchId($"metal/{stage}#{i + 1}");
            ids.Add(id);
            _batches.Add(new Batch
            {
                Id = id,
                Crews = [.. PeopleFor(Skill.Clean, default).Select(Crew)],
                Starts = BeforeDays(stage),
                SymmetryGroup = $"metal/{stage}",
                SymmetryIndex = i,
            });
            _batchMeanings.Add(id, new BatchMeaning(StepKind.Abrade, null, 0, HeatUse.None));
        }
        return _metalSessions[stage] = ids.ToImmutable();
    }

    /// <summary>How long bared metal may wait for its primer. [min]</summary>
    private static int BaredStaysFresh(ImmutableArray<Metal> metals) =>
        metals.Any(metal => metal is Metal.Aluminium or Metal.Magnesium) ? BaredLightMetalStaysFresh : BaredSteelStaysFresh;

    /// <summary>The edge of a bond that is primed again after cleaning takes its bare seams along.</summary>
    private bool IsPrimedWithBond(Joint joint) => _case.Repair.Bonds.Any(bond => bond.RePrime && joint.After.Contains(bond.Id));

    private void AddAreas()
    {
        foreach (var area in _case.Repair.BareAreas.Where(area => !_variation.IsSetAside(FactIds.NoWay(area.Id))))
        {
            TimePoint coated;
            if (_case.Repair.DoneOn(area.Id, StepKind.StoneChip) is { } sprayed)
            {
                AddStoneChipped(area, sprayed);
                continue;
            }
            if (area.Surface.IsBareMetal)
            {
                var prime = new ActivityId($"prime:{area.Id}");
                int minutes = Math.Max(1, Minutes(_shop.Times.AbradePerSquareMetre, area.Area.SquareMetres));
                var clean = AddMetalWork($"clean:{area.Id}", StepKind.Abrade, area.Id, minutes, area.Stage, []);
                AddAfterPlaces(area.After, area.Id, TimePoint.StartOf(clean), ToDo(clean));
                After(TimePoint.EndOf(clean), TimePoint.StartOf(prime));
                StaysFresh(clean, area.Id, BaredStaysFresh([area.Metal]), TimePoint.StartOf(prime), default);
                coated = area.StoneChip ? TimePoint.StartOf(StoneChipId(area.Id)) : TimePoint.StartOf(PaintId);
                _toPrime.Add(new ToPrime(prime, area.Id, area.Stage, Volume.Zero, primer => PrimerAmount(primer, area), [], coated, default, NextIsPaint: !area.StoneChip));
            }
            else
            {
                AddCoatWindowToPaint(area);
            }
            if (area.StoneChip)
                AddStoneChip(area);
        }
    }

    /// <summary>A coat already on an area is abraded before those slots that lie after its window.</summary>
    private void AddCoatWindowToPaint(BareArea area)
    {
        if (area.Surface.Applied is not { } applied || _case.SheetOf(area.Surface.Material) is not { } coat)
            return;
        AddDryingCoat(area, coat, applied);
        if (coat.NextLayerWithin is not { } window || area.StoneChip)
            return;
        var end = _case.Cures.LatestNextLayer(window, applied);
        var missed = PaintModes.Where(mode => mode.Slot > end).Select(mode => mode.Id).ToImmutableArray();
        if (missed.Length == 0)
            return;
        int minutes = Math.Max(1, Minutes(_shop.Times.AbradePerSquareMetre, area.Area.SquareMetres));
        var abrade = AddWork($"abrade:{area.Id}", StepKind.Abrade, [area.Id], Skill.Clean, minutes, BeforePaintDays, [new Trigger.InMode(PaintId, missed)]);
        BeforePaint(TimePoint.EndOf(abrade), null, default, false, area.Id);
    }

    /// <summary>Primer sessions for everything that turned out to need primer.</summary>
    private void AddPrimerSessions()
    {
        foreach (var stage in _toPrime.GroupBy(item => item.Stage))
        {
            var sessions = new List<(DataSheet Primer, ImmutableArray<BatchId> Batches)>();
            foreach (var primer in _case.Primers)
            {
                var windows = StartWindows(primer);
                if (windows is [var none] && none == Never)
                    continue;
                int count = Math.Min(2, stage.Count());
                var end = PrimerSessionEnd(primer);
                var ids = ImmutableArray.CreateBuilder<BatchId>();
                for (int i = 0; i < count; i++)
                {
                    var id = new BatchId($"{primer.Id}/{stage.Key}#{i + 1}");
                    ids.Add(id);
                    _batches.Add(new Batch
                    {
                        Id = id,
                        Setup = Minutes(primer.Method == ApplicationMethod.Aerosol ? _shop.Times.PrimerByAerosol : _shop.Times.PrimerByGun),
                        Crews = [.. PeopleFor(Skill.Prime, primer).Select(Crew)],
                        Starts = windows,
                        LatestEnd = end,
                        SymmetryGroup = count > 1 ? $"{primer.Id}/{stage.Key}" : null,
                        SymmetryIndex = i,
                    });
                    _batchMeanings.Add(id, new BatchMeaning(StepKind.Prime, primer, 0, HeatUse.None));
                }
                if (PeopleFor(Skill.Prime, primer).Any())
                    sessions.Add((primer, ids.ToImmutable()));
            }
            foreach (var item in stage)
                AddPrime(item, sessions);
        }
    }

    private void AddPrime(ToPrime item, List<(DataSheet Primer, ImmutableArray<BatchId> Batches)> sessions)
    {
        var modes = ImmutableArray.CreateBuilder<Mode>();
        foreach (var (primer, batches) in sessions.Where(session => PrimerChoice.MayGo(session.Primer, _case.Repair, item.Place)))
        {
            var mine = batches.Select(batch => new ModeId($"{primer.Id}@{batch}")).ToImmutableArray();
            var amount = item.AmountOf(primer);
            for (int i = 0; i < batches.Length; i++)
            {
                modes.Add(new Mode
                {
                    Id = mine[i],
                    Batch = batches[i],
                    Cost = SolverMoney.From(CostOf(primer, amount, Length.Zero)),
                    Consumes = Consumes(primer, amount, Length.Zero),
                });
                _modeMeanings.Add((item.Activity, mine[i]), new ModeMeaning(Sheet: primer));
            }
            var end = TimePoint.EndOf(item.Activity);
            if (primer.Milestone(MilestoneKind.NextLayer) is { } next)
            {
                if (item.NextIsPaint)
                    BeforePaint(end, _case.Cures.Reached(next), mine, false, item.Place);
                else
                    AddLag(LagKind.Minimum, end, item.Next, new Delay.ByTime(_case.Cures.Reached(next)), mine, item.NextModes);
            }
            if (primer.NextLayerWithin is { } window)
                AddLag(LagKind.Maximum, end, item.Next, new Delay.ByTime(_case.Cures.Latest(window)), mine, item.NextModes);
        }
        if (modes.Count == 0)
            modes.Add(new Mode { Id = new ModeId("no-primer"), Starts = [Never] });
        Add(new Activity { Id = item.Activity, Modes = modes.ToImmutable(), PresentWhen = item.When }, new ActivityMeaning(StepKind.Prime, [item.Place]));
        if (item.Stage != Stage.AfterPaintHeat)
            RestrictToDays(item.Activity);
        else
            AfterPaint(item.Activity);
    }

    private TimeFunction? PrimerSessionEnd(DataSheet primer)
    {
        var limits = LimitsEnd(primer);
        if (primer.Method != ApplicationMethod.SprayGun || primer.Milestone(MilestoneKind.WorkEnd) is not { } potLife)
            return limits;
        var pot = _case.Cures.Reached(potLife);
        return limits is null ? pot : TimeFunction.Of(start => Math.Min(pot.At(start), limits.At(start)));
    }

    private ImmutableArray<Window> BeforeDays(Stage stage) => stage == Stage.AfterPaintHeat ? [] : BeforePaintDays;

    private static ImmutableArray<ModeId> ModesWith(Dictionary<JointOption, List<ModeId>> modesOf, Preparation preparation) =>
        [.. modesOf.Where(entry => entry.Key.Preparation == preparation).SelectMany(entry => entry.Value)];

    /// <summary>Present in these modes; always present where they are all there are.</summary>
    private static ImmutableArray<Trigger> When(ActivityId activity, ImmutableArray<ModeId> modes, Dictionary<JointOption, List<ModeId>> all) =>
        modes.Length == all.Sum(entry => entry.Value.Count) ? [] : [new Trigger.InMode(activity, modes)];

    private int AbradeMinutes(Joint joint) => Math.Max(1, Minutes(_shop.Times.AbradePerMetre, PreparationRoutes.WorkedLength(joint).Metres));

    private int StripMinutes(Joint joint) => Math.Max(1, Minutes(_shop.Times.StripPerMetre, PreparationRoutes.WorkedLength(joint).Metres));
}
