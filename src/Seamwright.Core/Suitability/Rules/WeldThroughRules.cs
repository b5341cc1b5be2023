using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;

namespace Seamwright.Suitability.Rules;

/// <summary>Zinc-rich weld-through primer: never on aluminium, and only on steel faces that will be welded.</summary>
internal static class WeldThroughRules
{
    internal static ImmutableArray<Rule<JointCase>> All { get; } =
    [
        new("weld-through.metal", Sources.Trade, OnMetal),
        new("weld-through.place", Sources.Trade, OnPlace),
    ];

    private static Finding OnMetal(JointCase subject) =>
        !IsWeldThrough(subject.Sheet) ? Finding.NotConcerned : Metal(subject.Sheet, subject.Joint.Metals);

    private static Finding OnPlace(JointCase subject) =>
        !IsWeldThrough(subject.Sheet) ? Finding.NotConcerned
        : Place(subject.Sheet, subject.Repair.Operations.Any(o => o.HotWork && o.Near.Contains(subject.Joint.Id)));

    internal static bool IsWeldThrough(DataSheet sheet) => sheet.Use == MaterialUse.WeldThroughPrimer || sheet.Chemistry == Chemistry.ZincRich;

    internal static Finding Metal(DataSheet sheet, ImmutableArray<Metal> metals)
    {
        foreach (var metal in metals)
        {
            if (metal == Repairs.Metal.Aluminium)
                return Finding.Refused("zinc-on-aluminium", sheet.Id);
            if (metal is not (Repairs.Metal.Steel or Repairs.Metal.ZincCoatedSteel))
                return Finding.Refused("zinc-only-on-steel", sheet.Id, metal);
        }
        return Finding.Fine("zinc-on-steel", sheet.Id);
    }

    internal static Finding Place(DataSheet sheet, bool willBeWelded) =>
        willBeWelded ? Finding.Advice("weld-through-thin", sheet.Id) : Finding.Refused("nothing-to-weld", sheet.Id);
}
