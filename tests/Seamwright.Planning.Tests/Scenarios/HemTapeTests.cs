using NodaTime;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;
using static Seamwright.Planning.Tests.Scenarios.Answers;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>Scenario 3: a bonded door skin with hem strip; the lamp decides. Invented; values computed from the stated laws.</summary>
public sealed class HemTapeTests
{
    private static readonly Lazy<PlanAnswer> Asked = new(() => Scenario.From("hem-tape").Answer());

    private static PlanAnswer Answer => Asked.Value;

    private static Plan Plan => Answer.Recommended!;

    [Fact]
    public void Scenario_3_lays_strip_on_the_two_straight_edges_only()
    {
        Assert.Equal(["TP", "TP", "E2F", null, "AF1"], ((string[])["J1", "J2", "J3", "J4", "J5"]).Select(Plan.MaterialOn));
        Assert.Equal([40.0, 120.0], Answer.Refused("J3", "TP", "strip-radius-too-tight").Facts.OfType<Length>().Select(length => Math.Round(length.Millimetres, 6)));
        Answer.Refused("J4", "TP", "factory-had-no-seam");
    }

    [Fact]
    public void Scenario_3_cuts_two_pieces_with_four_end_allowances_from_the_roll_in_date()
    {
        var roll = Assert.Single(Plan.PackUses, use => use.Material.Value == "TP");

        Assert.Equal("T1", roll.Pack.Value);
        Near(1.55 + 4 * 0.04, roll.StripLength.Metres, 1e-6);
        Near(0.95 + 2 * 0.04, Plan.Joint("J1").StripLength.Metres, 1e-6);
        Assert.Equal(new LocalDate(2026, 12, 31), Answer.On("J1", "TP").Says("pack-expired")!.Fact<LocalDate>());
    }

    [Fact]
    public void Scenario_3_lists_the_drain_slots_to_keep_open()
    {
        Assert.Contains(3, Plan.Warnings.Saying("warn-drains")!.Facts);
        Assert.NotNull(Answer.On("J1", "TP").Says("strip-laid-unstretched-drains"));
    }

    [Fact]
    public void Scenario_3_refuses_one_part_sealers_on_the_hem()
    {
        foreach (string joint in (string[])["J1", "J2", "J3"])
        {
            Answer.Refused(joint, "PU1", "one-part-masked");
            Answer.Refused(joint, "MS1", "one-part-masked");
        }
    }

    [Fact]
    public void Scenario_3_shows_the_lamp_as_a_day_against_an_hour()
    {
        var lamp = Answer.Tradeoffs.Single(tradeoff => tradeoff.Kind == TradeoffKind.Lamp);

        Assert.Equal(12.00m + 5.50m, lamp.Spent.Rounded.Amount);
        Assert.Equal(240.00m, lamp.Saved.Rounded.Amount);
        Assert.Equal(At("2027-03-04T10:30"), lamp.SlotWithout);
        Assert.Equal(12.00m, Plan.Cost.Lamp.Amount);
    }

    [Fact]
    public void Scenario_3_takes_the_clamps_off_at_10_25_and_paints_at_14_00()
    {
        Between("2027-03-03T10:20", "2027-03-03T10:30", Plan.Step(StepKind.BondCure, "B1").End);
        Assert.Equal(60, Plan.Step(StepKind.Lamp).HeatTo!.Value.Celsius, 6);
        Near(65, Plan.Step(StepKind.PrimerCure).Minutes(), 1.5);
        Near(34, Plan.CureMinutes("J3"), 1.5);
        Between("2027-03-03T12:40", "2027-03-03T13:05", Plan.ReadyForPaint);
        Assert.Equal(At("2027-03-03T14:00"), Plan.Slot);
    }

    [Fact]
    public void Scenario_3_primes_the_cleaned_edge_before_anything_lies_on_it()
    {
        var cleaned = Plan.Step(StepKind.CleanBond, "B1");
        var primed = Plan.Step(StepKind.Prime, "B1");

        Assert.True(Plan.Step(StepKind.BondCure, "B1").End <= cleaned.Start);
        Assert.True(cleaned.End <= primed.Start);
        Assert.Equal("P-EP", primed.Material!.Value.Value);
        foreach (string joint in (string[])["J1", "J2", "J3"])
            Assert.True(Plan.Joint(joint).Applied!.Value.Start >= Plan.Step(StepKind.PrimerCure).End);
    }

    [Fact]
    public void Scenario_3_adds_no_seam_at_the_belt_line()
    {
        Assert.Null(Plan.MaterialOn("J4"));
        Answer.Refused("J4", "E2F", "factory-had-no-seam");
    }

    [Fact]
    public void Scenario_3_puts_only_anti_flutter_paste_between_skin_and_bar()
    {
        Answer.Refused("J5", "E2S", "only-anti-flutter-here");
        Assert.Equal("AF1", Plan.MaterialOn("J5"));
    }

    // Twins.

