using System.Collections.Immutable;
using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Planning.Uncertainty;
using Seamwright.Planning.WholeShop;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning;

/// <summary>Plans all vehicles of a shop together on its people, bays, booth, lamps and stock.</summary>
public static class ShopPlanner
{
    /// <summary>Plans the vehicles. Anytime: it answers the best plan found when time is over or it is stopped.</summary>
    /// <param name="inputs">One per vehicle; at least one. All of one shop, one stock and one moment.</param>
    /// <param name="options">How to plan; null = defaults.</param>
    /// <exception cref="ArgumentException">There is no vehicle, or the moments differ: plans on different clocks cannot share a shop.</exception>
    public static ShopPlan Plan(ImmutableArray<RepairInput> inputs, ShopPlanOptions? options = null) => PlanWithChances(inputs, options, null).Plan;

    /// <summary>Plans the vehicles and draws samples of each one's plan. What the others do is taken to happen as planned.</summary>
    /// <param name="inputs">One per vehicle; at least one. All of one shop, one stock and one moment.</param>
    /// <param name="options">How to plan; null = defaults.</param>
    /// <param name="chances">How to draw; null = nothing is drawn.</param>
    /// <returns>The plan, and one entry a vehicle: null where it has no plan or nothing was drawn.</returns>
    /// <exception cref="ArgumentException">There is no vehicle, or the moments differ: plans on different clocks cannot share a shop.</exception>
    public static (ShopPlan Plan, ImmutableArray<Chance?> Chances) PlanWithChances(
        ImmutableArray<RepairInput> inputs, ShopPlanOptions? options, ChanceOptions? chances)
    {
        var asked = options ?? new ShopPlanOptions();
        if (inputs.IsDefaultOrEmpty)
            throw new ArgumentException("There is no vehicle to plan.", nameof(inputs));
        if (inputs.Any(input => input.Repair.Now != inputs[0].Repair.Now))
            throw new ArgumentException("All vehicles must be planned from the same moment.", nameof(inputs));

        var search = new ShopSearch(inputs, asked);
        search.Run();
        var vehicles = ImmutableArray.CreateBuilder<VehiclePlan>(inputs.Length);
        for (int i = 0; i < inputs.Length; i++)
            vehicles.Add(Read(search, i, asked));
        string currency = inputs[0].Shop.Currency;
        var plans = vehicles.Select(vehicle => vehicle.Plan).OfType<Plan>().ToList();
        var total = plans.Aggregate(new Money(0, currency), (sum, plan) => sum + plan.Cost.Total);
        if (inputs[0].Shop.Supplier is { } supplier)
            total -= supplier.PerOrder * Math.Max(0, plans.Count(plan => !plan.Orders.IsEmpty) - 1);
        var bound = SolverMoney.Back(search.Bound, currency);
        var plan = new ShopPlan
        {
            Vehicles = vehicles.ToImmutable(),
            Total = total,
            LowerBound = bound > total ? total : bound,
            Elapsed = search.Elapsed,
            FirstAfter = search.FirstAfter,
        };
        return (plan, [.. Enumerable.Range(0, inputs.Length).Select(i => chances is null ? null : ChanceOf(search, i, chances))]);
    }

    private static Chance? ChanceOf(ShopSearch search, int vehicle, ChanceOptions chances)
    {
        if (search.Best.Vehicles[vehicle] is not { } placed)
            return null;
        var one = search.Vehicles[vehicle].Case;
        var spreads = one.Shop.Spreads;
        return new ChanceReader(NetworkReader.Read(one, placed.Found, spreads), one.Time, spreads, chances).Read(ChanceAssessment.SlotOf(placed.Found));
    }

    private static VehiclePlan Read(ShopSearch search, int vehicle, ShopPlanOptions asked)
    {
        var one = search.Vehicles[vehicle];
        var options = new PlanOptions { Seed = asked.Seed, Deterministic = asked.Deterministic, Alternatives = false };
        var reader = new PlanReader(one.Case, options);
        Money? alone = one.Alone is { } found ? reader.CostOf(found).Total : null;
        if (search.Best.Vehicles[vehicle] is not { } placed)
            return new VehiclePlan(one.Case.Input, null, alone, one.MayHavePlan ? [] : ConflictFinder.Find(one.Case, options));
        // What the others take is what it is when everything has found its place, not when this vehicle was placed.
        var project = placed.Found.Project with { Variation = placed.Found.Project.Variation with { Others = search.Best.Others(vehicle) } };
        return new VehiclePlan(one.Case.Input, reader.Read(placed.Found with { Project = project }, PlanAim.Recommended), alone, []);
    }
}
