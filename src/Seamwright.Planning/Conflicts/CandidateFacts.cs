using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Conflicts;

/// <summary>Facts of the input that a person could change, in the order in which they are easiest to change.</summary>
internal static class CandidateFacts
{
    public static ImmutableArray<Fact> Of(PlanningCase planning)
    {
        var facts = new List<Fact>();
        facts.AddRange(Asked(planning).Select(sheet => Shelf(planning, sheet)));
        facts.Add(NozzlesInDrawer(planning));
        facts.AddRange(planning.Repair.Joints.Where(joint => joint.UnderLamp).Select(joint => joint.Id)
            .Concat(planning.Repair.Bonds.Where(bond => bond.UnderLamp).Select(bond => bond.Id))
            .Select(place => new Fact(FactIds.Lamp(place), place, Reason.Of("fact-lamp-asked"))));
        facts.Add(Slots(planning));
        facts.Add(Hours(planning));
        if (Supplier(planning) is { } supplier)
            facts.Add(supplier);
        facts.AddRange(planning.Joints.Select(joint => Window(planning, joint.Joint)).OfType<Fact>());
        facts.AddRange(Asked(planning).Where(sheet => IsLimited(planning, sheet)).Select(sheet => Limits(planning, sheet)));
        AddPeople(planning, facts);
        AddRules(planning, facts);
        AddCureTimes(planning, facts);
        return [.. facts.DistinctBy(fact => fact.Id)];
    }

    /// <summary>Places that could be left out: the last resort where no other fact helps.</summary>
    public static IEnumerable<Fact> Places(PlanningCase planning) =>
        planning.Joints.Where(facts => facts.IsSeam).Select(facts => facts.Joint.Id)
            .Concat(planning.Repair.BareAreas.Select(area => area.Id))
            .Concat(planning.Repair.Cavities.Select(cavity => cavity.Id))
            .Select(place => new Fact(FactIds.NoWay(place), place, Reason.Of("fact-no-way", place)));

