using NodaTime;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;
using static Seamwright.Planning.Tests.Scenarios.Answers;

namespace Seamwright.Planning.Tests.Scenarios;

/// <summary>More invented cases in the demo shop, each with another trap; the right answer stands in the comment, computed from the stated laws.</summary>
public sealed class OtherScenarioTests
{
    /// <summary>Wednesday morning in the sheets' own reference air; one primed, painted seam of 1 m.</summary>
    private const string Morning = """
        id: morning
        now: 2027-03-10T08:00
        promise: 2027-03-12T16:00
        slots: [2027-03-10T14:00, 2027-03-11T10:30]
        climate: {temperature: 23 °C, humidity: 50 %}
        procedure:
          reference: invented procedure
          statements:
            - {place: J1, says: forbids, materials: [RB1], text: no rubber}
        joints:
          - id: J1
            type: lap
            length: 1 m
            position: vertical
            look: {profile: fillet, width: 6 mm, visible: true}
            beneath: {coat: P-EP, applied: 2027-03-10T06:00}

        """;

    private const string Shelf = """
        packs:
          - {id: D, material: MS1}
          - {id: F, material: E2S}
          - {id: C, material: E2F}
          - {id: E, material: PU1}
          - {id: P, material: P-EP}
          - {id: W, material: W-CW}
        nozzles: 4
        """;

    // Hot work still to come.

    private const string HotWork = """
        operations:
          - {id: O1, name: two plug welds with dressing, time: 30 min, skill: weld, hot_work: true, near: [J1]}
        """;

    [Fact]
    public void A_seam_near_hot_work_is_laid_after_the_welds()
    {
        var near = Scenario.Of(Morning, Shelf).And(HotWork).Plan();

        var weld = near.Step(StepKind.Operation);
        Assert.True(weld.End <= near.Joint("J1").Applied!.Value.Start);
        Near(30, weld.Minutes(), 0);
    }

    [Fact]
    public void Hot_work_elsewhere_does_not_delay_a_seam()
    {
        // The weld waits for a part that another operation fits (3 h): a seam near the heat waits with it, a distant one is free.
        const string late = "operations:\n  - {id: O0, name: fit the panel, time: 3 h, skill: weld}\n  - {id: O1, name: weld it, time: 30 min, skill: weld, hot_work: true, after: [O0]NEAR}\n";
        var near = Scenario.Of(Morning, Shelf).And(late.Replace("NEAR", ", near: [J1]", StringComparison.Ordinal)).Plan();
        var far = Scenario.Of(Morning, Shelf).And(late.Replace("NEAR", "", StringComparison.Ordinal)).Plan();

        Assert.True(near.Joint("J1").Applied!.Value.Start >= near.Step(StepKind.Operation, "O1").End);
        Assert.True(near.Joint("J1").Applied!.Value.Start >= At("2027-03-10T11:30"));
        Assert.True(far.ReadyForPaint <= near.ReadyForPaint);
    }

    [Fact]
    public void Foam_goes_in_after_the_welds_near_it()
    {
        var plan = Scenario.Of(Morning, Shelf.Replace("nozzles:", "  - {id: G, material: F-FX}\nnozzles:", StringComparison.Ordinal))
            .And("cavities:\n  - {id: C1, treatment: flexible-foam, stage: before-paint}\n" + HotWork.Replace("[J1]", "[C1]", StringComparison.Ordinal)).Answer();

        // The foam stands 70 °C and the bake is 60 °C: it may go in before paint, but never before the weld.
        Assert.True(plan.Recommended!.Step(StepKind.Foam, "C1").Start >= plan.Recommended!.Step(StepKind.Operation).End);
    }

    // A hot, humid summer shop.

    [Fact]
    public void In_a_hot_humid_shop_one_part_is_fast_and_two_part_work_time_is_short()
    {
        // 30 °C, 70 %: vapour ratio 2.12, so 30 min are 14; 25 min of heavy epoxy at 55 kJ/mol are 15; 90 min to paint are 54.
        var hot = Scenario.Of(Morning, Shelf).With("climate: {temperature: 23 °C, humidity: 50 %}", "climate: {temperature: 30 °C, humidity: 70 %}");
        var silane = hot.With("position: vertical", "position: vertical\n    wanted: MS1").Plan();
        var epoxy = hot.With("position: vertical", "position: vertical\n    wanted: E2S").Plan();

        Near(30 / 2.12, silane.CureMinutes("J1"), 1.1);
        Near(54, epoxy.CureMinutes("J1"), 1.5);
    }

