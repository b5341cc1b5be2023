using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Suitability;

namespace Seamwright.Planning.Mapping;

/// <summary>Which primers a bare joint may get here.</summary>
internal static class PrimerChoice
{
    /// <summary>
    /// Primers proper (no etch, no weld-through) of which a pack can be used now, the shop's usual one first; where there is none, the usual
    /// one or the first sheet, to be ordered.
    /// </summary>
    public static ImmutableArray<DataSheet> For(PlanningCase planning)
    {
        var primers = planning.Input.Sheets.Where(sheet => sheet.Use == MaterialUse.Primer)
            .OrderBy(sheet => sheet.Id == planning.Shop.UsualPrimer ? 0 : 1)
            .ToList();
        var stocked = primers.Where(IsStocked).ToImmutableArray();
        return stocked.IsEmpty ? [.. primers.Take(1)] : stocked;

        bool IsStocked(DataSheet sheet) => planning.Input.Stock.Packs.Any(pack =>
            pack.Material == sheet.Id && Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, looseNozzles: 1)));
    }
}
