using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Suppositions;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Planning.Tests.Properties;
using Seamwright.Planning.Tests.Scenarios;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Suppositions;

/// <summary>What would follow, on the invented examples. Every plan as supposed passes the independent checker on the repair as supposed.</summary>
public sealed class WhatIfTests
{
    private static readonly PlanOptions Options = new() { Deterministic = true };

    [Fact]
    public void A_material_that_the_tape_would_lift_is_refused_with_its_rule()
    {
        var answer = Ask("evening-slot", new JointTakes(new("J3"), new("MS1")));

        var refusal = Assert.Single(answer.Refused);
        Assert.Null(answer.Then);
        Assert.Contains(refusal.Against, verdict => verdict.Kind == VerdictKind.Refused && verdict.RuleId == "handling.masked-or-rubbed");
        Assert.NotNull(answer.Present);
    }

    [Fact]
    public void Another_material_tells_what_moves_with_it()
    {
        var answer = Ask("evening-slot", new JointTakes(new("J3"), new("E2S")));

        var difference = answer.Difference!;
        Assert.True(difference.ReadyShift > Duration.Zero);
        Assert.True(difference.CostShift > Money.Zero);
        var changed = difference.Joints.Single(joint => joint.Joint == new PlaceId("J3"));
        Assert.Equal((new MaterialId("E2F"), new MaterialId("E2S")), (changed.Before.Material!.Value, changed.After.Material!.Value));
    }

    [Fact]
    public void The_consequence_is_the_one_that_the_plan_itself_tells_of_its_next_best()
    {
        var input = Examples.Read("evening-slot");
        var plan = RepairPlanner.Answer(input, Options with { Explain = new PlaceId("J3") }).Recommended!;
        var told = plan.Joint("J3").Answers.Single(other => other.Material.Value == "E2S").Consequence!;

        var answer = Ask("evening-slot", new JointTakes(new("J3"), new("E2S")));

        Assert.InRange(answer.Difference!.CostShift.Amount - told.CostShift.Amount, -0.01m, 0.01m);
        Assert.Equal(told.Slot, answer.Then!.Slot);
    }

    [Fact]
    public void Without_the_delivery_the_ditch_has_no_material_and_the_facts_say_so()
    {
        var answer = Ask("evening-slot", new NoDelivery());

        Assert.Null(answer.Then);
        Assert.Contains(answer.Conflicts.SelectMany(conflict => conflict.Facts), fact => fact.Id == "supplier");
    }

    [Fact]
    public void A_slot_moved_to_the_next_day_costs_the_bay_day_that_the_car_stands_longer()
    {
        var input = Examples.Read("evening-slot");
        var slot = input.Repair.PaintSlots[0];

        var answer = Ask("evening-slot", new SlotMoved(slot, slot + Duration.FromHours(15)));

        Assert.Equal(input.Shop.TimeValue.BayDay, answer.Difference!.SlotMoved);
        Assert.Equal(answer.Then!.Cost.Total.Rounded + answer.Difference.SlotMoved - answer.Present!.Cost.Total.Rounded, answer.Difference.CostShift);
        Assert.Equal(slot + Duration.FromHours(15), answer.Then.Slot);
        Assert.True(answer.Difference.CostShift >= Money.Zero);
    }

    [Fact]
    public void A_late_delivery_misses_the_slot_that_hangs_on_it()
    {
        var answer = Ask("evening-slot", new DeliveryLate(Duration.FromHours(2)));

        Assert.True(answer.Then!.Slot > answer.Present!.Slot);
        Assert.True(answer.Difference!.CostShift >= Examples.Read("evening-slot").Shop.TimeValue.BayDay);
    }

    [Fact]
    public void A_humidifier_lets_moisture_cure_sooner_and_changes_no_work()
    {
        var answer = Ask("evening-slot", new HumidityHeld(RelativeHumidity.FromPercent(50)));

        var seam = answer.Difference!.Joints.Single(joint => joint.Joint == new PlaceId("J1"));
        Assert.Equal(seam.Before.Applied, seam.After.Applied);
        Assert.True(seam.After.Ready < seam.Before.Ready);
        Assert.Equal(Money.Zero.Amount, answer.Difference.CostShift.Rounded.Amount);
    }

