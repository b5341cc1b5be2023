using Seamwright.Work;
using Xunit;
using static Seamwright.Planning.Tests.Scenarios.Answers;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>Water-borne stone-chip before the paint slot: the booth has to be warm. Invented; values computed from the stated laws.</summary>
public sealed class StoneChipTests
{
    /// <summary>A cool shop (17 °C, 45 %) and 0.6 m² of underside that gets water-borne stone-chip over the sprayed wheelhouse seam.</summary>
    private const string StoneChip = """
        id: stone-chip
        now: 2027-02-09T08:00
        promise: 2027-02-11T16:00
        slots: [2027-02-09T15:00, 2027-02-10T10:30]
        climate: {temperature: 17 °C, humidity: 45 %}
        joints:
          - id: J1
            type: wheelhouse
            length: 1.5 m
            position: overhead
            look: {profile: sprayed, width: 40 mm, height: 1 mm}
            beneath: {coat: P-EP, applied: 2027-02-09T06:00}
            above: stone-chip
        bare_areas:
          - id: A1
            area: 0.6 m²
            position: overhead
            beneath: {coat: P-EP, applied: 2027-02-09T06:00}
            stone_chip: true

        """;

    private const string StoneChipShelf = """
        packs:
          - {id: B, material: MSS}
          - {id: S, material: SCW}
          - {id: P, material: P-EP}
          - {id: W, material: W-CW}
        """;

    [Fact]
    public void Stone_chip_is_cured_in_the_warm_booth_before_the_slot()
    {
        // In the shop it takes 24 h, so today's slot needs the booth: 20 min to 38 °C, 5 + 0.6 · 15 = 14 min of spraying, 30 min at 38 °C.
        // 64 min are two started hours of 20.00. It costs less than the bay day of 240.00.
        var plan = Scenario.Of(StoneChip, StoneChipShelf).Plan();

        var chip = plan.Step(StepKind.StoneChip, "A1");
        Assert.Equal(At("2027-02-09T15:00"), plan.Slot);
        Near(64, chip.Minutes(), 1);
        Near(14, chip.Labour.TotalMinutes, 1);
        Assert.Equal("painter", chip.Person);
        Assert.Equal(40.00m, plan.Cost.Booth.Amount);
        Near(600, chip.Amount, 1);
        Assert.True(chip.End <= plan.Slot);
        Assert.True(plan.Joint("J1").Ready <= chip.Start, "the seam beneath is ready before it is coated");
    }

    [Fact]
    public void Stone_chip_without_a_booth_loses_the_slot()
    {
        // 17 °C is above 15.6 °C: it does cure, in 24 h. Sprayed on Tuesday morning it is ready on Wednesday about 10:00: slot 10:30 is the next.
        var plan = Scenario.Of(StoneChip, StoneChipShelf).With("booth:\n  per_started_hour: 20.00\n  panel: 38 °C\n  ramp: 20 min\n  from: 06:00\n  to: 22:00\n", "").Plan();

        Assert.Equal(At("2027-02-10T10:30"), plan.Slot);
        Assert.Equal(0, plan.Cost.Booth.Amount);
    }

    [Fact]
    public void Stone_chip_in_a_shop_below_15_6_degrees_never_cures_outside_the_booth()
    {
        var cold = Scenario.Of(StoneChip, StoneChipShelf).With("climate: {temperature: 17 °C", "climate: {temperature: 15 °C");

        Assert.Equal(40.00m, cold.Plan().Cost.Booth.Amount);
        var withoutBooth = cold.With("booth:\n  per_started_hour: 20.00\n  panel: 38 °C\n  ramp: 20 min\n  from: 06:00\n  to: 22:00\n", "").Answer();
        Assert.Null(withoutBooth.Recommended);
        Assert.NotEmpty(withoutBooth.Conflicts);
    }
}
