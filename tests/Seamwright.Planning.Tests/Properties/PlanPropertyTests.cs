using CsCheck;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Properties;

public sealed class PlanPropertyTests
{
    private static readonly PlanOptions OnePlan = new() { Deterministic = true, Alternatives = false };

    [Fact]
    public void Every_plan_passes_the_checker() => Repairs(40, input =>
    {
        if (RepairPlanner.Answer(input, OnePlan).Recommended is { } plan)
            Assert.Equal("", PlanText.Against(input, plan));
    });

    [Fact]
    public void The_cheapest_and_the_fastest_plan_pass_the_checker_too() => Repairs(6, input =>
    {
        var answer = RepairPlanner.Answer(input, OnePlan with { Alternatives = true });

        foreach (var plan in new[] { answer.Cheapest, answer.Fastest }.OfType<Plan>())
            Assert.Equal("", PlanText.Against(input, plan));
    });

    [Fact]
    public void Small_repairs_are_proven_down_to_the_packs_they_take() => Repairs(30, input =>
    {
        if (RepairPlanner.Answer(input, OnePlan).Recommended is { } plan)
            Assert.True(plan.ProvenOptimal, $"{input.Repair.Id}: {plan.Cost.Total} against a bound of {plan.LowerBound}");
    });

    [Fact]
    public void Packs_never_give_more_than_they_hold() => Repairs(15, input =>
    {
        if (RepairPlanner.Answer(input, OnePlan).Recommended is not { } plan)
            return;
        Assert.All(
            plan.PackUses.Where(use => !use.Ordered).GroupBy(use => use.Pack),
            uses => Assert.True(uses.Sum(use => use.Amount.Millilitres) <= input.Stock.Packs.First(pack => pack.Id == uses.Key).Left.Millilitres + 1e-4));
        Assert.All(plan.PackUses, use => Assert.True(use.Left >= Units.Volume.Zero));
    });

    [Fact]
    public void Equal_inputs_give_the_equal_plan() => Repairs(8, input =>
    {
        var (one, other) = (RepairPlanner.Answer(input, OnePlan).Recommended, RepairPlanner.Answer(input, OnePlan).Recommended);

        Assert.Equal(one is null ? "" : PlanText.Of(one), other is null ? "" : PlanText.Of(other));
    });

    private static void Repairs(int rounds, Action<RepairInput> holds) =>
        Rounds.Look(Gen.Int[0, 1_000_000], rounds, seed => holds(RandomRepairs.Small(seed)));
}
