using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.SuitabilityTests;

/// <summary>The musts of the five scenarios, as far as they are a matter of rules.</summary>
public class ScenarioTests
{
    private static readonly DataSheet[] Sealers = [PU1, MS1, MSS, E2S, E2F, SL2, TP];

    private static string[] Usable(Joint joint, Repair? repair = null) =>
        [.. Sealers.Where(sheet => Verdicts.MayBeUsed(SuitabilityRules.Judge(On(joint, sheet, repair)))).Select(sheet => sheet.Id.Value)];

    [Fact]
    public void Scenario_1_offers_what_the_expert_chose()
    {
        var wheelhouse = PlainLap with { Type = JointType.Wheelhouse, Metals = [Metal.Steel, Metal.ZincCoatedSteel], Position = Position.Overhead, Look = LookOf(Profile.Sprayed, 40, 1, visible: true), Above = LayerAbove.StoneChip };
        var ditch = PlainLap with { Type = JointType.RoofDitch, Look = LookOf(Profile.Ditch, 12, 5, visible: true, strict: true) };
        var lap = PlainLap with { Position = Position.Vertical, Look = LookOf(Profile.Brushed, 20, 2, visible: true), Masked = true };
        var fillet = PlainLap with { Position = Position.Inclined, Look = LookOf(Profile.Fillet, 8, 8) };

        Assert.Equal(["MSS"], Usable(wheelhouse));
        Assert.Equal(["SL2"], Usable(ditch));
        Assert.Equal(["E2S", "E2F"], Usable(lap));
        Assert.Equal(["PU1", "MS1", "E2S", "E2F"], Usable(fillet));
        Assert.Empty(Usable(fillet with { Function = JointFunction.AcousticFoam }));
    }

    [Fact]
    public void Scenario_2_gives_the_rail_no_sealer_and_the_masked_coach_joint_a_two_part()
    {
        var floor = PlainLap with { Look = LookOf(Profile.Brushed, 25, 1.5), Above = LayerAbove.Nothing };
        var coach = PlainLap with { Type = JointType.Coach, Position = Position.Vertical, Look = LookOf(Profile.HalfRound, 10, 5, true, true), Depth = Mm(4), Masked = true };
        var rail = PlainLap with { Type = JointType.Butt, Look = LookOf(Profile.None, 0, 0) };

        Assert.Contains("PU1", Usable(floor));
        Assert.Equal(["E2S", "E2F"], Usable(coach));
        Assert.Empty(Usable(rail));
    }

    [Fact]
    public void Scenario_3_lays_strip_on_the_straight_hems_only()
    {
        var hem = PlainLap with { Type = JointType.Hem, Look = LookOf(Profile.Strip, 10, 0.9), Masked = true, Rubbed = true, Drains = 3 };

        Assert.Equal(["E2S", "E2F", "TP"], Usable(hem));
        Assert.Equal(["E2S", "E2F"], Usable(hem with { Radius = Mm(40) }));
        Assert.Empty(Usable(hem with { Look = LookOf(Profile.None, 0, 0) }));
    }

    [Fact]
    public void Scenario_4_refuses_zinc_and_asks_for_both_edges_and_all_heads()
    {
        var rail = PlainLap with { Metals = [Metal.Aluminium, Metal.Steel], Position = Position.Vertical, Look = LookOf(Profile.HalfRound, 8, 0), Count = 2, GalvanicIsolation = true };
        var heads = PlainLap with { Type = JointType.Fastener, Metals = [Metal.Steel, Metal.Aluminium], Length = Length.Zero, Count = 14, Look = LookOf(Profile.Dab, 12, 3) };
        var tower = PlainLap with { Metals = [Metal.Aluminium, Metal.Aluminium], Look = LookOf(Profile.Brushed, 25, 1.5, true, true) };

        foreach (var joint in new[] { rail, heads, tower })
        {
            Assert.Contains("E2S", Usable(joint));
            Assert.Equal(VerdictKind.Refused, VerdictOf(On(joint, PWT), "weld-through.metal").Kind);
        }
        Assert.Equal("isolate-both-edges", VerdictOf(On(rail, E2S), "galvanic.pair").Reason.Key);
        Assert.Equal("isolate-all-heads", VerdictOf(On(heads, E2S), "galvanic.pair").Reason.Key);
        Assert.DoesNotContain("MS1", Usable(tower with { Surface = Bare(SurfaceKind.BareAluminium) }));
    }