    public static IEnumerable<Pack> UsablePacks(PlanningCase planning, DataSheet sheet) =>
        planning.Input.Stock.Packs.Where(pack => pack.Material == sheet.Id && Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, 1)));

    public static Fact Shelf(PlanningCase planning, DataSheet sheet)
    {
        int good = UsablePacks(planning, sheet).Count();
        return new Fact(FactIds.Stock(sheet.Id.Value), null, good == 0
            ? Reason.Of("fact-no-pack", sheet.Id, planning.Input.Stock.Packs.Count(pack => pack.Material == sheet.Id))
            : Reason.Of("fact-too-little", sheet.Id, good));
    }

    public static Fact NozzlesInDrawer(PlanningCase planning) =>
        new(FactIds.Stock("nozzle"), null, Reason.Of("fact-nozzles", planning.Input.Stock.Nozzles.Sum(nozzles => nozzles.Count)));

    /// <summary>The window of the coat that lies there now; null = it has none.</summary>
    public static Fact? Window(PlanningCase planning, Joint joint)
    {
        if (joint.Surface.Applied is not { } applied || planning.SheetOf(joint.Surface.Material) is not { } coat)
            return null;
        if (coat.NextLayerWithin is { } window)
            return new Fact(FactIds.Window(joint.Id), joint.Id, Reason.Of("fact-window", coat.Id, planning.Cures.LatestNextLayer(window, applied)));
        return coat.Milestone(MilestoneKind.NextLayer) is null ? null : new Fact(FactIds.Window(joint.Id), joint.Id, Reason.Of("fact-coat-drying", coat.Id));
    }

    public static Fact Limits(PlanningCase planning, DataSheet sheet)
    {
        var now = planning.Repair.Now;
        var verdict = Verdicts.Deciding(ClimateRules.Judge(sheet, planning.Cures.Panel.TemperatureAt(now), planning.Cures.Panel.AirAt(now))).First();
        return new Fact(FactIds.Limits(sheet.Id), null, Reason.Of("fact-limits", sheet.Id, verdict.Reason));
    }

    public static Fact NoSkill(Skill skill) => new(FactIds.Skill(skill.ToString()), null, Reason.Of("fact-no-skill", skill));

    public static Fact NoTraining(DataSheet sheet) =>
        new(FactIds.Skill(sheet.Id.Value), null, Reason.Of("fact-no-training", sheet.Id, string.Join(", ", sheet.Trainings)));

    public static Fact Rule(Joint joint, DataSheet sheet, Verdict against) =>
        new(FactIds.Rule(joint.Id, against.RuleId), joint.Id, Reason.Of("fact-rule", sheet.Id, against.Reason));

    private static ImmutableArray<DataSheet> Asked(PlanningCase planning)
    {
        var repair = planning.Repair;
        var seams = planning.Joints.Where(facts => facts.IsSeam).Concat(planning.Cavities)
            .SelectMany(facts => facts.Options)
            .Where(option => option.Admissible && option.Sheet.Use is not (MaterialUse.Primer or MaterialUse.EtchPrimer or MaterialUse.WeldThroughPrimer))
            .Select(option => option.Sheet);
        var others = planning.Input.Sheets.Where(sheet => sheet.Use switch
        {
            MaterialUse.StoneChip => repair.BareAreas.Any(area => area.StoneChip),
            MaterialUse.CavityWax => sheet == planning.WaxSheet && repair.Cavities.Any(cavity => cavity.Treatment == CavityTreatment.Wax),
            MaterialUse.PanelAdhesive => repair.Bonds.Any(bond => bond.Closed is null && bond.Adhesive == sheet.Id),
            _ => false,
        });
        return [.. seams.Concat(planning.Primers).Concat(others).Distinct()];
    }

    public static Fact Slots(PlanningCase planning)
    {
        var slots = planning.Repair.PaintSlots;
        var reason = slots.IsEmpty ? Reason.Of("fact-no-slot")
            : slots[^1] < planning.Repair.Now ? Reason.Of("fact-slots-past", planning.Repair.Now)
            : Reason.Of("fact-last-slot", slots[^1]);
        return new Fact(FactIds.Slots, null, reason);
    }

    private static Fact Hours(PlanningCase planning)
    {
        var slots = planning.Repair.PaintSlots;
        int last = slots.IsEmpty ? planning.Time.Horizon : planning.Time.Floor(slots[^1]);
        bool works = planning.Shop.People.Where(person => person.Skills.Any(skill => skill != Skill.Paint)).SelectMany(person => planning.Hours.Of(person)).Any(open => open.From < last);
        return new Fact(FactIds.Hours, null, works || slots.IsEmpty ? Reason.Of("fact-hours") : Reason.Of("fact-nobody-works", slots[^1]));
    }

    /// <summary>What keeps orders from coming at once; null = nothing.</summary>
    public static Fact? Supplier(PlanningCase planning)
    {
        var supplier = planning.Shop.Supplier;
        var arrives = supplier is null ? null : SupplierHours.Arrival(supplier, planning.Shop.Zone, planning.Repair.Now);
        var reason = supplier is null || arrives is null ? Reason.Of("fact-no-supplier")
            : supplier.Lacks.Count > 0 ? Reason.Of("fact-supplier-lacks", string.Join(", ", supplier.Lacks.Order(StringComparer.Ordinal)))
            : arrives > planning.Repair.Now + supplier.DeliveryTime ? Reason.Of("fact-supplier-late", arrives.Value)
            : null;
        return reason is null ? null : new Fact(FactIds.Supplier, null, reason);
    }

    private static bool IsLimited(PlanningCase planning, DataSheet sheet) =>
        planning.Application.For(sheet) is not [var all] || all.To < planning.Time.Horizon - PlanTime.Grid;

    private static void AddPeople(PlanningCase planning, List<Fact> facts)
    {
        facts.AddRange(Enum.GetValues<Skill>().Where(skill => !planning.Shop.People.Any(person => person.Skills.Contains(skill))).Select(NoSkill));
        var today = planning.Repair.Now.InZone(planning.Shop.Zone).Date;
        foreach (var sheet in Asked(planning).Where(sheet => !sheet.Trainings.IsEmpty))
        {
            var skill = PersonRules.SkillFor(sheet);
            if (!planning.Shop.People.Any(person => person.Skills.Contains(skill) && Verdicts.MayBeUsed(PersonRules.Judge(person, sheet, today))))
                facts.Add(NoTraining(sheet));
        }
    }

    /// <summary>Rules that stand alone between a joint and a material that would otherwise do.</summary>
    private static void AddRules(PlanningCase planning, List<Fact> facts)
    {
        foreach (var option in planning.Joints.Where(facts => facts.IsSeam).Concat(planning.Cavities).SelectMany(facts => facts.Options).Where(option => !option.Admissible))
        {
            var against = option.Verdicts.Where(verdict => verdict.Kind > VerdictKind.Advice).Take(2).ToList();
            if (against.Count == 1 && option.Sheet.Use is MaterialUse.SeamSealer or MaterialUse.SeamTape or MaterialUse.AntiFlutter or MaterialUse.FlexibleFoam or MaterialUse.RigidFoam)
                facts.Add(Rule(option.Joint, option.Sheet, against[0]));
        }
    }

    private static void AddCureTimes(PlanningCase planning, List<Fact> facts)
    {
        var time = planning.Time;
        foreach (var joint in planning.Joints.Where(facts => facts.IsSeam && facts.Joint.Stage != Stage.AfterPaintHeat))
        {
            var quickest = joint.Options.Where(option => option.Admissible && option.Ready is not null).MinBy(option => option.Ready!.At(time.Now));
            if (quickest is not null)
                facts.Add(new Fact(FactIds.CureTime(joint.Joint.Id), joint.Joint.Id, Ready(quickest)));
        }
        foreach (var made in planning.Joints.Where(facts => facts.Sealed is not null && facts.Joint.Stage != Stage.AfterPaintHeat))
        {
            var (place, seam) = (made.Joint.Id, made.Sealed!);
            facts.Add(new Fact(FactIds.CureTime(place), place, planning.ReadyOf(made.Joint, seam) is { } ready
                ? Reason.Of("fact-done-time", place, seam.Material!, ready)
                : Reason.Of("fact-done-never", place, seam.Material!)));
        }
        foreach (var area in planning.Repair.BareAreas.Where(area => area.StoneChip || area.Surface.IsBareMetal))
            facts.Add(new Fact(FactIds.CureTime(area.Id), area.Id, Reason.Of("fact-area-time", area.Id)));
        foreach (var bond in planning.Repair.Bonds)
        {
            if (planning.Sheets[bond.Adhesive].Milestone(MilestoneKind.Handling) is not { } handling)
                continue;
            var free = planning.Cures.Finish(handling.Law, handling.Needed, bond.Closed ?? planning.Repair.Now + bond.FitTime);
            facts.Add(new Fact(FactIds.CureTime(bond.Id), bond.Id, free is { } at ? Reason.Of("fact-bond-time", bond.Id, bond.Adhesive, at) : Reason.Of("fact-bond-never", bond.Id, bond.Adhesive)));
        }

        Reason Ready(JointOption option)
        {
            int ready = option.Ready!.At(time.Now);
            return ready < time.Horizon + 14 * 24 * 60
                ? Reason.Of("fact-cure-time", option.Joint.Id, option.Sheet.Id, time.At(ready))
                : Reason.Of("fact-cure-never", option.Joint.Id, option.Sheet.Id);
        }
    }
}
