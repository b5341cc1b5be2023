using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Conflicts;

/// <summary>
/// Places at which no way is open, whatever the times: read from rules, windows, limits, people and shelves without any search. Each way that is
/// barred names the facts that bar it.
/// </summary>
internal sealed class ClosedPlaces(PlanningCase planning)
{
    /// <summary>A place and the least sets of facts of which one must be set aside as a whole for the place to open.</summary>
    public sealed record Closed(PlaceId Place, ImmutableArray<ImmutableArray<Fact>> Ways);

    public ImmutableArray<Closed> All()
    {
        var closed = ImmutableArray.CreateBuilder<Closed>();
        foreach (var facts in planning.Joints.Where(facts => facts.IsSeam))
        {
            if (HeatAfterClosing(facts.Joint) is { } operation)
            {
                Add(facts.Joint.Id, [], Reason.Of("fact-order", facts.Joint.Id, operation.Id));
                continue;
            }
            var ways = facts.Options.Where(IsSeamMaterial).Where(option => !IsUnprimed(option)).SelectMany(Ways).ToList();
            Add(facts.Joint.Id, ways, Reason.Of("fact-no-sheet", facts.Joint.Id));
        }
        foreach (var cavity in planning.Repair.Cavities.Where(cavity => planning.Repair.DoneOn(cavity.Id, StepKind.Foam) is null && cavity.Treatment is CavityTreatment.FlexibleFoam or CavityTreatment.RigidFoam))
        {
            var use = cavity.Treatment == CavityTreatment.FlexibleFoam ? MaterialUse.FlexibleFoam : MaterialUse.RigidFoam;
            var facts = planning.Cavities.First(facts => facts.Joint.Id == cavity.Id);
            var ways = facts.Options.Where(option => option.Sheet.Use == use && option.Preparation == Preparation.AsIs).SelectMany(Ways).ToList();
            Add(cavity.Id, ways, Reason.Of("fact-no-sheet", cavity.Id));
        }
        foreach (var area in planning.Repair.BareAreas.Where(area => area.StoneChip && planning.Repair.DoneOn(area.Id, StepKind.StoneChip) is null && !planning.Input.Sheets.Any(sheet => sheet.Use == MaterialUse.StoneChip)))
            Add(area.Id, [], Reason.Of("fact-no-sheet", area.Id));
        return closed.ToImmutable();

        void Add(PlaceId place, List<ImmutableArray<Fact>> ways, Reason none)
        {
            if (ways.Exists(way => way.IsEmpty))
                return;
            int least = ways.Count > 0 ? ways.Min(way => way.Length) : 0;
            closed.Add(new Closed(place, ways.Count == 0 ? [[new Fact(FactIds.NoWay(place), place, none)]] : [.. ways.Where(way => way.Length == least)]));
        }
    }

    /// <summary>Work that closes the access to an inner seam which has to wait for that very work; null = none.</summary>
    private Operation? HeatAfterClosing(Joint joint) =>
        joint.Stage != Stage.BeforeAccessCloses ? null
        : planning.Repair.Operations.FirstOrDefault(operation =>
            operation.ClosesAccess && (joint.After.Contains(operation.Id) || (operation.HotWork && operation.Near.Contains(joint.Id))));

    private static bool IsSeamMaterial(JointOption option) => option.Sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape or MaterialUse.AntiFlutter;

    private bool IsUnprimed(JointOption option) =>
        option.Preparation == Preparation.AsIs
        && option.Joint.Surface.IsBareMetal
        && !planning.Repair.Procedure.Any(said => said.Kind == ProcedureKind.Allows && (said.Place is null || said.Place == option.Joint.Id) && said.Names(option.Sheet));

