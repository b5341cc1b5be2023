using CsCheck;
using NodaTime;
using Seamwright.Planning.Suppositions;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Suppositions;

/// <summary>What holds of every repair: more to choose from is never dearer, less never cheaper.</summary>
public sealed class SuppositionPropertyTests
{
    private static readonly PlanOptions Options = new() { Deterministic = true };

    [Fact]
    public void Supposing_nothing_changes_nothing() => Repairs(6, input =>
    {
        var answer = WhatIf.Answer(input, [], Options);

        Assert.Same(input, answer.Input);
        if (answer.Difference is not { } difference)
            return;
        Assert.Empty(difference.Joints);
        Assert.Empty(difference.People);
        Assert.Equal((Duration.Zero, 0m), (difference.ReadyShift, difference.CostShift.Amount));
    });

    [Fact]
    public void Supposing_what_is_the_case_changes_nothing() => Repairs(6, input =>
    {
        if (RepairPlanner.Answer(input, Options with { Alternatives = false }).Recommended is not { ProvenOptimal: true } plan || plan.Joints.FirstOrDefault(joint => joint.Applied is not null) is not { Material: { } material } joint)
            return;

        var answer = WhatIf.Answer(input, [new JointTakes(joint.Joint, material)], Options);

        Assert.Equal(plan.Cost.Total.Rounded, answer.Then!.Cost.Total.Rounded);
        Assert.Equal(0m, answer.Difference!.CostShift.Rounded.Amount);
    });

    [Fact]
    public void One_more_person_never_makes_the_least_cost_dearer() => Never(8, dearer: true, input => new OneMorePerson(input.Shop.People[0].Id));

    [Fact]
    public void One_more_lamp_never_makes_the_least_cost_dearer() =>
        Never(6, dearer: true, input => input.Shop.Lamps is { } lamps ? new LampsThere(lamps.Count + 1) : null);

    [Fact]
    public void No_lamp_never_makes_the_least_cost_cheaper() => Never(6, dearer: false, input => input.Shop.Lamps is null ? null : new LampsThere(0));

    [Fact]
    public void A_pack_that_is_gone_never_makes_the_least_cost_cheaper() =>
        Never(8, dearer: false, input => input.Stock.Packs.IsEmpty ? null : new PackGone(input.Stock.Packs[input.Repair.Joints.Length % input.Stock.Packs.Length].Id));

    [Fact]
    public void A_late_delivery_never_makes_the_least_cost_cheaper() =>
        Never(6, dearer: false, input => input.Shop.Supplier is null ? null : new DeliveryLate(Duration.FromMinutes(30)));

    [Fact]
    public void Somebody_away_never_makes_the_least_cost_cheaper() => Never(6, dearer: false, input => new PersonAway(input.Shop.People[0].Id));

    private static void Never(int rounds, bool dearer, Func<RepairInput, Supposition?> suppose) => Repairs(rounds, input =>
    {
        if (suppose(input) is not { } supposition)
            return;
        var answer = WhatIf.Answer(input, [supposition], Options);
        if (answer.Then is { } then)
            Assert.Equal("", PlanText.Against(answer.Input!, then));
        if (!dearer)
            Assert.False(answer.Present is null && answer.Then is not null, $"{input.Repair.Id}: a plan appeared with less to choose from");
        if (dearer)
            Assert.False(answer.Present is not null && answer.Then is null, $"{input.Repair.Id}: the plan is lost with more to choose from");
        if (answer.Present is not { ProvenOptimal: true } || answer.Then is not { ProvenOptimal: true })
            return;

        decimal shift = answer.Difference!.CostShift.Rounded.Amount;
        Assert.True(dearer ? shift <= 0 : shift >= 0, $"{input.Repair.Id}: {answer.Present.Cost.Total.Rounded} became {answer.Then.Cost.Total.Rounded}");
    });

    private static void Repairs(int rounds, Action<RepairInput> holds) =>
        Rounds.Look(Gen.Int[0, 1_000_000], rounds, seed => holds(RandomRepairs.Small(seed)));
}
