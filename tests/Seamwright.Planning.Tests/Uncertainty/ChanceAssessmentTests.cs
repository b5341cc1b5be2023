using Seamwright.Planning.Checking;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Planning.Uncertainty;
using Seamwright.Shops;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>How likely whole repairs are kept.</summary>
public sealed class ChanceAssessmentTests
{
    private static readonly PlanOptions Planning = new() { Deterministic = true };

    private static readonly Lazy<ChanceAnswer> Evening = new(() => ChanceAssessment.Answer(Examples.Read("evening-slot"), Planning, new ChanceOptions { Samples = 20_000 }));

    [Fact]
    public void A_plan_that_is_not_likely_enough_comes_with_a_checked_one_that_is()
    {
        var answer = Evening.Value;

        Assert.True(answer.Chance!.BySlot.Value < answer.Wanted);
        Assert.NotNull(answer.Robust);
        Assert.True(answer.Robust.BySlot.Value >= answer.Wanted);
        Assert.True(answer.Robust.CostShift.Amount > 0);        // a likelier plan that cost less would have been recommended
        Assert.Empty(PlanChecker.Check(Examples.Read("evening-slot"), answer.Robust.Plan));
    }

    [Fact]
    public void The_ready_moment_lies_around_the_plan_and_its_intervals_around_itself()
    {
        var chance = Evening.Value.Chance!;

        Assert.Equal(Evening.Value.Plan!.ReadyForPaint, chance.AsPlanned);
        Assert.True(chance.Half.Low <= chance.Half.Value && chance.Half.Value <= chance.Half.High && chance.Half.High < chance.NineOfTen.Low);
        Assert.InRange(chance.BySlot.Value, chance.BySlot.Low, chance.BySlot.High);
        Assert.All(chance.Critical, step => Assert.InRange(step.Share, 0, 1));
    }

    [Fact]
    public void Where_nothing_scatters_the_plan_is_certain()
    {
        var input = Examples.Read("cold-night");

        var chance = ChanceAssessment.Answer(input with { Shop = input.Shop with { Spreads = Spreads.None } }, Planning, new ChanceOptions { Samples = 1000 }).Chance!;

        Assert.Equal(1, chance.BySlot.Value);
        Assert.Equal(chance.AsPlanned, chance.Half.Value);
        Assert.Equal(chance.AsPlanned, chance.NineOfTen.High);
        Assert.Empty(chance.Causes);
    }

    [Fact]
    public void No_other_plan_is_looked_for_where_the_shop_is_content()
    {
        var input = Examples.Read("evening-slot");

        var answer = ChanceAssessment.Answer(input with { Shop = input.Shop with { Spreads = new Spreads { Wanted = 0.3 } } }, Planning, new ChanceOptions { Samples = 5000 });

        Assert.Equal(0, answer.LookedAt);
        Assert.Null(answer.Robust);
    }

    [Fact]
    public void A_repair_without_a_plan_keeps_its_conflicts()
    {
        var answer = ChanceAssessment.Answer(Examples.Read("no-plan"), Planning);

        Assert.Null(answer.Chance);
        Assert.NotEmpty(answer.Conflicts);
    }

    [Fact]
    public void One_seed_is_one_answer_on_one_and_on_two_threads()
    {
        var input = Examples.Read("roof-skin");
        var options = new ChanceOptions { Samples = 10_000, Seed = 3 };

        var one = ChanceAssessment.Answer(input, Planning, options with { Threads = 1 }).Chance!;
        var two = ChanceAssessment.Answer(input, Planning, options with { Threads = 2 }).Chance!;

        Assert.Equal(one.Histogram, two.Histogram);
        Assert.Equal(one.Causes, two.Causes);
        Assert.Equal(one.Critical.Select(step => step.Share), two.Critical.Select(step => step.Share));
    }

    [Fact]
    public void Random_plans_are_ready_as_planned_where_nothing_scatters()
    {
        int seen = 0;
        for (int seed = 1; seed <= Rounds.Of(12); seed++)
        {
            var planning = new PlanningCase(RandomRepairs.Small(seed));
            if (new PlanSearch(planning, Planning).Best(Variation.Recommended) is not { Proven: true } found)
                continue;
            seen++;
            var network = NetworkReader.Read(planning, found, new Spreads());

            // Starts lie on five minutes, so the search does not see less than that; never later than planned, though.
            Assert.InRange(ReadyMoment.Of(found) - ChanceReader.AsPlanned(network), 0, PlanTime.Grid - 1);
        }
        Assert.True(seen > 5);
    }
}
