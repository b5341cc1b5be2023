using System.Collections.Concurrent;
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

        // The cheapest plan does not depend on the recommended one, so it is looked for beside it.
        var cheaper = asked.Alternatives ? Task.Run(() => search.Best(Variation.Recommended with { Aim = PlanAim.Cheapest })) : null;
        if (search.Best(Variation.Recommended) is not { } best)
        {
            cheaper?.Wait();
            return new PlanAnswer { Conflicts = ConflictFinder.Find(planning, asked) };
        }

        var reader = new PlanReader(planning, asked);
        var recommended = reader.Read(best, PlanAim.Recommended);
        if (cheaper is null)
            return new PlanAnswer { Recommended = recommended };

        Plan? cheapest = null, fastest = null;
        ImmutableArray<Tradeoff> tradeoffs = [];
        var others = new OtherMaterials(planning, search, reader, best, recommended, asked);
        IEnumerable<Action> questions =
        [
            () => cheapest = cheaper.GetAwaiter().GetResult() is { } found ? reader.Read(found, PlanAim.Cheapest) : null,
            () => fastest = search.Fastest(best) is { } found ? reader.Read(found, PlanAim.Fastest) : null,
            () => tradeoffs = new WhatSpeedBuys(search, reader, best, recommended).Answer(),
        ];

        // Independent questions, the long ones first, on two cores; each is deterministic by itself. Two also bound the memory of the
        // solver. The quick answers of the other materials are found by whoever is free first, while the long questions are still open.
        Parallel.ForEach(
            Partitioner.Create(questions.Concat(others.Questions()), EnumerablePartitionerOptions.NoBuffering),
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            question => question());
        return new PlanAnswer
        {
            Recommended = recommended with { Joints = others.Answer() },
            Cheapest = cheapest,
            Fastest = fastest,
            Tradeoffs = tradeoffs,
        };
    }
}
