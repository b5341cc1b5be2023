using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.SuitabilityTests;

/// <summary>Each rule: a case that refuses (or asks, or advises) and the nearest case that does not.</summary>
public class RuleTests
{
    private static void Judged(VerdictKind expected, string rule, Joint joint, DataSheet sheet, Repair? repair = null) =>
        Assert.Equal(expected, VerdictOf(On(joint, sheet, repair), rule).Kind);

    private static Repair Says(ProcedureKind kind, PlaceId? place, DataSheet sheet) =>
        PlainRepair with { Procedure = [new ProcedureStatement(place, kind, [sheet.Id], [], [], "as stated")] };

    private static Operation Weld(params PlaceId[] near) => new()
    {
        Id = new PlaceId("W1"),
        Name = "two plug welds",
        Time = Duration.FromMinutes(30),
        Skill = Skill.Weld,
        HotWork = true,
        Near = [.. near],
    };

    [Fact]   // procedure.requires
    public void What_the_procedure_requires_shuts_everything_else_out()
    {
        Judged(VerdictKind.Refused, "procedure.requires", PlainLap, MS1, Says(ProcedureKind.Requires, PlainLap.Id, E2S));
        Judged(VerdictKind.Fine, "procedure.requires", PlainLap, E2S, Says(ProcedureKind.Requires, PlainLap.Id, E2S));
        Judged(VerdictKind.Fine, "procedure.requires", PlainLap, MS1, Says(ProcedureKind.Requires, new PlaceId("J2"), E2S));
    }

    [Fact]   // procedure.requires
    public void A_statement_about_the_joint_outranks_one_about_all_joints()
    {
        var repair = PlainRepair with
        {
            Procedure =
            [
                new ProcedureStatement(null, ProcedureKind.Requires, [], [Chemistry.TwoPartEpoxy], [], "epoxy everywhere"),
                new ProcedureStatement(PlainLap.Id, ProcedureKind.Allows, [MS1.Id], [], [], "hybrid here"),
            ],
        };

        Judged(VerdictKind.Advice, "procedure.requires", PlainLap, MS1, repair);
        Judged(VerdictKind.Refused, "procedure.requires", PlainLap with { Id = new PlaceId("J2") }, MS1, repair);
    }

    [Fact]   // procedure.forbids
    public void What_the_procedure_forbids_is_refused_and_nothing_else()
    {
        Judged(VerdictKind.Refused, "procedure.forbids", PlainLap, PU1, Says(ProcedureKind.Forbids, null, PU1));
        Judged(VerdictKind.Fine, "procedure.forbids", PlainLap, MS1, Says(ProcedureKind.Forbids, null, PU1));
    }

    [Fact]   // procedure.allows
    public void An_allowance_turns_a_general_refusal_into_advice_and_keeps_what_was_set_aside()
    {
        var masked = PlainLap with { Masked = true };
        var verdict = VerdictOf(On(masked, MS1, Says(ProcedureKind.Allows, masked.Id, MS1)), "handling.masked-or-rubbed");

        Assert.Equal(VerdictKind.Advice, verdict.Kind);
        Assert.Equal(VerdictKind.Refused, verdict.SetAside!.Kind);
        Assert.Equal("procedure-allows", VerdictOf(On(masked, MS1, Says(ProcedureKind.Allows, masked.Id, MS1)), "procedure.allows").Reason.Key);
        Judged(VerdictKind.Refused, "handling.masked-or-rubbed", masked, MS1, Says(ProcedureKind.Allows, masked.Id, E2S));
    }

    [Fact]   // wanted.material
    public void The_material_asked_for_shuts_others_out()
    {
        Judged(VerdictKind.Refused, "wanted.material", PlainLap with { Wanted = E2S.Id }, MS1);
        Judged(VerdictKind.Fine, "wanted.material", PlainLap with { Wanted = MS1.Id }, MS1);
    }

    [Fact]   // function.structural
    public void Structural_joints_take_no_sealer_and_adhesive_only_by_the_procedure()
    {
        var structural = PlainLap with { Function = JointFunction.Structural };

        Judged(VerdictKind.Refused, "function.structural", structural, E2S);
        Judged(VerdictKind.Refused, "function.structural", structural, ADE);
        Judged(VerdictKind.Advice, "function.structural", structural, ADE, Says(ProcedureKind.Requires, structural.Id, ADE));
        Judged(VerdictKind.Fine, "function.structural", PlainLap, E2S);
    }