    [Theory]       // 6 min of work time at 23 °C; at 30 °C and 50 kJ/mol 3.8: 1.2 m at 4 min a metre no longer fit one nozzle
    [InlineData("23 °C", 1)]
    [InlineData("30 °C", 2)]
    public void A_nozzle_of_the_fast_sealer_does_not_last_a_long_seam_in_the_heat(string temperature, int nozzles)
    {
        var plan = Scenario.Of(Morning, Shelf).With("climate: {temperature: 23 °C", $"climate: {{temperature: {temperature}").With("length: 1 m", "length: 1.2 m")
            .With("position: vertical", "position: vertical\n    wanted: E2F").Plan();

        Assert.Equal(nozzles, plan.Step(StepKind.Seal, "J1").Nozzles);
    }

    [Fact]
    public void In_air_of_90_percent_nothing_is_coated_or_sealed()
    {
        // The dew point is 21.3 °C, 1.7 K under the panel; 3 K are needed until touch-dry.
        var answer = Scenario.Of(Morning, Shelf).With("humidity: 50 %}\nproc", "humidity: 90 %}\nproc").Answer();

        Assert.True(answer.Recommended is null, "no material may be laid in this air");
        Assert.NotNull(answer.Conflicts.SelectMany(conflict => conflict.Facts).Select(fact => fact.Reason).Saying("near-dew-point"));
    }

    // Closed sections.

    [Fact]
    public void A_joint_without_air_takes_two_part_only()
    {
        var answer = Scenario.Of(Morning, Shelf).With("type: lap", "type: closed-section\n    closed_to_air: true").Answer();

        foreach (string onePart in (string[])["PU1", "MS1"])
            Assert.NotNull(answer.On("J1", onePart).Says("closed-joint-never-cures"));
        answer.Allowed("J1", "E2S");
        Assert.Contains(answer.Recommended!.MaterialOn("J1"), (string?[])["E2S", "E2F"]);
    }

    // Different metals.

    [Theory]
    [InlineData("magnesium, steel")]
    [InlineData("carbon-fibre, aluminium")]
    [InlineData("aluminium, steel")]
    public void Metals_that_corrode_each_other_are_primed_on_both_sides_and_sealed_at_both_edges(string metals)
    {
        // Bare beneath: the heavy epoxy is allowed on bare steel, here it still goes on primer only.
        var answer = Scenario.Of(Morning, Shelf).With("position: vertical", $"position: vertical\n    metal: [{metals}]").With("{coat: P-EP, applied: 2027-03-10T06:00}", "{bare: steel}").Answer();

        Assert.NotNull(answer.Recommended!.Joint("J1").Answers.SelectMany(found => found.Verdicts).Select(verdict => verdict.Reason).Saying("isolate-both-edges"));
        Assert.Equal(Preparation.Prime, answer.Recommended!.Joint("J1").Preparation);
        Assert.NotNull(answer.Recommended!.Warnings.Saying("isolate-both-edges"));
    }

    [Fact]
    public void Zinc_coating_on_steel_is_no_pair_to_isolate()
    {
        var answer = Scenario.Of(Morning, Shelf).With("position: vertical", "position: vertical\n    metal: [zinc-coated-steel, steel]").Answer();

        Assert.Null(answer.Recommended!.Warnings.Saying("isolate-both-edges"));
        Assert.NotNull(answer.On("J1", "MS1").Says("zinc-protects-steel"));
    }

    // A fast two-part sealer whose paint window is missed.

    [Fact]
    public void A_fast_sealer_laid_in_the_evening_would_be_too_old_in_the_morning()
    {
        // 8 h at 23 °C: from 18:00 to 02:00. The only slot is 07:30 before work starts, so the fast sealer is refused, the heavy one (24 h) fits.
        var answer = Scenario.Of(Morning, Shelf).With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-11T07:30]").With("now: 2027-03-10T08:00", "now: 2027-03-10T15:00").Answer();

