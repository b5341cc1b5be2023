using System.Collections.Immutable;
using Seamwright.Planning.Choices;
using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Work;

namespace Seamwright.Planning;

/// <summary>Plans one repair: the recommended plan, the cheapest, the fastest, and what every other material would mean.</summary>
public static class RepairPlanner
{
    /// <summary>Answers for a repair. Pure: equal inputs, options and engine version give the equal answer.</summary>
    /// <param name="input">Repair, shop, sheets, stock and climate.</param>
    /// <param name="options">How to answer; null = defaults.</param>
    /// <returns>Plans, or the conflicts where no plan is possible.</returns>
    public static PlanAnswer Answer(RepairInput input, PlanOptions? options = null)
    {
        var asked = options ?? new PlanOptions();
        var planning = new PlanningCase(input);
        var search = new PlanSearch(planning, asked);
        if (search.Best(Variation.Recommended) is not { } best)
            return new PlanAnswer { Conflicts = ConflictFinder.Find(planning, asked) };

        var reader = new PlanReader(planning, asked);
        var recommended = reader.Read(best, PlanAim.Recommended);
        if (!asked.Alternatives)
            return new PlanAnswer { Recommended = recommended };

        Plan? cheapest = null, fastest = null;
        ImmutableArray<JointPlan> joints = [];
        ImmutableArray<Tradeoff> tradeoffs = [];
        // Independent questions on two cores; each is deterministic by itself.
        Parallel.Invoke(
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            () => cheapest = search.Best(Variation.Recommended with { Aim = PlanAim.Cheapest }, best) is { } found ? reader.Read(found, PlanAim.Cheapest) : null,
            () => fastest = search.Fastest(best) is { } found ? reader.Read(found, PlanAim.Fastest) : null,
            () => joints = new OtherMaterials(planning, search, reader, best, recommended, asked).Answer(),
            () => tradeoffs = new WhatSpeedBuys(search, reader, best, recommended).Answer());
        return new PlanAnswer
        {
            Recommended = recommended with { Joints = joints },
            Cheapest = cheapest,
            Fastest = fastest,
            Tradeoffs = tradeoffs,
        };
    }
}