    [Fact]   // function.*: an allowance must name exactly this joint and this material
    public void A_general_allowance_never_turns_sealer_into_structural_material_or_foam()
    {
        foreach (var (function, rule) in new[]
        {
            (JointFunction.Structural, "function.structural"),
            (JointFunction.CrashRelevant, "function.crash-relevant"),
            (JointFunction.AcousticFoam, "function.acoustic-foam"),
        })
        {
            var joint = PlainLap with { Function = function };
            var byUse = PlainRepair with { Procedure = [new ProcedureStatement(joint.Id, ProcedureKind.Allows, [], [], [MaterialUse.SeamSealer], "sealers")] };

            Judged(VerdictKind.Refused, rule, joint, E2S, Says(ProcedureKind.Allows, null, E2S));
            Judged(VerdictKind.Refused, rule, joint, E2S, byUse);
            Judged(VerdictKind.Advice, rule, joint, E2S, Says(ProcedureKind.Allows, joint.Id, E2S));
        }
    }

    [Fact]   // function.crash-relevant
    public void Crash_relevant_joints_take_no_sealer()
    {
        Judged(VerdictKind.Refused, "function.crash-relevant", PlainLap with { Function = JointFunction.CrashRelevant }, E2F);
        Judged(VerdictKind.Fine, "function.crash-relevant", PlainLap, E2F);
    }

    [Fact]   // function.acoustic-foam; scenario 1, trap (b)
    public void Sealer_is_not_foam()
    {
        var cavity = PlainLap with { Function = JointFunction.AcousticFoam };

        Judged(VerdictKind.Refused, "function.acoustic-foam", cavity, MSS);
        Judged(VerdictKind.Advice, "function.acoustic-foam", cavity, FFX);
    }

    [Fact]   // function.anti-flutter; scenario 3, J5
    public void Anti_flutter_places_take_only_anti_flutter_material()
    {
        var bar = PlainLap with { Function = JointFunction.AntiFlutter, Look = LookOf(Profile.Dab, 15, 4) };

        Judged(VerdictKind.Refused, "function.anti-flutter", bar, E2S);
        Judged(VerdictKind.Fine, "function.anti-flutter", bar, AF1);
    }

    [Fact]   // function.seal
    public void Seams_take_sealer_or_strip_and_nothing_else()
    {
        foreach (var other in new[] { AF1, ADE, FFX, PEP })
            Judged(VerdictKind.Refused, "function.seal", PlainLap, other);

        Judged(VerdictKind.Fine, "function.seal", PlainLap, MS1);
        Judged(VerdictKind.Fine, "function.seal", PlainLap, TP);
    }

    [Fact]   // seam.none; scenario 2, J3 and scenario 3, J4
    public void No_seam_is_added_where_the_factory_had_none()
    {
        var bare = PlainLap with { Look = LookOf(Profile.None, 0, 0) };

        Judged(VerdictKind.Refused, "seam.none", bare, MS1);
        Judged(VerdictKind.Fine, "seam.none", PlainLap, MS1);
        Judged(VerdictKind.Advice, "seam.none", bare, MS1, Says(ProcedureKind.Requires, bare.Id, MS1));
    }

    [Fact]   // surface.bare-metal; scenario 4: "bare steel: yes" does not mean bare aluminium
    public void Bare_steel_allowed_does_not_mean_bare_aluminium_allowed()
    {
        var steel = PlainLap with { Surface = Bare(SurfaceKind.BareSteel) };

        Judged(VerdictKind.Advice, "surface.bare-metal", steel, MS1);
        Judged(VerdictKind.Refused, "surface.bare-metal", steel with { Metals = [Metal.Aluminium, Metal.Steel] }, MS1);
        Judged(VerdictKind.Refused, "surface.bare-metal", steel with { Surface = Bare(SurfaceKind.BareAluminium), Metals = [Metal.Aluminium] }, MS1);
        Judged(VerdictKind.Refused, "surface.bare-metal", steel, PU1);
        Judged(VerdictKind.Fine, "surface.bare-metal", PlainLap, PU1);
    }

