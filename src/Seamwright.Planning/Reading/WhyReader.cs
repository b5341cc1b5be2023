using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Suitability;

namespace Seamwright.Planning.Reading;

/// <summary>Why a joint got its material: what rules leave, then what decides among them.</summary>
internal static class WhyReader
{
    public static ImmutableArray<Reason> Why(PlanningCase planning, JointFacts facts, JointOption chosen)
    {
        var why = ImmutableArray.CreateBuilder<Reason>();
        var joint = facts.Joint;
        var allowed = facts.Options.Where(option => option.Admissible && SeamUse(option)).Select(option => option.Sheet.Id).Distinct().ToList();
        if (joint.Wanted == chosen.Sheet.Id)
            why.Add(Reason.Of("why-wanted", chosen.Sheet.Id));
        else if (planning.Repair.Procedure.Any(statement => statement.Kind == ProcedureKind.Requires && (statement.Place is null || statement.Place == joint.Id) && statement.Names(chosen.Sheet)))
            why.Add(Reason.Of("why-procedure", chosen.Sheet.Id));
        else if (allowed.Count == 1)
            why.Add(Reason.Of("why-only", chosen.Sheet.Id));
        else if (joint.Masked || joint.Rubbed)
            why.Add(Reason.Of("why-masked", allowed.Count));
        else
            why.Add(Reason.Of("why-least-money", allowed.Count));
        if (chosen.Preparation != Preparation.AsIs)
            why.Add(Reason.Of("why-preparation", chosen.Preparation));
        return why.ToImmutable();
    }

    private static bool SeamUse(JointOption option) =>
        option.Sheet.Use is Materials.MaterialUse.SeamSealer or Materials.MaterialUse.SeamTape or Materials.MaterialUse.AntiFlutter;
}
