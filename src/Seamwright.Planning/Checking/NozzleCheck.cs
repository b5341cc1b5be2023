using System.Globalization;
using Seamwright.Materials;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Every mixer session has its nozzles: from the packs, from the drawer, or ordered in time.</summary>
internal static class NozzleCheck
{
    private const string Any = "";

    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        var there = OnTheShelf(plan);
        var ordered = plan.Plan.Orders.Where(order => order.What is null).ToList();
        int open = ordered.Sum(order => order.Count);
        foreach (var step in plan.Steps.Where(step => step.Nozzles > 0 || plan.Plan.PackUses.Any(use => use.StepId == step.Id && use.Nozzles > 0)).OrderBy(step => step.Start))
        {
            var uses = plan.Plan.PackUses.Where(use => use.StepId == step.Id).ToList();
            if (uses.Sum(use => use.Nozzles) < Math.Max(step.Nozzles, uses.Count))
                yield return Reason.Of("check-nozzles-planned", step.Id, step.Nozzles);
            string ratio = RatioOf(plan.SheetOf(step.Material));
            int needed = uses.Sum(use => use.Nozzles);
            // New packs bring their own.
            foreach (var use in uses.Where(use => use.Ordered && FirstOf(plan, use)))
                there[ratio] = there.GetValueOrDefault(ratio) + (plan.SheetOf(use.Material)?.Pack.NozzlesIncluded ?? 0);
            needed = Take(there, ratio, needed);
            needed = Take(there, Any, needed);
            int late = ordered.Exists(order => order.Arrives <= step.Start) ? Math.Min(open, needed) : 0;
            (open, needed) = (open - late, needed - late);
            if (needed > 0)
                yield return Reason.Of("check-nozzles-missing", step.Id, needed);
        }
    }

    private static bool FirstOf(CheckedPlan plan, PackUse use) => plan.Plan.PackUses.First(other => other.Pack == use.Pack) == use;

    private static int Take(Dictionary<string, int> there, string ratio, int needed)
    {
        int taken = Math.Min(needed, there.GetValueOrDefault(ratio));
        there[ratio] = there.GetValueOrDefault(ratio) - taken;
        return needed - taken;
    }

    private static Dictionary<string, int> OnTheShelf(CheckedPlan plan)
    {
        var there = new Dictionary<string, int>();
        foreach (var pack in plan.Input.Stock.Packs)
        {
            if (plan.SheetOf(pack.Material) is not { Method: ApplicationMethod.CartridgeWithMixer } sheet)
                continue;
            bool isSealed = pack.Opened is null && pack.Activated is null;
            string ratio = RatioOf(sheet);
            there[ratio] = there.GetValueOrDefault(ratio) + (pack.Nozzles ?? (isSealed ? sheet.Pack.NozzlesIncluded : 0));
        }
        foreach (var loose in plan.Input.Stock.Nozzles)
            there[loose.FitsRatio ?? Any] = there.GetValueOrDefault(loose.FitsRatio ?? Any) + loose.Count;
        return there;
    }

    private static string RatioOf(DataSheet? sheet) =>
        sheet?.Pack.Ratio is { } ratio ? string.Create(CultureInfo.InvariantCulture, $"{ratio.Base}:{ratio.Hardener}") : "none";
}