    [Fact]   // surface.bare-metal
    public void A_sheet_silent_on_bare_metal_is_read_as_no_and_silent_on_zinc_as_it_speaks_of_steel()
    {
        var silent = MS1 with { Surfaces = MS1.Surfaces.Remove(SurfaceKind.BareSteel) };

        Judged(VerdictKind.Refused, "surface.bare-metal", PlainLap with { Surface = Bare(SurfaceKind.BareSteel) }, silent);
        Judged(VerdictKind.Advice, "surface.bare-metal", PlainLap with { Surface = Bare(SurfaceKind.ZincCoatedSteel) }, MS1);
        Judged(VerdictKind.Refused, "surface.bare-metal", PlainLap with { Surface = Bare(SurfaceKind.ZincCoatedSteel) }, silent);
    }

    [Fact]   // surface.etch; scenario 5, J1: 1.9 m take about 25 minutes
    public void Two_part_over_etch_is_refused_with_the_remedy_and_its_minutes()
    {
        var etched = PlainLap with { Length = Length.FromMetres(1.9), Surface = new Surface(SurfaceKind.EtchPrimer, PET.Id, null) };

        var verdict = VerdictOf(On(etched, E2S), "surface.etch");

        Assert.Equal(VerdictKind.Refused, verdict.Kind);
        Assert.Equal("etch-under-two-part", verdict.Reason.Key);
        Assert.Equal(24.7, ((Duration)verdict.Reason.Facts[2]).TotalMinutes, 1e-6);
        Judged(VerdictKind.Fine, "surface.etch", etched, MS1);
    }

    [Fact]   // surface.etch
    public void One_part_over_etch_goes_by_its_sheet_and_two_part_never_without_a_signature()
    {
        var etched = PlainLap with { Surface = new Surface(SurfaceKind.EtchPrimer, PET.Id, null) };
        var silent = MS1 with { Surfaces = MS1.Surfaces.Remove(SurfaceKind.EtchPrimer) };
        var bold = E2F with { Surfaces = E2F.Surfaces.SetItem(SurfaceKind.EtchPrimer, true) };

        Judged(VerdictKind.Refused, "surface.etch", etched, silent);
        Judged(VerdictKind.NeedsSignOff, "surface.etch", etched, bold);
    }

    [Fact]   // surface.weld-through
    public void Seams_do_not_go_on_weld_through_residue()
    {
        var zinc = PlainLap with { Surface = new Surface(SurfaceKind.WeldThroughPrimer, PWT.Id, null) };
        var named = MS1 with { Surfaces = MS1.Surfaces.SetItem(SurfaceKind.WeldThroughPrimer, true) };

        Judged(VerdictKind.Refused, "surface.weld-through", zinc, MS1);
        Judged(VerdictKind.Fine, "surface.weld-through", zinc, named);
    }

    [Fact]   // surface.coat
    public void A_coat_the_sheet_refuses_is_refused_and_one_it_does_not_name_is_tested()
    {
        var refusing = MS1 with { Surfaces = MS1.Surfaces.SetItem(SurfaceKind.ElectroCoat, false) };
        var electroCoated = PlainLap with { Surface = Bare(SurfaceKind.ElectroCoat) };

        Judged(VerdictKind.Refused, "surface.coat", electroCoated, refusing);
        Judged(VerdictKind.Advice, "surface.coat", electroCoated, MS1);
        Judged(VerdictKind.Fine, "surface.coat", PlainLap, MS1);
    }

    [Fact]   // surface.strip; scenario 3: strip over a bare cut edge
    public void A_strip_needs_a_primed_edge()
    {
        Judged(VerdictKind.Refused, "surface.strip", PlainLap with { Surface = Bare(SurfaceKind.BareSteel) }, TP);
        Judged(VerdictKind.Fine, "surface.strip", PlainLap, TP);
    }

