using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Conflicts;

/// <summary>
/// Why no plan is possible. A set of facts is looked for of which none can be left out and whose change together gives a plan: one fact for each
/// conflict. Then, for each of them, every other fact that would do as well in its place. So whoever changes any one fact of each conflict gets a
/// plan: every such claim is checked by planning again with those facts set aside.
/// </summary>
internal sealed class ConflictFinder
{
    /// <summary>So many combinations of one fact a conflict are tried at most.</summary>
    private const int MostCombinations = 24;

    private readonly PlanningCase _planning;
    private readonly Feasibility _possible;
    private readonly ImmutableArray<Fact> _facts;
    private readonly ImmutableArray<ClosedPlaces.Closed> _closed;

    private ConflictFinder(PlanningCase planning, PlanOptions options)
    {
        _planning = planning;
        _possible = new Feasibility(planning, options);
        _closed = new ClosedPlaces(planning).All();
        _facts = [.. CandidateFacts.Of(planning).Concat(_closed.SelectMany(closed => closed.Ways).SelectMany(way => way)).DistinctBy(fact => fact.Id)];
    }

    /// <summary>Conflicts, each with at least one fact; at least one conflict.</summary>
    public static ImmutableArray<Conflict> Find(PlanningCase planning, PlanOptions options) => new ConflictFinder(planning, options).Find();

    private ImmutableArray<Conflict> Find()
    {
        if (_closed.IsEmpty && _possible.Is([]))
            return [One("search-limit", Reason.Of("fact-search-limit"))];
        ImmutableArray<Fact> opening = [.. _closed.SelectMany(closed => closed.Ways).SelectMany(way => way).DistinctBy(fact => fact.Id)];
        if (Further(opening) is not { } further)
            return [One("unexplained", Reason.Of("fact-unexplained"))];
        var opened = Opened(further);
        var needed = Needed([.. opened, .. further]);
        if (!_possible.Is(needed))
            needed = Smaller([.. opening, .. further], []);
        return [.. Together(needed).Select(facts => new Conflict([.. facts.OrderBy(Place)]))];

        int Place(Fact fact) => _facts.Select(known => known.Id).ToList().IndexOf(fact.Id) is >= 0 and var at ? at : int.MaxValue;
    }

    /// <summary>
    /// The facts of each conflict: the one needed, and others that do as well in its place, whichever are taken in the other conflicts. Taken up
    /// easiest to change first, as long as few enough combinations have to be tried.
    /// </summary>
    private ImmutableArray<Fact>[] Together(ImmutableArray<Fact> needed)
    {
        var lists = needed.Select(fact => ImmutableArray.Create(fact)).ToArray();
        for (int i = 0; i < lists.Length; i++)
        {
            foreach (var fact in InPlaceOf(needed[i], needed))
            {
                var combinations = Combinations(lists, but: i);
                if (combinations.Count * (lists[i].Length + 1) <= MostCombinations && combinations.TrueForAll(others => _possible.Is([.. others, fact])))
                    lists[i] = lists[i].Add(fact);
            }
        }
        return lists;
    }

    private static List<ImmutableArray<Fact>> Combinations(ImmutableArray<Fact>[] lists, int but)
    {
        List<ImmutableArray<Fact>> all = [[]];
        for (int i = 0; i < lists.Length; i++)
        {
            if (i != but)
                all = [.. all.SelectMany(_ => lists[i], (some, fact) => some.Add(fact))];
        }
        return all;
    }

    private static Conflict One(string id, Reason reason) => new([new Fact(id, null, reason)]);

    /// <summary>Facts that must change besides those that open closed places: none, one, or a set of which none can be left out; null = nothing helps.</summary>
    private ImmutableArray<Fact>? Further(ImmutableArray<Fact> opening)
    {
        if (_possible.Is(opening))
            return [];
        ImmutableArray<Fact> others = [.. _facts.Where(fact => !opening.Contains(fact))];
        if (Helpful(others, opening).FirstOrDefault() is { } one)
            return [one];
        foreach (var all in (ImmutableArray<Fact>[])[others, [.. others, .. CandidateFacts.Places(_planning).Where(fact => !_facts.Any(known => known.Id == fact.Id))]])
        {
            if (_possible.Is([.. opening, .. all]))
                return Smaller(all, opening);
        }
        return null;
    }

