using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;
using static Seamwright.Planning.Tests.Scenarios.Answers;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>Scenario 2: a cold car on the evening before a Saturday slot. Invented; values computed from the stated laws.</summary>
public sealed class ColdNightTests
{
    private static readonly Lazy<PlanAnswer> Asked = new(() => Scenario.From("cold-night").Answer());

    private static PlanAnswer Answer => Asked.Value;

    private static Plan Plan => Answer.Recommended!;

    [Fact]
    public void Scenario_2_judges_the_panel_of_11_degrees_and_not_the_air_of_17()
    {
        var reason = Answer.On("J2", "E2S").Says("limits-with-lamp")!;

        Assert.Equal([11, 15], reason.Facts.OfType<Temperature>().Select(temperature => Math.Round(temperature.Celsius, 6)));
    }

    [Fact]
    public void Scenario_2_lets_the_polyurethane_work_overnight_on_the_thin_seam()
    {
        var limits = Answer.Allowed("J1", "PU1").Says("limits-hold")!;
        var air = new AirState(Temperature.FromCelsius(17), RelativeHumidity.FromPercent(42));

        Assert.Equal("PU1", Plan.MaterialOn("J1"));
        Near(104, Plan.Joint("J1").Amount);
        Near(7.0, limits.Fact<TemperatureDifference>().Kelvins, 0.1);
        Near(5.0, MoistAir.HumidityRatio(air).GramsPerKilogram, 0.1);
        Near(0.579, Rate("PU1", MilestoneKind.Paint, 17, 42), 0.002);
        Near(6 / 0.579, Plan.CureMinutes("J1") / 60, 0.05);       // 6 h of the sheet; 1.5 mm cure through in the same time
        Between("2026-11-07T03:05", "2026-11-07T03:30", Plan.Joint("J1").Ready);
    }

    [Fact]
    public void Scenario_2_refuses_the_polyurethane_on_the_deep_root_with_its_hours()
    {
        var reason = Answer.Refused("J2", "PU1", "cure-through-too-late");

        Assert.Equal(4, reason.Fact<Length>().Millimetres, 6);
        Near(42.7, reason.Fact<ReferenceTime>().Hours, 0.05);
        Near(74, reason.Fact<Duration>().TotalHours, 0.5);
        Assert.Contains(At("2026-11-09T07:30"), reason.Facts.OfType<Instant>());
        Answer.Refused("J2", "PU1", "one-part-masked");
    }

    [Fact]
    public void Scenario_2_warms_the_rear_panel_and_lays_the_epoxy_while_it_is_warm()
    {
        var lamp = Plan.Step(StepKind.Lamp, "J2");

        Assert.Equal("E2S", Plan.MaterialOn("J2"));
        Near(59, Plan.Joint("J2").Amount);
        Assert.Equal(1, Plan.Step(StepKind.Seal, "J2").Nozzles);
        Assert.True(Plan.Joint("J2").Heated);
        Assert.InRange(lamp.Minutes(), 15, 35);
        Between("2026-11-06T17:00", "2026-11-06T17:30", Plan.Joint("J2").Applied!.Value.Start);
        // Not earlier than with the lamp held at 45 °C all the time; later than 19:45 only by the stated colder panel.
        Between("2026-11-06T17:40", "2026-11-06T21:00", Plan.Joint("J2").Ready);
        Assert.NotNull(Plan.Warnings.Saying("warn-panel-warmed"));
    }

    [Fact]
    public void Scenario_2_shows_that_a_lamp_helps_two_part_and_not_one_part()
    {
        // 45 °C under a lamp in the same air: vapour pressure unchanged, so the humidity falls.
        var vapour = MoistAir.VapourPressure(new AirState(Temperature.FromCelsius(17), RelativeHumidity.FromPercent(42)));
        double Lamp(string material) => CureRate.Rate(Law(material), Temperature.FromCelsius(45), vapour, MoistAir.RelativeHumidity(vapour, Temperature.FromCelsius(45)));

        Near(4.7, Lamp("E2S"), 0.05);                                                           // against 23 °C
        Near(7.4, Lamp("E2S") / Rate("E2S", MilestoneKind.Paint, 17, 42), 0.1);         // against 17 °C
        Near(1.0, Lamp("PU1") / Rate("PU1", MilestoneKind.Paint, 17, 42), 1e-6);
    }