    [Fact]   // torsion.primed
    public void Roof_ditches_are_primed_whatever_the_sheet_allows()
    {
        var ditch = PlainLap with { Type = JointType.RoofDitch, Surface = Bare(SurfaceKind.BareSteel) };

        Judged(VerdictKind.Refused, "torsion.primed", ditch, MS1);
        Judged(VerdictKind.Refused, "torsion.primed", ditch with { Surface = new Surface(SurfaceKind.EtchPrimer, PET.Id, null) }, MS1);
        Judged(VerdictKind.Fine, "torsion.primed", ditch with { Surface = PlainLap.Surface }, MS1);
        Judged(VerdictKind.Refused, "torsion.primed", PlainLap with { Torsion = true, Surface = Bare(SurfaceKind.BareSteel) }, MS1);
    }

    [Fact]   // above.paint
    public void A_painted_seam_needs_a_sheet_that_says_when_paint_may_go_on()
    {
        Judged(VerdictKind.Refused, "above.paint", PlainLap, MS1 with { Milestones = [] });
        Judged(VerdictKind.Fine, "above.paint", PlainLap, MS1);
        Judged(VerdictKind.Fine, "above.paint", PlainLap with { Above = LayerAbove.Nothing }, MS1 with { Milestones = [] });
    }

    [Fact]   // above.stone-chip
    public void Stone_chip_needs_a_sheet_that_says_when_a_coating_may_go_on()
    {
        var below = PlainLap with { Above = LayerAbove.StoneChip };

        Judged(VerdictKind.Refused, "above.stone-chip", below, MSS with { Milestones = [] });
        Judged(VerdictKind.Fine, "above.stone-chip", below, MSS);
    }

    [Fact]   // above.wax
    public void Wax_is_told_to_wait_for_the_last_bake()
    {
        Judged(VerdictKind.Advice, "above.wax", PlainLap with { Above = LayerAbove.Wax }, MS1);
        Judged(VerdictKind.Fine, "above.wax", PlainLap, MS1);
    }

    [Fact]   // above.bake-heat
    public void What_does_not_stand_the_bake_is_placed_after_it()
    {
        var cavity = PlainLap with { Function = JointFunction.AcousticFoam };
        var tender = FFX with { StandsHeatUpTo = C(55) };

        Judged(VerdictKind.Refused, "above.bake-heat", cavity, tender);
        Judged(VerdictKind.Fine, "above.bake-heat", cavity, FFX);
        Judged(VerdictKind.Fine, "above.bake-heat", cavity with { Stage = Stage.AfterPaintHeat }, tender);
        Judged(VerdictKind.Refused, "above.bake-heat", cavity, FFX, PlainRepair with { BakeTemperature = C(80) });
    }

    [Fact]   // above.unpainted
    public void Visible_polyurethane_without_paint_is_advised_against()
    {
        var open = PlainLap with { Above = LayerAbove.Nothing, Look = PlainLap.Look with { Visible = true } };

        Judged(VerdictKind.Advice, "above.unpainted", open, PU1);
        Judged(VerdictKind.Fine, "above.unpainted", open, MS1);
        Judged(VerdictKind.Fine, "above.unpainted", open with { Above = LayerAbove.Paint }, PU1);
    }

    [Fact]   // position.vertical
    public void A_bead_thicker_than_the_limit_sags_on_a_vertical_surface()
    {
        var vertical = PlainLap with { Position = Position.Vertical, Look = LookOf(Profile.HalfRound, 16, 8.1) };

        Judged(VerdictKind.Refused, "position.vertical", vertical, MS1);
        Judged(VerdictKind.Fine, "position.vertical", vertical with { Look = LookOf(Profile.HalfRound, 16, 8) }, MS1);
        Judged(VerdictKind.Refused, "position.vertical", vertical with { Position = Position.Inclined }, MS1);
        Judged(VerdictKind.Fine, "position.vertical", vertical with { Position = Position.Level }, MS1);
        Judged(VerdictKind.Advice, "position.vertical", vertical, MS1 with { SagVertical = null });
    }