    [Fact]
    public void Scenario_5_offers_nothing_over_etch_in_the_ditch_until_it_is_stripped_and_primed()
    {
        var repair = PlainRepair with { VehicleTilt = Angle.FromDegrees(4) };
        var left = PlainLap with { Type = JointType.RoofDitch, Length = Length.FromMetres(1.9), Look = LookOf(Profile.Ditch, 14, 5, true, true), Surface = new Surface(SurfaceKind.EtchPrimer, PET.Id, Local(2027, 6, 11, 15, 0)) };
        var header = PlainLap with { Length = Length.FromMetres(1.1), Position = Position.Inclined, Look = LookOf(Profile.HalfRound, 10, 0), Surface = left.Surface };

        Assert.Empty(Usable(left, repair));
        Assert.Equal(["PU1", "MS1"], Usable(header, repair));

        var routes = PreparationRoutes.For(left, SL2, PET, PEP, PlainShop.Times);
        var allowed = routes.Where(route => route.PrimerMayGo && Verdicts.MayBeUsed(SuitabilityRules.Judge(On(left, SL2, repair).After(route))));
        Assert.Equal([Preparation.StripAndPrime], allowed.Select(route => route.Preparation));
    }
}

public class PreparationRouteTests
{
    [Fact]   // scenario 5: 1.9 m abraded in 11 minutes, stripped in 25; window 72 h ended Sunday 16:00
    public void Routes_carry_the_minutes_and_the_end_of_the_window()
    {
        var right = PlainLap with { Length = Length.FromMetres(1.9), Surface = new Surface(SurfaceKind.EpoxyPrimer, PEP.Id, Local(2027, 6, 10, 16, 0)) };

        var routes = PreparationRoutes.For(right, SL2, PEP, PEP, PlainShop.Times);

        Assert.Equal([Preparation.AsIs, Preparation.Abrade, Preparation.StripAndPrime], routes.Select(route => route.Preparation));
        Assert.Equal(Local(2027, 6, 13, 16, 0), routes[0].WindowEnds);
        Assert.Equal(11.4, routes[1].Work.TotalMinutes, 1e-6);
        Assert.Equal(24.7, routes[2].Work.TotalMinutes, 1e-6);
        Assert.Equal(76, routes[2].PrimerAmount!.Value.Millilitres, 1e-6);
    }

    [Fact]
    public void Bare_metal_is_primed_not_abraded_and_without_primer_stays_as_it_is()
    {
        var bare = PlainLap with { Surface = Bare(SurfaceKind.BareSteel) };

        Assert.Equal([Preparation.AsIs, Preparation.Prime], PreparationRoutes.For(bare, MS1, null, PEP, PlainShop.Times).Select(route => route.Preparation));
        Assert.Equal([Preparation.AsIs], PreparationRoutes.For(bare, MS1, null, null, PlainShop.Times).Select(route => route.Preparation));
        Assert.Equal(SurfaceKind.EpoxyPrimer, PreparationRoutes.For(bare, MS1, null, PEP, PlainShop.Times)[1].Result.Kind);
    }

    [Fact]   // scenario 4: no zinc on aluminium, no etch under E2S
    public void A_route_with_the_wrong_primer_says_so()
    {
        var aluminium = PlainLap with { Metals = [Metal.Aluminium], Surface = Bare(SurfaceKind.BareAluminium) };

        Assert.True(PreparationRoutes.For(aluminium, E2S, null, PEP, PlainShop.Times)[1].PrimerMayGo);
        Assert.False(PreparationRoutes.For(aluminium, E2S, null, PWT, PlainShop.Times)[1].PrimerMayGo);
        Assert.False(PreparationRoutes.For(aluminium, E2S, null, PET, PlainShop.Times)[1].PrimerMayGo);
    }
}