    [Fact]
    public void Scenario_3_twin_without_a_lamp_the_clamps_stay_until_13_59_and_the_slot_is_lost()
    {
        // 4 h at 23 °C are 4.66 h at 21 °C.
        var plan = Scenario.From("hem-tape").With("lamp_free_until: 2027-03-03T11:00", "lamp_free_until: 2027-03-03T09:30").Plan();

        Between("2027-03-03T13:57", "2027-03-03T14:01", plan.Step(StepKind.BondCure, "B1").End);
        Assert.Equal(At("2027-03-04T10:30"), plan.Slot);
        Assert.Equal((240m, 0m), (plan.Cost.BayTime.Amount, plan.Cost.Lamp.Amount));
    }

    [Fact]
    public void Scenario_3_twin_with_a_slot_in_the_evening_nobody_pays_for_the_lamp()
    {
        // Clamps off 13:59, cleaned 14:20, primed 14:35, dry 15:40, corner ready about 16:30.
        var plan = Scenario.From("hem-tape").With("slots: [2027-03-03T14:00", "slots: [2027-03-03T17:30").Plan();

        Assert.Empty(plan.Steps(StepKind.Lamp));
        Assert.Equal(At("2027-03-03T17:30"), plan.Slot);
        Assert.Equal(0, plan.Cost.Lamp.Amount);
    }

    [Fact]
    public void Scenario_3_twin_round_a_wide_corner_the_strip_may_go()
    {
        var answer = Scenario.From("hem-tape").With("radius: 40 mm", "radius: 200 mm").Answer();

        answer.Allowed("J3", "TP");
        Assert.Equal("TP", answer.Recommended!.MaterialOn("J3"));
    }

    [Fact]
    public void Scenario_3_twin_where_the_factory_sealed_the_belt_line_the_shop_does_too()
    {
        var plan = Scenario.From("hem-tape").With("    look: none\n", "    look: {profile: strip, width: 10 mm, height: 0.9 mm, visible: true}\n").Plan();

        Assert.Equal("TP", plan.MaterialOn("J4"));
    }

    [Fact]
    public void Scenario_3_twin_in_a_cold_shop_the_strip_waits_for_a_warm_edge()
    {
        // 14 °C: the strip asks for 15. With the lamp elsewhere nothing warms the edge, and the fast sealer (10 °C) lays the look, the next day.
        var plan = Scenario.From("hem-tape").With("temperature: 21 °C", "temperature: 14 °C").With("{lamp_free_until: 2027-03-03T11:00}", "{lamp_free_until: 2027-03-03T09:30}").Plan();

        Assert.Equal(["E2F", "E2F", "E2F"], ((string[])["J1", "J2", "J3"]).Select(plan.MaterialOn));
        Assert.Equal(At("2027-03-04T10:30"), plan.Slot);
    }

    [Fact]
    public void Scenario_3_twin_with_both_rolls_expired_the_strip_is_ordered_or_copied_by_nozzle()
    {
        var plan = Scenario.From("hem-tape").With("expires: 2028-01-31", "expires: 2027-01-31").Plan();

        Assert.False(plan.Uses("T1") || plan.Uses("T2"));
        Assert.True(plan.MaterialOn("J1") is "E2F" or "E2S" || plan.Orders.Any(order => order.What?.Value == "TP"));
        Assert.Equal(At("2027-03-03T14:00"), plan.Slot);
    }

    [Fact]
    public void Scenario_3_twin_a_piece_is_not_joined_from_a_short_roll()
    {
        // 1.00 m left: the bottom needs 1.03 in one piece, the front 0.68.
        var plan = Scenario.From("hem-tape").With("left: 4.2 m", "left: 1.0 m").Plan();
        var enough = Scenario.From("hem-tape").With("left: 4.2 m", "left: 1.72 m").Plan();

        Assert.Equal("E2F", plan.MaterialOn("J1"));
        Assert.Equal(["TP", "TP"], [enough.MaterialOn("J1"), enough.MaterialOn("J2")]);
        Assert.Empty(plan.Orders);
    }

    [Fact]
    public void Scenario_3_twin_a_lamp_that_the_sheet_does_not_allow_is_not_used()
    {
        var plan = Scenario.From("hem-tape").With("    heat: {up_to: 60 °C, hold: 30 min}\n", "").Plan();

        Assert.Empty(plan.Steps(StepKind.Lamp, "B1"));
        Assert.Equal(At("2027-03-04T10:30"), plan.Slot);
    }

    [Fact]
    public void Scenario_3_twin_in_colour_an_unmasked_unrubbed_hidden_corner_may_be_one_part()
    {
        var answer = Scenario.From("hem-tape")
            .With("    masked: true                    # with the rest of the hem\n", "")
            .With("    radius: 40 mm                   # too tight for the strip\n    look: {profile: strip, width: 10 mm, height: 0.9 mm, visible: true}", "    look: {profile: half-round, width: 8 mm}").Answer();

        answer.Allowed("J3", "MS1");
        Assert.Equal(VerdictKind.Refused, answer.On("J1", "MS1").Overall);
    }
}