    /// <summary>Leaves out what is not needed, half of it at a time, the hardest to change first.</summary>
    private ImmutableArray<Fact> Smaller(ImmutableArray<Fact> facts, ImmutableArray<Fact> with)
    {
        var needed = facts;
        for (int size = Math.Max(1, facts.Length / 2); ; size /= 2)
        {
            for (int end = needed.Length; end > 0; end -= size)
            {
                int start = Math.Max(0, end - size);
                var without = needed.RemoveRange(start, Math.Min(end, needed.Length) - start);
                if (_possible.Is([.. with, .. without]))
                    needed = without;
            }
            if (size <= 1)
                return needed;
        }
    }

    /// <summary>One way for each closed place, ways that open several places first; what the places still closed need stays set aside meanwhile.</summary>
    private ImmutableArray<Fact> Opened(ImmutableArray<Fact> further)
    {
        var chosen = ImmutableArray<Fact>.Empty;
        var left = _closed.Where(place => !IsOpen(place, further)).ToList();
        while (left.Count > 0)
        {
            var ways = left[0].Ways.Select(way => (Way: way, Left: left.FindAll(place => !IsOpen(place, [.. chosen, .. way, .. further]))));
            // A supplier or a later slot would open much at once, but then nobody reads what is missing where: it is named beside each.
            var best = ways.OrderBy(choice => choice.Way.Any(fact => fact.Id is FactIds.Supplier or FactIds.Slots)).ThenBy(choice => choice.Left.Count)
                .Where(choice => _possible.Is([.. chosen, .. choice.Way, .. further, .. choice.Left.SelectMany(place => place.Ways).SelectMany(way => way)]))
                .FirstOrDefault((left[0].Ways.SelectMany(way => way).ToImmutableArray(), left[1..]));
            chosen = [.. chosen.Concat(best.Item1).DistinctBy(fact => fact.Id)];
            left = best.Item2;
        }
        return chosen;
    }

    private static bool IsOpen(ClosedPlaces.Closed place, ImmutableArray<Fact> aside) =>
        place.Ways.Any(way => way.All(fact => aside.Any(other => other.Id == fact.Id)));

    /// <summary>Leaves out facts one by one as long as a plan remains.</summary>
    private ImmutableArray<Fact> Needed(ImmutableArray<Fact> facts)
    {
        var needed = facts;
        foreach (var fact in facts.Reverse())
        {
            var without = needed.Remove(fact);
            if (without.Length > 0 && _possible.Is(without))
                needed = without;
        }
        return needed;
    }

    /// <summary>Every other fact that does as well in the place of one, easiest to change first.</summary>
    private IEnumerable<Fact> InPlaceOf(Fact fact, ImmutableArray<Fact> needed)
    {
        var others = needed.Remove(fact);
        // A closed place opens only by one of its own ways.
        var places = _closed.Where(place => !IsOpen(place, others)).ToList();
        var candidates = _facts.Where(candidate => candidate.Id != fact.Id && !others.Any(other => other.Id == candidate.Id));
        if (places.Count > 0)
            candidates = candidates.Where(candidate => places.TrueForAll(place => place.Ways.Any(way => way.Any(part => part.Id == candidate.Id))));
        return Helpful([.. candidates], others);
    }

    /// <summary>Facts each of which alone, besides some others, gives a plan. A group that does not help as a whole is not looked into.</summary>
    private IEnumerable<Fact> Helpful(ImmutableArray<Fact> facts, ImmutableArray<Fact> with)
    {
        if (facts.IsEmpty || !_possible.Is([.. with, .. facts]))
            return [];
        if (facts.Length == 1)
            return facts;
        int half = facts.Length / 2;
        return Helpful(facts[..half], with).Concat(Helpful(facts[half..], with));
    }
}
