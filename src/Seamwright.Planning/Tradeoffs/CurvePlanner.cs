using System.Collections.Immutable;
using Seamwright.Planning.Comparing;
using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tradeoffs;

/// <summary>Finds the trade-off curve of one repair.</summary>
public static class CurvePlanner
{
    /// <summary>Answers for a repair. Pure: equal inputs, options and engine version give the equal answer.</summary>
    /// <param name="input">Repair, shop, sheets, stock and climate.</param>
    /// <param name="options">How to plan; null = defaults. The time limit counts for each search.</param>
    public static TradeoffCurve Answer(RepairInput input, PlanOptions? options = null)
    {
        var asked = (options ?? new PlanOptions()) with { Alternatives = false, Explain = null };
        var planning = new PlanningCase(input);
        var recommending = Task.Run(() => new PlanSearch(planning, asked).Best(Variation.Recommended));
        var search = new CurveSearch(planning, asked);
        var found = search.Points();
        var best = recommending.GetAwaiter().GetResult();
        if (best is null || found.Count == 0)
            return new TradeoffCurve { Points = [], Conflicts = ConflictFinder.Find(planning, asked) };

        var reader = new PlanReader(planning, asked);
        var recommended = reader.Read(best, PlanAim.Recommended);
        var plans = Efficient(found.Select(point => Read(reader, point, input.Shop.Currency)));
        var points = plans.Select((plan, i) => new CurvePoint(plan, i == 0 ? null : PlanDifference.Between(plans[i - 1], plan))).ToImmutableArray();
        int at = plans.FindIndex(plan => plan.Cost.Spent.Rounded == recommended.Cost.Spent.Rounded && plan.ReadyForPaint == recommended.ReadyForPaint);
        return new TradeoffCurve
        {
            Points = points,
            Recommended = recommended,
            RecommendedAt = at < 0 ? null : at,
            IsExact = search.IsComplete && plans.All(plan => plan.ProvenOptimal),
        };
    }

    /// <summary>The proof of a point is one of its spending, not of a total with bay days and lateness.</summary>
    private static Plan Read(PlanReader reader, Found found, string currency)
    {
        var plan = reader.Read(found, PlanAim.Cheapest, FormattableString.Invariant($"ready by {ReadyMoment.Of(found)}"));
        var bound = SolverMoney.Back(found.Bound, currency);
        bool isComplete = plan.Cost.Spent.Rounded == bound.Rounded;
        return plan with { ProvenOptimal = found.Proven && isComplete, LowerBound = Least(bound, plan.Cost.Spent) };
    }

    private static Money Least(Money one, Money other) => one < other ? one : other;

    /// <summary>The search counts ten-thousandths and prices packs in bulk; what is no dearer to the cent and earlier makes the one before it pointless.</summary>
    private static List<Plan> Efficient(IEnumerable<Plan> plans)
    {
        var kept = new List<Plan>();
        foreach (var plan in plans)
        {
            while (kept.Count > 0 && kept[^1].Cost.Spent.Rounded >= plan.Cost.Spent.Rounded)
                kept.RemoveAt(kept.Count - 1);
            kept.Add(plan);
        }
        return kept;
    }
}