    [Fact]
    public void Heating_left_on_lets_a_two_part_seam_cure_sooner_in_the_night()
    {
        var answer = Ask("cold-night", new HeatingLeftOn());

        var seam = answer.Difference!.Joints.Single(joint => joint.Joint == new PlaceId("J2"));
        Assert.True(seam.After.Ready < seam.Before.Ready);
    }

    [Fact]
    public void A_lamp_that_is_used_costs_its_hours_and_gains_its_time()
    {
        var answer = Ask("aluminium-apron", new LampUsed(new("B1")));

        Assert.Equal([new PlaceId("B1")], answer.Difference!.NewlyWarmed);
        Assert.True(answer.Difference.ReadyShift < Duration.Zero);
        Assert.True(answer.Then!.Cost.Lamp > answer.Present!.Cost.Lamp);
    }

    [Fact]
    public void A_lamp_on_a_seam_that_no_lamp_cures_is_named_in_the_conflict()
    {
        // A sprayed seam of the wheelhouse: the shop's only material for it is one-part.
        var answer = Ask("evening-slot", new LampUsed(new("J1")));

        Assert.Null(answer.Then);
        Assert.Contains(answer.Conflicts.SelectMany(conflict => conflict.Facts), fact => fact.Id == "J1/lamp");
    }

    [Fact]
    public void Several_suppositions_are_taken_together()
    {
        var input = Examples.Read("evening-slot");
        var slot = input.Repair.PaintSlots[0];
        Supposition[] both = [new PackGone(new("C")), new SlotMoved(slot, slot + Duration.FromHours(1))];

        var answer = Ask("evening-slot", both);

        Assert.Equal(slot + Duration.FromHours(1), answer.Then!.Slot);
        Assert.DoesNotContain(answer.Then.PackUses, use => use.Pack == new PackId("C"));
        Assert.NotEqual(answer.Present!.InputHash, answer.Then.InputHash);
    }

    [Fact]
    public void A_supposition_can_make_possible_what_is_not()
    {
        var input = Examples.Read("evening-slot");
        var slot = input.Repair.PaintSlots[0];
        var tooSoon = RandomRepairs.WithSlots(input, slot - Duration.FromHours(2));

        var answer = WhatIf.Answer(tooSoon, [new SlotMoved(slot - Duration.FromHours(2), slot)], Options);

        Assert.Null(answer.Present);
        Assert.Null(answer.Difference);
        Assert.Equal(slot, answer.Then!.Slot);
    }

    [Theory]
    [MemberData(nameof(Unfit))]
    public void What_the_repair_does_not_have_cannot_be_supposed_and_the_sentence_names_what_it_has(Supposition supposition, string key)
    {
        var answer = Ask("evening-slot", supposition);

        Assert.Equal(key, Assert.Single(answer.Problems).Key);
        Assert.Null(answer.Present);
        Assert.Null(answer.Then);
    }

    public static TheoryData<Supposition, string> Unfit => new()
    {
        { new JointTakes(new("J9"), new("MS1")), "suppose-no-joint" },
        { new JointTakes(new("J3"), new("XX")), "suppose-no-material" },
        { new SlotMoved(default, default), "suppose-no-slot" },
        { new OneMorePerson("nobody"), "suppose-no-person" },
        { new PersonAway("nobody"), "suppose-no-person" },
        { new PackGone(new("Z")), "suppose-no-pack" },
        { new LampUsed(new("J9")), "suppose-no-lamp-place" },
    };

    [Fact]
    public void Nobody_there_is_a_conflict_and_no_crash()
    {
        var people = Examples.Read("evening-slot").Shop.People.Select(person => new PersonAway(person.Id)).ToArray<Supposition>();

        var answer = Ask("evening-slot", people);

        Assert.Null(answer.Then);
        Assert.NotEmpty(answer.Conflicts);
    }

    private static WhatIfAnswer Ask(string example, params Supposition[] suppositions)
    {
        var answer = WhatIf.Answer(Examples.Read(example), [.. suppositions], Options);
        if (answer.Then is { } then)
            Assert.Equal("", PlanText.Against(answer.Input!, then));
        return answer;
    }
}
