using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Work;

namespace Seamwright.Planning.Conflicts;

/// <summary>
/// Why no plan is possible. The smallest number of facts that must change is found first (one fact for each independent conflict); then,
/// for each of them, every other fact that would do as well in its place. So whoever changes any one fact of each conflict gets a plan:
/// every such claim is checked by planning again with that fact set aside.
/// </summary>
internal static class ConflictFinder
{
    private const int MostConflicts = 4;

    public static ImmutableArray<Conflict> Find(PlanningCase planning, PlanOptions options)
    {
        var facts = CandidateFacts.Of(planning);
        var search = new PlanSearch(planning, options);
        bool Possible(IEnumerable<Fact> aside) =>
            search.IsPossible(Variation.Recommended with { SetAside = [.. aside.Select(fact => fact.Id)] });

        if (Smallest(facts, Possible) is not { } smallest)
            return [new Conflict(facts)];
        var conflicts = ImmutableArray.CreateBuilder<Conflict>();
        foreach (var one in smallest)
        {
            var others = smallest.Remove(one);
            var inItsPlace = facts.Where(fact => fact == one || (!others.Contains(fact) && Possible(others.Add(fact))));
            conflicts.Add(new Conflict([.. inItsPlace]));
        }
        return conflicts.ToImmutable();
    }

    /// <summary>
    /// A smallest set of facts whose setting aside leaves a plan; null where even setting all aside does not help. Singles are tried first;
    /// larger sets come from dropping facts from the whole one by one, which leaves none that is not needed.
    /// </summary>
    private static ImmutableArray<Fact>? Smallest(ImmutableArray<Fact> facts, Func<IEnumerable<Fact>, bool> possible)
    {
        if (!possible(facts))
            return null;
        foreach (var fact in facts)
        {
            if (possible([fact]))
                return [fact];
        }
        var needed = facts;
        foreach (var fact in facts)
        {
            var without = needed.Remove(fact);
            if (without.Length > 0 && possible(without))
                needed = without;
        }
        return needed.Length <= MostConflicts ? SmallestOf(facts, needed, possible) : needed;
    }

    /// <summary>Pairs are tried in full where the drop left more than two.</summary>
    private static ImmutableArray<Fact> SmallestOf(ImmutableArray<Fact> facts, ImmutableArray<Fact> needed, Func<IEnumerable<Fact>, bool> possible)
    {
        if (needed.Length <= 2)
            return needed;
        for (int i = 0; i < facts.Length; i++)
        {
            for (int k = i + 1; k < facts.Length; k++)
            {
                if (possible([facts[i], facts[k]]))
                    return [facts[i], facts[k]];
            }
        }
        return needed;
    }
}