    [Fact]   // position.vertical; scenario 1, J4: a fillet of 8 × 8 is 5.7 mm thick
    public void A_fillet_sags_by_its_throat()
    {
        var fillet = PlainLap with { Position = Position.Inclined, Look = LookOf(Profile.Fillet, 8, 8) };

        Judged(VerdictKind.Fine, "position.vertical", fillet, PU1);
        Judged(VerdictKind.Refused, "position.vertical", fillet with { Look = LookOf(Profile.Fillet, 9, 9) }, PU1);
    }

    [Fact]   // position.overhead
    public void A_bead_thicker_than_the_limit_drips_overhead()
    {
        var overhead = PlainLap with { Position = Position.Overhead, Look = LookOf(Profile.Sprayed, 40, 3.1) };

        Judged(VerdictKind.Refused, "position.overhead", overhead, MSS);
        Judged(VerdictKind.Fine, "position.overhead", overhead with { Look = LookOf(Profile.Sprayed, 40, 1) }, MSS);
    }

    [Fact]   // position.level-only
    public void A_self_levelling_grade_goes_only_on_level_seams()
    {
        var ditch = PlainLap with { Type = JointType.RoofDitch, Look = LookOf(Profile.Ditch, 12, 5) };

        Judged(VerdictKind.Fine, "position.level-only", ditch, SL2);
        Judged(VerdictKind.Refused, "position.level-only", ditch with { Position = Position.Vertical }, SL2);
        Judged(VerdictKind.Refused, "position.level-only", ditch with { Tilt = Angle.FromDegrees(3.1) }, SL2);
        Judged(VerdictKind.Fine, "position.level-only", ditch with { Tilt = Angle.FromDegrees(3) }, SL2);
        Judged(VerdictKind.Refused, "position.level-only", ditch with { Tilt = Angle.FromDegrees(3.1) }, SL2 with { MaximumTilt = null });
    }

    [Fact]   // position.vehicle-tilt; scenario 5: on the lift, nose down 4°
    public void A_leaning_vehicle_is_brought_level_first_or_the_material_is_refused()
    {
        var ditch = PlainLap with { Type = JointType.RoofDitch, Look = LookOf(Profile.Ditch, 14, 5) };
        var leaning = PlainRepair with { VehicleTilt = Angle.FromDegrees(4) };

        Judged(VerdictKind.Advice, "position.vehicle-tilt", ditch, SL2, leaning);
        Judged(VerdictKind.Refused, "position.vehicle-tilt", ditch, SL2, leaning with { CanBeLevelled = false });
        Judged(VerdictKind.Fine, "position.vehicle-tilt", ditch, SL2, leaning with { VehicleTilt = Angle.FromDegrees(3) });
        Judged(VerdictKind.Fine, "position.vehicle-tilt", ditch, E2S, leaning);
    }

    [Fact]   // look.profile
    public void Another_look_is_refused_where_seen_or_strict_and_needs_a_signature_where_hidden()
    {
        var ditch = PlainLap with { Look = LookOf(Profile.Ditch, 14, 5) };

        Judged(VerdictKind.NeedsSignOff, "look.profile", ditch, PU1);
        Judged(VerdictKind.Refused, "look.profile", ditch with { Look = ditch.Look with { Visible = true } }, PU1);
        Judged(VerdictKind.Refused, "look.profile", ditch with { Look = ditch.Look with { Strict = true } }, PU1);
        Judged(VerdictKind.Fine, "look.profile", PlainLap, PU1);
    }

    [Fact]   // sign-offs
    public void A_recorded_signature_turns_the_question_into_advice_for_its_joint_material_and_rule_only()
    {
        var ditch = PlainLap with { Look = LookOf(Profile.Ditch, 14, 5) };
        var signed = PlainRepair with { SignOffs = [new SignOff(ditch.Id, PU1.Id, "look.profile", "owner", "A. B.", "under trim")] };

        var verdict = VerdictOf(On(ditch, PU1, signed), "look.profile");

        Assert.Equal(VerdictKind.Advice, verdict.Kind);
        Assert.Equal(["owner", "A. B.", "under trim"], verdict.Reason.Facts);
        Assert.Equal(VerdictKind.NeedsSignOff, verdict.SetAside!.Kind);
        Judged(VerdictKind.NeedsSignOff, "look.profile", ditch, MS1, signed);
        Judged(VerdictKind.NeedsSignOff, "look.profile", ditch with { Id = new PlaceId("J2") }, PU1, signed);
        Judged(VerdictKind.Refused, "look.profile", ditch with { Look = ditch.Look with { Strict = true } }, PU1, signed);
    }

