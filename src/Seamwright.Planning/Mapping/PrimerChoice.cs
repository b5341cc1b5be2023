using System.Collections.Immutable;
using Seamwright.Materials;

namespace Seamwright.Planning.Mapping;

/// <summary>Which primers a bare joint may get here.</summary>
internal static class PrimerChoice
{
    /// <summary>Primers proper (no etch, no weld-through), the shop's usual one first, then those in stock, then the rest.</summary>
    public static ImmutableArray<DataSheet> For(PlanningCase planning)
    {
        var stocked = planning.Input.Stock.Packs.Select(pack => pack.Material).ToHashSet();
        return
        [
            .. planning.Input.Sheets
                .Where(sheet => sheet.Use == MaterialUse.Primer)
                .OrderBy(sheet => sheet.Id == planning.Shop.UsualPrimer ? 0 : stocked.Contains(sheet.Id) ? 1 : 2)
                .Take(3),
        ];
    }
}