    /// <summary>Facts that bar a way; where a shelf is empty, a delivery would do as well, and where one comes too late, a later slot.</summary>
    private IEnumerable<ImmutableArray<Fact>> Ways(JointOption option)
    {
        var barriers = Barriers(option);
        yield return barriers;
        var shelves = barriers.Where(IsShelf).ToList();
        if (shelves.Count == 0)
            yield break;
        ImmutableArray<Fact> others = [.. barriers.Where(fact => !IsShelf(fact))];
        if (CandidateFacts.Supplier(planning) is { } supplier)
            yield return others.Insert(0, supplier);
        if (option.Joint.Stage != Stage.AfterPaintHeat && shelves.TrueForAll(fact => CanBeOrdered(What(fact), planning.Time.Horizon)))
            yield return others.Insert(0, CandidateFacts.Slots(planning));

        static bool IsShelf(Fact fact) => fact.Id.EndsWith("/stock", StringComparison.Ordinal);

        static string What(Fact fact) => fact.Id[..^"/stock".Length];
    }

    /// <summary>Facts that bar a way, easiest to change first; empty = open.</summary>
    private ImmutableArray<Fact> Barriers(JointOption option)
    {
        var (joint, sheet) = (option.Joint, option.Sheet);
        var facts = new List<Fact>();
        AddShelf(sheet, joint.Stage, facts);
        if (option.Preparation is Preparation.Prime or Preparation.StripAndPrime && planning.Primers.FirstOrDefault() is { } primer)
        {
            AddShelf(primer, joint.Stage, facts);
            AddSkill(Skill.Prime, primer, facts);
        }
        if (option.CoatWindow is [{ From: < 0 }])
            facts.Add(CandidateFacts.Window(planning, joint)!);
        if (planning.Application.For(sheet).IsEmpty && !CanBeWarmed(option))
            facts.Add(CandidateFacts.Limits(planning, sheet));
        AddSkill(Skill.Seal, sheet, facts);
        facts.AddRange(option.Verdicts.Where(verdict => verdict.Kind > VerdictKind.Advice).Select(verdict => CandidateFacts.Rule(joint, sheet, verdict)));
        return [.. facts.DistinctBy(fact => fact.Id)];
    }

    private bool CanBeWarmed(JointOption option) =>
        planning.Shop.Lamps is not null && option.Joint.Stage != Stage.AfterPaintHeat && !planning.Application.TooColdOnly(option.Sheet).IsEmpty;

    private void AddShelf(DataSheet sheet, Stage stage, List<Fact> facts)
    {
        var slots = planning.Repair.PaintSlots;
        int before = stage == Stage.AfterPaintHeat || slots.IsEmpty ? planning.Time.Horizon : planning.Time.Floor(slots[^1]);
        if (!CandidateFacts.UsablePacks(planning, sheet).Any() && !CanBeOrdered(sheet.Id.Value, before))
            facts.Add(CandidateFacts.Shelf(planning, sheet));
        bool nozzles = planning.Input.Stock.Nozzles.Any(loose => loose.Count > 0)
            || planning.Input.Stock.Packs.Any(pack => planning.SheetOf(pack.Material) is { } with && Nozzles.Takes(with) && PackUsability.NozzlesWith(pack, with) > 0);
        if (Nozzles.Takes(sheet) && !nozzles && !CanBeOrdered("nozzle", before))
            facts.Add(CandidateFacts.NozzlesInDrawer(planning));
    }

    private bool CanBeOrdered(string what, int before) =>
        planning.Shop.Supplier is { } supplier && !supplier.Lacks.Contains(what)
        && SupplierHours.Arrival(supplier, planning.Shop.Zone, planning.Repair.Now) is { } arrives && planning.Time.Ceiling(arrives) <= before;

    private void AddSkill(Skill skill, DataSheet sheet, List<Fact> facts)
    {
        var able = planning.Shop.People.Where(person => person.Skills.Contains(skill)).ToList();
        if (able.Count == 0)
            facts.Add(CandidateFacts.NoSkill(skill));
        var today = planning.Repair.Now.InZone(planning.Shop.Zone).Date;
        if (!able.Exists(person => Verdicts.MayBeUsed(PersonRules.Judge(person, sheet, today))) && !sheet.Trainings.IsEmpty)
            facts.Add(CandidateFacts.NoTraining(sheet));
    }
}