    [Fact]   // depth.closed-to-air
    public void A_moisture_cure_never_goes_into_a_closed_joint()
    {
        Judged(VerdictKind.Refused, "depth.closed-to-air", PlainLap with { ClosedToAir = true }, MS1);
        Judged(VerdictKind.Fine, "depth.closed-to-air", PlainLap with { ClosedToAir = true }, E2S);
        Judged(VerdictKind.Fine, "depth.closed-to-air", PlainLap, MS1);
    }

    [Fact]   // depth.deep-bead; scenario 2, J2: 4 mm need 42.7 reference hours
    public void A_deep_bead_is_advised_against_with_its_hours()
    {
        var verdict = VerdictOf(On(PlainLap with { Depth = Mm(4) }, PU1), "depth.deep-bead");

        Assert.Equal(VerdictKind.Advice, verdict.Kind);
        Assert.Equal(42.67, ((Duration)verdict.Reason.Facts[2]).TotalHours, 0.01);
        Judged(VerdictKind.Fine, "depth.deep-bead", PlainLap with { Depth = Mm(3) }, PU1);
        Judged(VerdictKind.Fine, "depth.deep-bead", PlainLap with { Depth = Mm(4) }, E2S);
    }

    [Fact]   // handling.masked-or-rubbed; scenario 1, J3 and scenario 3, J1
    public void Masked_or_rubbed_seams_take_two_part_or_strip()
    {
        Judged(VerdictKind.Refused, "handling.masked-or-rubbed", PlainLap with { Masked = true }, MS1);
        Judged(VerdictKind.Refused, "handling.masked-or-rubbed", PlainLap with { Rubbed = true }, PU1);
        Judged(VerdictKind.Refused, "handling.masked-or-rubbed", PlainLap with { Masked = true }, MS1 with { Chemistry = Chemistry.OnePartSolventRubber });
        Judged(VerdictKind.Fine, "handling.masked-or-rubbed", PlainLap with { Masked = true }, E2F);
        Judged(VerdictKind.Fine, "handling.masked-or-rubbed", PlainLap with { Masked = true, Rubbed = true }, TP);
        Judged(VerdictKind.Fine, "handling.masked-or-rubbed", PlainLap, MS1);
    }

    [Fact]   // strip.radius; scenario 3, J3: 40 mm against 120 mm
    public void A_strip_is_not_pulled_round_a_corner()
    {
        var hem = PlainLap with { Type = JointType.Hem, Look = LookOf(Profile.Strip, 10, 0.9) };

        Judged(VerdictKind.Refused, "strip.radius", hem with { Radius = Mm(40) }, TP);
        Judged(VerdictKind.Refused, "strip.radius", hem with { Radius = Mm(119.9) }, TP);
        Judged(VerdictKind.Fine, "strip.radius", hem with { Radius = Mm(120) }, TP);
        Judged(VerdictKind.Fine, "strip.radius", hem, TP);
        Judged(VerdictKind.Refused, "strip.radius", hem with { Radius = Mm(149) }, TP with { MinimumRadius = null });
    }

    [Fact]   // strip.edge
    public void A_strip_lies_on_hems_and_straight_edges_only()
    {
        Judged(VerdictKind.Refused, "strip.edge", PlainLap with { Type = JointType.Wheelhouse }, TP);
        Judged(VerdictKind.Refused, "strip.edge", PlainLap with { Radius = Mm(500) }, TP);
        Judged(VerdictKind.Fine, "strip.edge", PlainLap, TP);
        Judged(VerdictKind.Fine, "strip.edge", PlainLap with { Type = JointType.Hem, Radius = Mm(500) }, TP);
    }

    [Fact]   // strip.laying
    public void A_strip_comes_with_the_advice_not_to_stretch_it()
    {
        Assert.Equal("strip-laid-unstretched-drains", VerdictOf(On(PlainLap with { Drains = 3 }, TP), "strip.laying").Reason.Key);
        Assert.Equal("strip-laid-unstretched", VerdictOf(On(PlainLap, TP), "strip.laying").Reason.Key);
        Judged(VerdictKind.Fine, "strip.laying", PlainLap, MS1);
    }