        answer.Refused("J1", "E2F", "paint-window-too-short");
        answer.Allowed("J1", "E2S");
        Assert.NotEqual("E2F", answer.Recommended!.MaterialOn("J1"));
    }

    [Fact]
    public void A_fast_sealer_is_laid_the_same_morning_as_the_slot()
    {
        // Insisted on, slot 10:30 on Thursday only: laid on Thursday after 07:30, not on Wednesday.
        var plan = Scenario.Of(Morning, Shelf).With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-11T10:30]").With("position: vertical", "position: vertical\n    wanted: E2F").Plan();

        Between("2027-03-11T07:30", "2027-03-11T10:00", plan.Joint("J1").Applied!.Value.Start);
        Assert.True(plan.Joint("J1").PaintBy >= plan.Slot);
    }

    // Packs.

    [Fact]
    public void A_lone_component_is_no_pack()
    {
        // Primer needed on bare steel; the hardener is gone and so is the supplier: no plan, and the primer is named.
        var answer = Scenario.Of(Morning, Shelf.Replace("material: P-EP}", "material: P-EP, partner_missing: true}", StringComparison.Ordinal))
            .With("{coat: P-EP, applied: 2027-03-10T06:00}", "{bare: steel}")
            .With("type: lap", "type: roof-ditch")
            .With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-10T14:00]")
            .And("today: {supplier_closed: true}").Answer();

        Assert.Null(answer.Recommended);
        Assert.Contains(answer.ConflictFacts(), fact => fact.Contains("P-EP", StringComparison.Ordinal) || fact.Contains("stock", StringComparison.Ordinal));
    }

    [Fact]
    public void A_pack_set_aside_is_not_used()
    {
        var held = Scenario.Of(Morning, Shelf.Replace("{id: D, material: MS1}", "{id: D, material: MS1, on_hold: fell off the shelf}", StringComparison.Ordinal)).Answer();

        Assert.False(held.Recommended!.Uses("D"));
        Assert.NotNull(held.On("J1", "MS1").Says("pack-on-hold"));
        Assert.Equal("MS1", Scenario.Of(Morning, Shelf).Plan().MaterialOn("J1"));
    }

    // People.

    [Theory]
    [InlineData("2027-03-09", false)]
    [InlineData("2027-03-10", true)]       // the last day itself counts
    public void Somebody_whose_diisocyanate_training_has_lapsed_lays_no_polyurethane(string validThrough, bool allowed)
    {
        var people = Scenario.Of(Morning, Shelf).With("    per_hour: 66.00\n", $"    per_hour: 66.00\n    trainings: {{diisocyanates: {validThrough}}}\n")
            .With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-10T14:00]");
        var answer = people.Answer();

        Assert.Equal(allowed, answer.On("J1", "E2F").Overall <= VerdictKind.Advice && answer.On("J1", "E2F").Consequence is not null);
        Assert.NotEqual("PU1", answer.Recommended!.MaterialOn("J1"));
    }

    // Sign-off and the maker's word.

    [Fact]
    public void A_hidden_substitute_look_needs_a_sign_off_and_is_used_with_one()
    {
        // A sprayed hidden band; on the shelf is only the gun-grade silane, and the supplier is closed.
        var hidden = Scenario.Of(Morning, "packs:\n  - {id: D, material: MS1}\n  - {id: W, material: W-CW}\nnozzles: 4\n")
            .With("look: {profile: fillet, width: 6 mm, visible: true}", "look: {profile: sprayed, width: 30 mm, height: 1 mm}")
            .With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-10T14:00]")
            .And("today: {supplier_closed: true}");
        var signed = hidden.And("sign_offs:\n  - {place: J1, material: MS1, rule: look.profile, role: owner, by: B. C., reason: under the carpet}");

        Assert.Null(hidden.Answer().Recommended);
        var answer = signed.Answer();
        Assert.Equal("MS1", answer.Recommended!.MaterialOn("J1"));
        Assert.NotNull(answer.On("J1", "MS1").Says("signed-off"));
    }

    [Fact]
    public void A_visible_look_is_not_signed_off()
    {
        var answer = Scenario.Of(Morning, Shelf)
            .With("look: {profile: fillet, width: 6 mm, visible: true}", "look: {profile: sprayed, width: 30 mm, height: 1 mm, visible: true}")
            .Answer();

        answer.Refused("J1", "E2S", "look-visible");
        Assert.Equal("MSS", answer.Recommended!.MaterialOn("J1"));      // ordered
    }

    [Fact]
    public void The_makers_requirement_outranks_the_cheaper_material()
    {
        var required = Scenario.Of(Morning, Shelf).With("says: forbids, materials: [RB1], text: no rubber", "says: requires, chemistries: [two-part-epoxy], text: two-part epoxy").Answer();

        Assert.Equal("E2S", required.Recommended!.MaterialOn("J1"));
        required.Refused("J1", "MS1", "procedure-requires-other");
        Assert.Equal("MS1", Scenario.Of(Morning, Shelf).Plan().MaterialOn("J1"));
    }

    [Fact]
    public void What_the_maker_forbids_is_refused_with_the_makers_words()
    {
        var answer = Scenario.Of(Morning, Shelf).With("says: forbids, materials: [RB1], text: no rubber", "says: forbids, chemistries: [one-part-silane-modified], text: no silane").Answer();

        Assert.Contains("no silane", answer.Refused("J1", "MS1", "procedure-forbids").Facts);
        Assert.NotEqual("MS1", answer.Recommended!.MaterialOn("J1"));
    }

    [Fact]
    public void A_crash_relevant_joint_takes_no_sealer()
    {
        var answer = Scenario.Of(Morning, Shelf).With("position: vertical", "position: vertical\n    function: crash-relevant").Answer();

        foreach (var found in answer.Recommended?.Joint("J1").Answers ?? [])
            Assert.Equal(VerdictKind.Refused, found.Overall);
        Assert.Null(answer.Recommended?.MaterialOn("J1"));
    }

    // Calendar.

    [Fact]
    public void A_saturday_slot_brings_a_working_saturday_and_no_sunday()
    {
        // Now Friday 17:30 with an hour of two-part work: some of it goes to Saturday before 10:00 only because a slot lies there.
        var weekend = Scenario.Of(Morning, Shelf).With("now: 2027-03-10T08:00", "now: 2027-03-12T17:50").With("promise: 2027-03-12T16:00", "promise: 2027-03-13T16:00")
            .With("slots: [2027-03-10T14:00, 2027-03-11T10:30]", "slots: [2027-03-13T10:00, 2027-03-15T10:30]").Plan();

        Assert.Equal(At("2027-03-13T10:00"), weekend.Slot);
        Assert.DoesNotContain(weekend.Steps, step => step.Person is not null && step.Start >= At("2027-03-14T00:00") && step.Start < At("2027-03-15T00:00"));
        Between("2027-03-13T12:00", "2027-03-13T16:00", weekend.ReadyForDelivery);
    }

    [Fact]
    public void A_holiday_is_no_working_day()
    {
        var plan = Scenario.Of(Morning, Shelf).With("shop/1\n", "shop/1\nholidays: [2027-03-10]\n").Plan();

        Assert.All(plan.Steps.Where(step => step.Person is "technician" or "helper"), step => Assert.True(step.Start >= At("2027-03-11T00:00")));
        Assert.Equal(At("2027-03-11T10:30"), plan.Slot);
    }

    // Units.

    [Fact]
    public void A_repair_written_in_us_units_is_the_same_repair()
    {
        // 1 m = 39.370079 in, 6 mm = 0.23622 in, 23 °C = 73.4 °F.
        var metric = Scenario.Of(Morning, Shelf).Plan();
        var us = Scenario.Of(Morning, Shelf).With("length: 1 m", "length: 39.370078 in").With("width: 6 mm", "width: 0.23622 in").With("temperature: 23 °C, humidity: 50 %}\nproc", "temperature: 73.4 °F, humidity: 50 %}\nproc")
            .Plan();

        Assert.Equal(metric.MaterialOn("J1"), us.MaterialOn("J1"));
        Near(metric.Joint("J1").Amount.Millilitres, us.Joint("J1").Amount.Millilitres, 0.01);
        Assert.Equal(metric.Joint("J1").Ready, us.Joint("J1").Ready);
        Assert.Equal(metric.Cost.Total.Rounded, us.Cost.Total.Rounded);
        Near(1, metric.Joint("J1").Amount / Volume.FromMillilitres(20.7), 0.001);      // 18 mm² · 1 m · 1.15
    }

    [Fact]
    public void Of_an_activated_aerosol_the_calendar_counts_and_not_the_air()
    {
        // 48 h from Monday 09:00 end on Wednesday 09:00. Needed at 08:20 on Wednesday it is good, an hour later it is not.
        string bare = Morning.Replace("{coat: P-EP, applied: 2027-03-10T06:00}", "{bare: steel}", StringComparison.Ordinal).Replace("type: lap", "type: roof-ditch", StringComparison.Ordinal);
        string aerosol = Shelf.Replace("{id: P, material: P-EP}", "{id: P, material: P-EPA, activated: 2027-03-08T09:00}", StringComparison.Ordinal);

        Assert.True(Scenario.Of(bare, aerosol).Plan().Uses("P"));
        Assert.False(Scenario.Of(bare.Replace("now: 2027-03-10T08:00", "now: 2027-03-10T09:01", StringComparison.Ordinal), aerosol).Plan().Uses("P"));
    }
}