    [Fact]
    public void Scenario_2_gives_the_rail_nothing_but_wax()
    {
        Assert.Null(Plan.MaterialOn("J3"));
        foreach (var answer in Plan.Joint("J3").Answers)
            Assert.Equal(VerdictKind.Refused, answer.Overall);
        Answer.Refused("J3", "E2S", "factory-had-no-seam");
        Answer.Refused("J3", "PU1", "closed-joint-never-cures");
        Assert.DoesNotContain(Plan.Steps, step => step.Places.Any(place => place.Value == "J3"));
        Assert.True(Plan.Step(StepKind.Wax, "C3").Start >= Plan.Step(StepKind.Paint).End);
    }

    [Fact]
    public void Scenario_2_leaves_the_fast_sealer_open_for_78_days_on_the_shelf()
    {
        Assert.Equal([78, 60], Answer.On("J2", "E2F").Says("pack-open-too-long")!.Facts.OfType<int>());
        Answer.Refused("J2", "E2F", "paint-window-too-short");       // 8 h do not reach from Friday 18:00 to Saturday 07:00
    }

    [Fact]
    public void Scenario_2_makes_the_saturday_slot_and_the_promise()
    {
        Assert.Equal(At("2026-11-07T07:00"), Plan.Slot);
        Assert.True(Plan.ReadyForDelivery <= At("2026-11-07T13:00"));
        Assert.Equal(0, Plan.Cost.BayTime.Amount + Plan.Cost.Lateness.Amount);
        Assert.Equal(12.00m, Plan.Cost.Lamp.Amount);
    }

    // Twins.

    [Theory]
    [InlineData("panel: {temperature: 11 °C,", "panel: {temperature: 16 °C,")]      // above 15 °C: the lamp stays off
    [InlineData("panel: {temperature: 11 °C, at: 2026-11-06T16:45}", "")]           // no reading: the panel is at shop air, 17 °C
    public void Scenario_2_twin_a_warm_panel_needs_no_lamp(string reading, string instead)
    {
        var plan = Scenario.From("cold-night").With(reading, instead).Plan();

        Assert.Equal("E2S", plan.MaterialOn("J2"));
        Assert.Empty(plan.Steps(StepKind.Lamp));
        Assert.Equal(0, plan.Cost.Lamp.Amount);
    }

    [Fact]
    public void Scenario_2_twin_a_shallow_seam_that_nobody_masks_may_be_polyurethane()
    {
        // 1.5 mm deep, look and sag of the sheet allow it, ready overnight: cheaper than epoxy with a lamp.
        var plan = Scenario.From("cold-night").With("depth: 4 mm ", "depth: 1.5 mm ").With("    masked: true\n", "").Plan();

        Assert.Equal("PU1", plan.MaterialOn("J2"));
        Assert.Empty(plan.Steps(StepKind.Lamp));
    }

    [Fact]
    public void Scenario_2_twin_a_shallow_seam_that_is_masked_stays_two_part()
    {
        var answer = Scenario.From("cold-night").With("depth: 4 mm ", "depth: 1.5 mm ").Answer();

        answer.Refused("J2", "PU1", "one-part-masked");
        Assert.NotEqual("PU1", answer.Recommended!.MaterialOn("J2"));
    }

    [Fact]
    public void Scenario_2_twin_below_3_5_grams_of_water_the_polyurethane_is_refused()
    {
        // 25 % at 17 °C is 3.0 g/kg.
        // A silane on the shelf has no such floor; without one, too little time is left today and no plan goes.
        var stocked = Scenario.From("cold-night").With("  - {id: W, material: W-CW} ", "  - {id: D, material: MS1}\n  - {id: W, material: W-CW} ");
        var answer = stocked.With("humidity: 42 %", "humidity: 25 %").Answer();

        var reason = answer.On("J1", "PU1").Says("air-holds-too-little-water")!;
        Assert.Equal(VerdictKind.Refused, answer.On("J1", "PU1").Overall);
        Assert.Equal([3.0, 3.5], reason.Facts.OfType<HumidityRatio>().Select(water => Math.Round(water.GramsPerKilogram, 1)));
        Assert.Equal("PU1", stocked.Plan().MaterialOn("J1"));
        Assert.Equal("MS1", answer.Recommended!.MaterialOn("J1"));
    }