    [Fact]   // galvanic.pair; V1, V2
    public void Steel_on_aluminium_is_isolated_and_zinc_on_steel_is_left_alone()
    {
        Assert.Equal("isolate-both-edges", VerdictOf(On(PlainLap with { Metals = [Metal.Aluminium, Metal.Steel] }, E2S), "galvanic.pair").Reason.Key);
        Assert.Equal("isolate-all-heads", VerdictOf(On(PlainLap with { Metals = [Metal.Aluminium, Metal.Steel], Type = JointType.Fastener, Count = 14 }, E2S), "galvanic.pair").Reason.Key);
        Judged(VerdictKind.Fine, "galvanic.pair", PlainLap with { Metals = [Metal.ZincCoatedSteel, Metal.Steel] }, E2S);
        Judged(VerdictKind.Advice, "galvanic.pair", PlainLap with { GalvanicIsolation = true }, E2S);
    }

    [Fact]   // galvanic.primed
    public void Metals_to_be_kept_apart_are_primed_first()
    {
        var pair = PlainLap with { Metals = [Metal.Aluminium, Metal.Steel] };

        Judged(VerdictKind.Refused, "galvanic.primed", pair with { Surface = Bare(SurfaceKind.BareSteel) }, E2S);
        Judged(VerdictKind.Fine, "galvanic.primed", pair, E2S);
    }

    [Fact]   // weld-through.metal; scenario 4, trap (a)
    public void Zinc_weld_through_never_goes_on_aluminium()
    {
        var welded = PlainRepair with { Operations = [Weld(PlainLap.Id)] };

        Judged(VerdictKind.Refused, "weld-through.metal", PlainLap with { Metals = [Metal.Aluminium, Metal.Steel] }, PWT, welded);
        Judged(VerdictKind.Refused, "weld-through.metal", PlainLap with { Metals = [Metal.Aluminium] }, PWT, welded);
        Judged(VerdictKind.Refused, "weld-through.metal", PlainLap with { Metals = [Metal.StainlessSteel] }, PWT, welded);
        Judged(VerdictKind.Fine, "weld-through.metal", PlainLap, PWT, welded);
    }

    [Fact]   // weld-through.place
    public void Zinc_weld_through_goes_only_where_something_is_welded()
    {
        Judged(VerdictKind.Refused, "weld-through.place", PlainLap, PWT);
        Judged(VerdictKind.Advice, "weld-through.place", PlainLap, PWT, PlainRepair with { Operations = [Weld(PlainLap.Id)] });
    }

    [Fact]   // system.same
    public void Two_systems_on_top_of_each_other_need_a_signature()
    {
        var own = On(PlainLap, MS1 with { System = "A" });

        Assert.Equal(VerdictKind.NeedsSignOff, VerdictOf(own with { BeneathSheet = PEP with { System = "B" } }, "system.same").Kind);
        Assert.Equal(VerdictKind.Fine, VerdictOf(own with { BeneathSheet = PEP with { System = "A" } }, "system.same").Kind);
        Assert.Equal(VerdictKind.Fine, VerdictOf(own, "system.same").Kind);
    }

    [Fact]   // hot-work.pending
    public void Hot_work_near_the_joint_comes_first()
    {
        Judged(VerdictKind.Advice, "hot-work.pending", PlainLap, MS1, PlainRepair with { Operations = [Weld(PlainLap.Id)] });
        Judged(VerdictKind.Fine, "hot-work.pending", PlainLap, MS1, PlainRepair with { Operations = [Weld(new PlaceId("J2"))] });
    }

    [Fact]   // drains.open; scenario 3, J1
    public void Drains_in_the_path_are_listed()
    {
        var verdict = VerdictOf(On(PlainLap with { Drains = 3 }, TP), "drains.open");

        Assert.Equal(VerdictKind.Advice, verdict.Kind);
        Assert.Equal(3, verdict.Reason.Facts[1]);
        Judged(VerdictKind.Fine, "drains.open", PlainLap, TP);
    }
}
