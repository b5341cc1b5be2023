using System.Collections.Immutable;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Planning.Mapping;
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
        AddStock(planning, facts);
        AddSlots(planning, facts);
        facts.Add(new Fact(FactIds.Hours, null, Reason.Of("fact-hours")));
        AddSupplier(planning, facts);
        AddWindows(planning, facts);
        AddLimits(planning, facts);
        AddPeople(planning, facts);
        AddRules(planning, facts);
        AddCureTimes(planning, facts);
        return [.. facts.DistinctBy(fact => fact.Id)];
    }

    private static void AddStock(PlanningCase planning, List<Fact> facts)
    {
        foreach (var sheet in Asked(planning))
        {
            var packs = planning.Input.Stock.Packs.Where(pack => pack.Material == sheet.Id).ToList();
            var good = packs.Where(pack => Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, 1))).ToList();
            facts.Add(good.Count == 0
                ? new Fact(FactIds.Stock(sheet.Id.Value), null, Reason.Of("fact-no-pack", sheet.Id, packs.Count))
                : new Fact(FactIds.Stock(sheet.Id.Value), null, Reason.Of("fact-too-little", sheet.Id, good.Count)));
        }
        facts.Add(new Fact(FactIds.Stock("nozzle"), null, Reason.Of("fact-nozzles", planning.Input.Stock.Nozzles.Sum(nozzles => nozzles.Count))));
    }

    private static IEnumerable<DataSheet> Asked(PlanningCase planning)
    {
        var seams = planning.Joints.Concat(planning.Cavities).SelectMany(facts => facts.Options).Where(option => option.Admissible).Select(option => option.Sheet);
        return seams.Concat(planning.Primers)
            .Concat(planning.Input.Sheets.Where(sheet => sheet.Use is MaterialUse.StoneChip or MaterialUse.CavityWax or MaterialUse.PanelAdhesive))
            .Distinct();
    }

    private static void AddSlots(PlanningCase planning, List<Fact> facts)
    {
        var slots = planning.Repair.PaintSlots;
        facts.Add(new Fact(FactIds.Slots, null, slots.IsEmpty ? Reason.Of("fact-no-slot") : Reason.Of("fact-last-slot", slots[^1])));
    }

    private static void AddSupplier(PlanningCase planning, List<Fact> facts)
    {
        if (planning.Shop.Supplier is { Lacks.Count: > 0 } supplier)
            facts.Add(new Fact(FactIds.Supplier, null, Reason.Of("fact-supplier-lacks", string.Join(", ", supplier.Lacks.Order()))));
    }

    private static void AddWindows(PlanningCase planning, List<Fact> facts)
    {
        foreach (var joint in planning.Joints.Select(facts => facts.Joint).Where(joint => joint.Surface.Applied is not null))
        {
            if (planning.SheetOf(joint.Surface.Material) is { NextLayerWithin: { } window } coat)
                facts.Add(new Fact(FactIds.Window(joint.Id), joint.Id, Reason.Of("fact-window", coat.Id, planning.Cures.LatestNextLayer(window, joint.Surface.Applied!.Value))));
        }
    }

    private static void AddLimits(PlanningCase planning, List<Fact> facts)
    {
        foreach (var sheet in Asked(planning).Where(sheet => planning.Application.For(sheet) is not [var all] || all.To < planning.Time.Horizon - PlanTime.Grid))
        {
            var now = planning.Repair.Now;
            var verdict = Verdicts.Deciding(ClimateRules.Judge(sheet, planning.Cures.Panel.TemperatureAt(now), planning.Cures.Panel.AirAt(now))).First();
            facts.Add(new Fact(FactIds.Limits(sheet.Id), null, Reason.Of("fact-limits", sheet.Id, verdict.Reason)));
        }
    }

    private static void AddPeople(PlanningCase planning, List<Fact> facts)
    {
        foreach (var skill in Enum.GetValues<Skill>().Where(skill => !planning.Shop.People.Any(person => person.Skills.Contains(skill))))
            facts.Add(new Fact(FactIds.Skill(skill.ToString()), null, Reason.Of("fact-no-skill", skill)));
        var today = planning.Repair.Now.InZone(planning.Shop.Zone).Date;
        foreach (var sheet in Asked(planning).Where(sheet => !sheet.Trainings.IsEmpty))
        {
            var trained = planning.Shop.People.Where(person => person.Skills.Contains(Skill.Seal) || person.Skills.Contains(Skill.Prime))
                .Any(person => Verdicts.MayBeUsed(PersonRules.Judge(person, sheet, today)));
            if (!trained)
                facts.Add(new Fact(FactIds.Skill(sheet.Id.Value), null, Reason.Of("fact-no-training", sheet.Id, string.Join(", ", sheet.Trainings))));
        }
    }

    /// <summary>Rules that stand alone between a joint and a material that would otherwise do.</summary>
    private static void AddRules(PlanningCase planning, List<Fact> facts)
    {
        foreach (var joint in planning.Joints.Concat(planning.Cavities).Where(facts => !facts.Joint.IsBare || facts.Joint.Function == JointFunction.AcousticFoam))
        {
            foreach (var option in joint.Options.Where(option => !option.Admissible))
            {
                var against = option.Verdicts.Where(verdict => verdict.Kind > VerdictKind.Advice).ToList();
                if (against.Count == 1)
                    facts.Add(new Fact(FactIds.Rule(joint.Joint.Id, against[0].RuleId), joint.Joint.Id, Reason.Of("fact-rule", option.Sheet.Id, against[0].Reason)));
            }
        }
    }

    private static void AddCureTimes(PlanningCase planning, List<Fact> facts)
    {
        foreach (var joint in planning.Joints.Where(facts => !facts.Joint.IsBare && facts.Options.Any(option => option.Admissible)))
            facts.Add(new Fact(FactIds.CureTime(joint.Joint.Id), joint.Joint.Id, Reason.Of("fact-cure-time", joint.Joint.Id)));
        foreach (var bond in planning.Repair.Bonds.Where(bond => planning.Sheets[bond.Adhesive].Milestone(MilestoneKind.Handling) is not null))
            facts.Add(new Fact(FactIds.CureTime(bond.Id), bond.Id, Reason.Of("fact-bond-time", bond.Id, bond.Adhesive)));
    }
}