    [Fact]
    public void Scenario_2_twin_in_damp_air_the_cold_panel_is_too_near_the_dew_point()
    {
        // 60 % at 17 °C: dew point 9.2 °C, 1.8 K under the steel; 3 K are needed. The panel follows the air with 3 h, so sealing waits.
        var now = Answer.On("J1", "PU1").Says("near-dew-point");
        var damp = Scenario.From("cold-night").With("humidity: 42 %", "humidity: 60 %").Answer();

        Assert.Null(now);
        var reason = damp.On("J1", "PU1").Says("near-dew-point")!;
        Assert.Equal([1.8, 3.0], reason.Facts.OfType<TemperatureDifference>().Select(margin => Math.Round(margin.Kelvins, 1)));
        // 12.2 °C are reached 3 h · ln(6/4.8) after the reading, at 17:25; the seam of 18 min still fits before 18:00.
        Between("2026-11-06T17:20", "2026-11-06T17:30", damp.Recommended!.Joint("J1").Applied!.Value.Start);
    }

    [Fact]
    public void Scenario_2_twin_no_later_slot_helps_a_sealer_whose_window_closes_before_it_is_through()
    {
        // Cured through after 74 h in this air, but painted within 72: on a 4 mm root there is no such moment, whatever the slot.
        var answer = Scenario.From("cold-night").With("    masked: true\n", "")
            .With("slots: [2026-11-07T07:00, 2026-11-09T07:30]", "slots: [2026-11-10T07:30, 2026-11-11T07:30]")
            .With("promise: 2026-11-07T13:00", "promise: 2026-11-12T13:00").Answer();

        Assert.Equal(VerdictKind.Refused, answer.On("J2", "PU1").Overall);
        Assert.NotEqual("PU1", answer.Recommended!.MaterialOn("J2"));
    }

    [Fact]
    public void Scenario_2_twin_a_primer_whose_window_ended_is_abraded_first()
    {
        // Sprayed on Tuesday 16:00: 72 h ended on Friday 16:00, three quarters of an hour ago. 6 min a metre.
        var plan = Scenario.From("cold-night").WithEvery("applied: 2026-11-05T16:00", "applied: 2026-11-03T16:00").Plan();

        Near((2.4 + 1.3) * 6, plan.Steps(StepKind.Abrade).Sum(step => step.Minutes()), 2);
        Assert.True(plan.Step(StepKind.Abrade, "J1").End <= plan.Joint("J1").Applied!.Value.Start);
        Assert.Empty(Plan.Steps(StepKind.Abrade));
    }

    [Fact]
    public void Scenario_2_twin_a_closed_joint_that_had_a_seam_takes_two_part_only()
    {
        var answer = Scenario.From("cold-night").With("    look: none\n", "    look: {profile: fillet, width: 6 mm}\n").Answer();

        answer.Refused("J3", "PU1", "closed-joint-never-cures");
        answer.Allowed("J3", "E2S");
        Assert.Contains(answer.Recommended!.MaterialOn("J3"), (string?[])["E2S", "MA2"]);      // both two-part; each costs a lamp or a delivery
    }

    [Fact]
    public void Scenario_2_twin_a_fast_sealer_opened_in_october_is_good_but_its_window_is_still_too_short()
    {
        var answer = Scenario.From("cold-night").With("opened: 2026-08-20", "opened: 2026-10-20").Answer();

        Assert.Null(answer.On("J2", "E2F").Says("pack-open-too-long"));
        answer.Refused("J2", "E2F", "paint-window-too-short");
    }

    private static CureLaw Law(string material) =>
        Scenario.From("cold-night").Read().Sheets.Single(sheet => sheet.Id == new MaterialId(material)).Milestone(MilestoneKind.Paint)!.Law;

    private static double Rate(string material, MilestoneKind kind, double celsius, double percent) => CureRate.Rate(
        Scenario.From("cold-night").Read().Sheets.Single(sheet => sheet.Id == new MaterialId(material)).Milestone(kind)!.Law,
        new AirState(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(percent)));
}
