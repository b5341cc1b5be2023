using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Choices;

/// <summary>What a delivery or a lamp in the plan is worth: the same repair planned again without it.</summary>
internal sealed class WhatSpeedBuys(PlanSearch search, PlanReader reader, Found best, Plan recommended)
{
    public ImmutableArray<Tradeoff> Answer()
    {
        var tradeoffs = ImmutableArray.CreateBuilder<Tradeoff>();
        if (!recommended.Orders.IsEmpty)
        {
            // What is paid for the delivery today: the packs and nozzles it brings, whole, and the delivery itself.
            var spent = recommended.Orders.Aggregate(recommended.Cost.Delivery, (sum, line) => sum + line.Price);
            tradeoffs.Add(Without(TradeoffKind.Delivery, spent, Variation.Recommended with { WithoutDeliveryToday = true }));
        }
        if (recommended.Steps.Any(step => step.Kind == StepKind.Lamp))
        {
            var people = recommended.Steps.Where(step => step.Kind == StepKind.SetUpLamp).ToList();
            var spent = people.Aggregate(recommended.Cost.Lamp, (sum, step) => sum + reader.LabourOf(step));
            tradeoffs.Add(Without(TradeoffKind.Lamp, spent, Variation.Recommended with { WithoutLamp = true }));
        }
        return tradeoffs.ToImmutable();
    }

    private Tradeoff Without(TradeoffKind kind, Money spent, Variation variation)
    {
        if (search.Cheapest(variation, best) is not { } without)
            return new Tradeoff(kind, spent, Money.Zero, Money.Zero, null);
        var cost = reader.CostOf(without);
        var saved = cost.BayTime + cost.Lateness - recommended.Cost.BayTime - recommended.Cost.Lateness;
        return new Tradeoff(kind, spent, saved, cost.Total - recommended.Cost.Total, reader.SlotOf(without));
    }
}
