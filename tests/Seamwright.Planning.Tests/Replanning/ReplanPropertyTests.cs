using CsCheck;
using NodaTime;
using Seamwright.Planning.Replanning;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Replanning;

public sealed class ReplanPropertyTests
{
    private static readonly PlanOptions OnePlan = new() { Deterministic = true, Alternatives = false };

    [Fact]
    public void Without_entries_nothing_moves() => Announced(12, (input, plan, _) =>
    {
        var replan = Replanner.Answer(input, plan, WorkLog.Empty, options: OnePlan);

        Assert.Empty(replan.Moves);
        Assert.Equal(plan.Slot, replan.Plan!.Slot);
        Assert.Equal(plan.Total.Rounded, replan.Plan.Cost.Total.Rounded);
        Assert.Equal(0, replan.PriceOfMoves.Amount);
    });

    [Fact]
    public void A_day_that_goes_as_announced_moves_nothing() => Announced(15, (input, plan, random) =>
    {
        var replan = Replanner.Answer(input, plan, RandomLogs.AsAnnounced(input, plan, random), options: OnePlan);

        Assert.Equal("", RandomLogs.Against(replan, WorkLog.Empty));
        Assert.Empty(replan.Problems);
        Assert.True(replan.Moves.IsEmpty, string.Join('\n', replan.Moves.Select(RandomLogs.Text)));
        Assert.Equal(plan.Slot, replan.Plan!.Slot);
    });

    [Fact]
    public void Whatever_happens_the_rest_is_planned_and_checked_or_a_conflict_is_named() => Announced(30, (input, plan, random) =>
    {
        var log = RandomLogs.Any(input, plan, random);

        var replan = Replanner.Answer(input, plan, log, options: OnePlan);

        Assert.True(RandomLogs.Against(replan, log).Length == 0, RandomLogs.Against(replan, log));
        Assert.True(replan.Plan is not null || !replan.Conflicts.IsEmpty || !replan.Problems.IsEmpty);
        Assert.All(replan.Plan?.Steps ?? [], step => Assert.True(step.Start >= replan.Input.Repair.Now));
        Assert.All(replan.Moves, move => Assert.NotEmpty(move.Why));
    });

    [Fact]
    public void Dearer_moves_never_move_more() => Announced(10, (input, plan, random) =>
    {
        var log = RandomLogs.Any(input, plan, random);
        decimal most = decimal.MaxValue;
        foreach (decimal price in (decimal[])[0.5m, 10, 400])
        {
            var value = input.Shop.TimeValue with { MovedWork = new Money(price, input.Shop.Currency) };
            var replan = Replanner.Answer(input with { Shop = input.Shop with { TimeValue = value } }, plan, log, options: OnePlan);
            if (replan.Plan is not { ProvenOptimal: true })
                return;
            decimal moved = replan.Moves.Sum(move => move.Price.Amount) / price;
            Assert.True(moved <= most, $"{input.Repair.Id}: {moved} works move at {price}, {most} at less");
            most = moved;
        }
    });

    [Fact]
    public void Made_again_from_the_new_plan_it_costs_no_more() => Announced(10, (input, plan, random) =>
    {
        var log = RandomLogs.Any(input, plan, random);
        if (Replanner.Answer(input, plan, log, options: OnePlan) is not { Plan: { } second } first)
            return;

        var again = Replanner.Answer(input, AnnouncedPlan.Of(first), log, options: OnePlan);

        // To leave everything where it is stays possible, and has no price.
        Assert.Equal(second.Id, again.Plan!.ParentId);
        Assert.True(RandomLogs.Against(again, log).Length == 0, RandomLogs.Against(again, log));
        Assert.Equal(first.SpentSoFar.Rounded, again.SpentSoFar.Rounded);
        if (second.ProvenOptimal && again.Plan.ProvenOptimal)
            Assert.True(again.Plan.Cost.Total.Amount + again.PriceOfMoves.Amount <= second.Cost.Total.Amount + 0.01m, string.Join('\n', again.Moves.Select(RandomLogs.Text)));
    });

    private static void Announced(int rounds, Action<RepairInput, AnnouncedPlan, Random> holds) =>
        Rounds.Look(Gen.Int[0, 1_000_000], rounds, seed =>
        {
            var input = RandomRepairs.Small(seed);
            if (RepairPlanner.Answer(input, OnePlan).Recommended is { } plan)
                holds(input, AnnouncedPlan.Of(input, plan), new Random(seed));
        });
}
