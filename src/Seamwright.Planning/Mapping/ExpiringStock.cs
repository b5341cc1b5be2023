using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>Packs that are about to expire: what is used of them is saved, not spent.</summary>
internal static class ExpiringStock
{
    /// <summary>Whether a pack expires so soon that its rest would be thrown away. Single-use packs are paid by whoever opens them.</summary>
    public static bool IsExpiring(PlanningCase planning, Pack pack) =>
        !planning.Sheets[pack.Material].Pack.SingleUse
        && PackUsability.Window(pack, planning.Sheets[pack.Material], planning.Shop.Zone).Until is { } until
        && until - planning.Repair.Now <= Duration.FromDays(planning.Shop.Amounts.UseUpDays);

    /// <summary>Materials whose first pack in the order of use expires soon and holds enough for everything that could ask for it.</summary>
    public static ImmutableHashSet<MaterialId> In(PlanningCase planning)
    {
        var expiring = ImmutableHashSet.CreateBuilder<MaterialId>();
        foreach (var packs in planning.Input.Stock.Packs.Where(pack => planning.Sheets.ContainsKey(pack.Material)).GroupBy(pack => pack.Material))
        {
            var sheet = planning.Sheets[packs.Key];
            var usable = packs.Where(pack => Verdicts.MayBeUsed(PackRules.Judge(pack, sheet, planning.Repair.Now, planning.Shop.Zone, 1)) && IsExpiring(planning, pack)).ToList();
            if (usable.Exists(pack => pack.Left >= Most(planning, sheet) && sheet.Pack.StripLength <= Length.Zero))
                expiring.Add(sheet.Id);
        }
        return expiring.ToImmutable();
    }

    /// <summary>All seams of the repair made of one material, a nozzle's waste for each.</summary>
    private static Volume Most(PlanningCase planning, DataSheet sheet)
    {
        var amounts = planning.Shop.Amounts;
        var waste = Nozzles.Takes(sheet) ? Nozzles.Waste(amounts) : Volume.Zero;
        return planning.Repair.Joints
            .Where(joint => !joint.IsBare && joint.Function is JointFunction.Seal or JointFunction.AntiFlutter && sheet.Looks.Contains(joint.Look.Profile))
            .Aggregate(Volume.Zero, (sum, joint) => sum + Beads.Needed(joint, amounts) + waste);
    }
}
