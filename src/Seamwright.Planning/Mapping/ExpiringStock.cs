using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>Packs that are about to expire: what is used of them is saved, not spent.</summary>
internal static class ExpiringStock
{
    /// <summary>Whether a pack expires so soon that its rest would be thrown away. Single-use packs are paid by whoever opens them.</summary>
    public static bool IsExpiring(PlanningCase planning, Pack pack) =>
        !planning.Sheets[pack.Material].Pack.SingleUse
        && PackUsability.Window(pack, planning.Sheets[pack.Material], planning.Shop.Zone).Until is { } until
        && until - planning.Repair.Now <= Duration.FromDays(planning.Shop.Amounts.UseUpDays);

    /// <summary>
    /// Materials whose first pack in the order of use expires soon, but not before the last slot, and holds enough for everything that could ask
    /// for it: then every use comes from that pack, and the search may count it as free.
    /// </summary>
    public static ImmutableHashSet<MaterialId> In(PlanningCase planning)
    {
        var expiring = ImmutableHashSet.CreateBuilder<MaterialId>();
        var last = planning.Repair.PaintSlots.Append(planning.Repair.Now).Max();
        foreach (var packs in planning.Input.Stock.Packs.Where(pack => planning.Sheets.ContainsKey(pack.Material)).GroupBy(pack => pack.Material))
        {
            var sheet = planning.Sheets[packs.Key];
            // One that is on its way may come between: then no single pack is sure to serve.
            if (packs.Any(pack => pack.Arrives is not null) || !packs.Any(pack => IsExpiring(planning, pack)))
                continue;
            var first = packs.Where(pack => Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, 1)))
                .OrderBy(pack => !PackUsability.IsBegun(pack))
                .ThenBy(pack => PackUsability.Window(pack, sheet, planning.Shop.Zone).Until ?? Instant.MaxValue)
                .FirstOrDefault();
            if (first is not null && IsExpiring(planning, first) && sheet.Pack.StripLength <= Length.Zero
                && PackUsability.Window(first, sheet, planning.Shop.Zone).Covers(last) && first.Left >= Most(planning, sheet))
                expiring.Add(sheet.Id);
        }
        return expiring.ToImmutable();
    }

    /// <summary>Everything of the repair that could be made of one material, two nozzles' waste for each seam.</summary>
    private static Volume Most(PlanningCase planning, DataSheet sheet)
    {
        var amounts = planning.Shop.Amounts;
        var repair = planning.Repair;
        var waste = Nozzles.Takes(sheet) ? Nozzles.Waste(amounts) * 2 : Volume.Zero;
        var none = Volume.Zero;
        return sheet.Use switch
        {
            MaterialUse.SeamSealer or MaterialUse.AntiFlutter => repair.Joints
                .Where(joint => repair.DoneOn(joint.Id, StepKind.Seal) is null && !joint.IsBare && joint.Function is JointFunction.Seal or JointFunction.AntiFlutter && sheet.Looks.Contains(joint.Look.Profile))
                .Aggregate(none, (sum, joint) => sum + Beads.Needed(joint, amounts) + waste),
            MaterialUse.Primer => Coatings.Primer(
                sheet,
                repair.Joints.Select(Coatings.PrimedLength).Concat(repair.Bonds.Select(bond => bond.Length)).Aggregate(Length.Zero, (sum, length) => sum + length),
                repair.BareAreas.Aggregate(Area.Zero, (sum, area) => sum + area.Area)) ?? none,
            MaterialUse.PanelAdhesive => repair.Bonds.Aggregate(none, (sum, bond) => sum + (Coatings.Adhesive(sheet, bond) ?? none) + waste),
            MaterialUse.StoneChip => repair.BareAreas.Aggregate(none, (sum, area) => sum + (Coatings.StoneChip(sheet, area.Area) ?? none)),
            MaterialUse.CavityWax => repair.Cavities.Aggregate(none, (sum, cavity) => sum + (Coatings.Wax(sheet, cavity) ?? none)),
            _ => sheet.Pack.Content,
        };
    }
}
