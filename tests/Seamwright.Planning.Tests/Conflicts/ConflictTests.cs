using System.Collections.Immutable;
using CsCheck;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Program.Texts;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Conflicts;

public sealed class ConflictTests
{
    private static readonly PlanOptions Options = new() { Deterministic = true, Alternatives = false };

    public static TheoryData<string> Traps => [.. RandomRepairs.Traps.Keys.Order(StringComparer.Ordinal)];

    [Fact]
    public void An_example_without_a_plan_names_a_fact_for_each_of_its_three_traps()
    {
        var conflicts = RepairPlanner.Answer(Examples.Read("no-plan"), Options).Conflicts;

        Assert.Equal(3, conflicts.Length);
        Assert.Contains(conflicts, conflict => conflict.Facts.Any(fact => fact.Id == "E2S/stock"));
        Assert.Contains(conflicts, conflict => conflict.Facts.Any(fact => fact.Id.StartsWith("J2/position", StringComparison.Ordinal)));
        Assert.Contains(conflicts, conflict => conflict.Facts.Any(fact => fact.Id == "P-EP/stock"));
    }

    [Theory, MemberData(nameof(Traps))]
    public void A_trap_is_named_and_changing_one_fact_of_each_conflict_gives_a_plan(string trap)
    {
        foreach (int seed in Rounds.Long ? Enumerable.Range(0, 20) : [14])
            HoldsFor(RandomRepairs.Traps[trap](RandomRepairs.Small(seed)), seed);
    }

    [Fact]
    public void Changing_any_one_fact_of_each_conflict_gives_a_plan() =>
        Rounds.Look(Gen.Int[0, 1_000_000], 8, seed => HoldsFor(RandomRepairs.Trapped(seed), seed));

    private static void HoldsFor(RepairInput input, int seed)
    {
        var answer = RepairPlanner.Answer(input, Options);
        if (answer.Recommended is not null)
            return;

        Assert.NotEmpty(answer.Conflicts);
        Assert.All(answer.Conflicts, conflict => Assert.NotEmpty(conflict.Facts));
        var words = new Formatter(Sentences.Load("en"), Notation.Of(input.Shop, input.Repair.Now));
        Assert.All(answer.Conflicts.SelectMany(conflict => conflict.Facts), fact => Assert.DoesNotContain("{", words.Sentence(fact.Reason), StringComparison.Ordinal));
        AssertSettingAsideHelps(input, answer.Conflicts, new Random(seed));
        AssertChangingHelps(input, answer.Conflicts);
    }

    /// <summary>Any one fact of each conflict, drawn three times.</summary>
    private static void AssertSettingAsideHelps(RepairInput input, ImmutableArray<Conflict> conflicts, Random random)
    {
        var search = new PlanSearch(new PlanningCase(input), Options);
        int rounds = conflicts.Max(conflict => conflict.Facts.Length);
        for (int round = 0; round < Math.Min(rounds, 3); round++)
        {
            var aside = conflicts.Select(conflict => conflict.Facts[random.Next(conflict.Facts.Length)].Id).ToImmutableHashSet();
            Assert.True(search.Cheapest(Variation.Recommended with { SetAside = aside }) is not null, $"{input.Repair.Id}: {string.Join(", ", aside)} set aside gives no plan");
        }
    }

    private static void AssertChangingHelps(RepairInput input, ImmutableArray<Conflict> conflicts)
    {
        var changed = input;
        foreach (var conflict in conflicts)
        {
            if (conflict.Facts.Select(fact => RealChanges.Of(changed, fact)).FirstOrDefault(change => change is not null) is not { } next)
                return;
            changed = next;
        }
        Assert.True(RepairPlanner.Answer(changed, Options).Recommended is not null, $"{input.Repair.Id}: the facts really changed give no plan: {string.Join(" | ", conflicts.Select(conflict => string.Join(", ", conflict.Facts.Select(fact => fact.Id))))}");
    }
}
