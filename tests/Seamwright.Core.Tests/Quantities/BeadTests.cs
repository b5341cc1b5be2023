using CsCheck;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Units;
using Xunit;
using static Seamwright.SuitabilityTests.Invented;

namespace Seamwright.QuantitiesTests;

public class CrossSectionTests
{
    [Fact]   // B1…B3: public sealant quantity guide; one mm² is one ml per metre
    public void B1_to_B3_sections_agree_with_the_guide()
    {
        Assert.Equal(50, CrossSections.Flat(Mm(10), Mm(5)).SquareMillimetres, 1e-9);
        Assert.Equal(25, CrossSections.Fillet(Mm(10), Mm(5)).SquareMillimetres, 1e-9);
        Assert.Equal(39.3, CrossSections.HalfRound(Mm(10)).SquareMillimetres, 0.05);
    }

    [Fact]   // B4: supplier's statement; the source rounds 18.23 in³ to 18.3
    public void B4_a_pack_in_fluid_ounces_is_298_7_millilitres() =>
        Assert.Equal(298.7, Volume.FromFluidOunces(10.1).Millilitres, 0.1);

    [Theory]   // B5…B8: consumer table, 10 fl oz; its 3/8 × 1/4 column was interpolated and is not used
    [InlineData("B5", 0.25, 0.125, 48, 0.5)]
    [InlineData("B6", 0.25, 0.375, 16, 0.5)]
    [InlineData("B7", 0.5, 0.125, 24, 0.5)]
    [InlineData("B8", 0.5, 0.375, 8, 0.5)]
    public void Lengths_from_ten_fluid_ounces_agree_with_the_table(string row, double width, double height, double feet, double tolerance)
    {
        var section = CrossSections.Flat(Length.FromInches(width), Length.FromInches(height));

        Assert.True(Math.Abs(CrossSections.BeadLength(Volume.FromFluidOunces(10), section).Feet - feet) <= tolerance, row);
    }

    [Fact]   // B9: 10 ft of 1/4 × 1/4 in are 7.5 in³
    public void B9_a_quarter_inch_square_over_ten_feet()
    {
        var volume = CrossSections.Flat(Length.FromInches(0.25), Length.FromInches(0.25)) * Length.FromFeet(10);

        Assert.Equal(7.5, volume.Millilitres / 16.387064, 1e-9);
    }

    [Fact]   // B10: sheet prints 3.7 m for 300 ml and a 10 mm bead; round it is 3.82 m, 5 % tolerance
    public void B10_a_ten_millimetre_bead_from_300_millilitres() =>
        Assert.Equal(3.7, CrossSections.BeadLength(Ml(300), CrossSections.Round(Mm(10))).Metres, 0.05 * 3.7);

    [Fact]   // B11, B12: closed form
    public void B11_and_B12_lengths_from_310_and_600_millilitres()
    {
        static double Metres(double ml, Area section) => CrossSections.BeadLength(Ml(ml), section).Metres;

        Assert.Equal(10.96, Metres(310, CrossSections.Round(Mm(6))), 0.01);
        Assert.Equal(12.33, Metres(310, CrossSections.HalfRound(Mm(8))), 0.01);
        Assert.Equal(24.80, Metres(310, CrossSections.Fillet(Mm(5), Mm(5))), 0.01);
        Assert.Equal(19.38, Metres(310, CrossSections.Flat(Mm(8), Mm(2))), 0.01);
        Assert.Equal(8.61, Metres(310, CrossSections.Flat(Mm(6), Mm(6))), 0.01);
        Assert.Equal(47.75, Metres(600, CrossSections.Round(Mm(4))), 0.01);
        Assert.Equal(10.61, Metres(600, CrossSections.HalfRound(Mm(12))), 0.01);
        Assert.Equal(6.00, Metres(600, CrossSections.Flat(Mm(10), Mm(10))), 0.01);
    }

    [Fact]   // handbook 2.2: 3.2 mm bead, 36.6 m from 295 ml = 8.1 ml/m; circle 7.9…8.04
    public void A_sheets_own_yield_agrees_with_a_circle() =>
        Assert.Equal(36.6, CrossSections.BeadLength(Ml(295), CrossSections.Round(Mm(3.2))).Metres, 0.4);

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_measure_below_nothing_or_no_number_is_no_bead(double millimetres)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CrossSections.Round(Mm(millimetres)));
        Assert.Throws<ArgumentOutOfRangeException>(() => CrossSections.Flat(Mm(1), Mm(millimetres)));
        Assert.Throws<ArgumentOutOfRangeException>(() => CrossSections.BeadLength(Ml(100), Area.Zero));
    }

    [Fact]
    public void A_half_ellipse_as_high_as_half_its_width_is_the_half_round() =>
        Gen.Double[0.1, 50].Sample(width =>
            Math.Abs(CrossSections.HalfEllipse(Mm(width), Mm(width / 2)) / CrossSections.HalfRound(Mm(width)) - 1) < 1e-12, seed: "0000000000001");
}

public class BeadAmountTests
{
    private static double Needed(Look look, double metres, int runs = 1) =>
        Beads.Needed(PlainLap with { Look = look, Length = Length.FromMetres(metres), Count = runs }, PlainShop.Amounts).Millilitres;

    [Fact]   // B13: 4.2 m half-round of 10 mm, 10 % waste
    public void B13_a_half_round_with_waste()
    {
        var joint = PlainLap with { Look = LookOf(Profile.HalfRound, 10, 0), Length = Length.FromMetres(4.2) };
        var amounts = PlainShop.Amounts with { BeadLoss = 0.10 };

        Assert.Equal(164.9, Beads.Net(joint, amounts).Millilitres, 0.1);
        Assert.Equal(181.4, Beads.Needed(joint, amounts).Millilitres, 0.1);
    }

    [Fact]   // scenario 1: 55 ml on J1, 25 ml on J3, 15 ml on J4
    public void Scenario_1_takes_55_and_25_and_15_millilitres()
    {
        Assert.Equal(55, Needed(LookOf(Profile.Sprayed, 40, 1), 1.2), 0.5);
        Assert.Equal(25, Needed(LookOf(Profile.Brushed, 20, 2), 0.55), 0.5);
        Assert.Equal(15, Needed(LookOf(Profile.Fillet, 8, 8), 0.4), 0.5);
    }

    [Fact]   // scenario 2: 104 ml on J1, 59 ml on J2
    public void Scenario_2_takes_104_and_59_millilitres()
    {
        Assert.Equal(104, Needed(LookOf(Profile.Brushed, 25, 1.5), 2.4), 0.5);
        Assert.Equal(59, Needed(LookOf(Profile.HalfRound, 10, 5), 1.3), 0.5);
    }

    [Fact]   // scenario 3: two straight pieces, 1.55 m and four end allowances
    public void Scenario_3_takes_two_pieces_of_strip()
    {
        var bottom = Beads.StripPieces(PlainLap with { Length = Length.FromMetres(0.95) }, PlainShop.Amounts);
        var front = Beads.StripPieces(PlainLap with { Length = Length.FromMetres(0.60) }, PlainShop.Amounts);

        Assert.Equal([1030.0], bottom.Select(piece => Math.Round(piece.Millimetres, 6)));
        Assert.Equal([680.0], front.Select(piece => Math.Round(piece.Millimetres, 6)));
    }

    [Fact]   // scenario 4: 64 + 32 + 30 ml and one nozzle set, about 134 ml
    public void Scenario_4_takes_64_and_32_and_30_millilitres_and_one_nozzle()
    {
        double edges = Needed(LookOf(Profile.HalfRound, 8, 0), 1.1, 2);
        double heads = Needed(LookOf(Profile.Dab, 12, 3), 0, 14);
        double tower = Needed(LookOf(Profile.Brushed, 25, 1.5), 0.7);

        Assert.Equal(64, edges, 0.5);
        Assert.Equal(32, heads, 0.5);
        Assert.Equal(30, tower, 0.5);
        Assert.Equal(134, edges + heads + tower + Nozzles.Waste(PlainShop.Amounts).Millilitres, 0.5);
    }

    [Fact]   // scenario 5: both ditches 306 ml, with two nozzles 322
    public void Scenario_5_takes_306_millilitres()
    {
        double both = 2 * Needed(LookOf(Profile.Ditch, 14, 5), 1.9);

        Assert.Equal(306, both, 0.5);
        Assert.Equal(322, both + 2 * Nozzles.Waste(PlainShop.Amounts).Millilitres, 0.5);
    }

    [Fact]   // scenario 1, J4 and scenario 2, J2: fillet 8 × 8 is 5.7 mm deep; a stated root of 4 mm counts itself
    public void Depth_is_the_joints_own_else_its_looks()
    {
        Assert.Equal(5.657, Beads.Depth(PlainLap with { Look = LookOf(Profile.Fillet, 8, 8) }).Millimetres, 0.001);
        Assert.Equal(4, Beads.Depth(PlainLap with { Look = LookOf(Profile.HalfRound, 10, 5), Depth = Mm(4) }).Millimetres, 1e-9);
        Assert.Equal(4, Beads.Depth(PlainLap with { Look = LookOf(Profile.HalfRound, 8, 0) }).Millimetres, 1e-9);
        Assert.Equal(1.5, Beads.Depth(PlainLap with { Look = LookOf(Profile.Brushed, 25, 1.5) }).Millimetres, 1e-9);
        Assert.Equal(6, Beads.Depth(PlainLap with { Look = LookOf(Profile.Round, 6, 0) }).Millimetres, 1e-9);
    }

    [Fact]
    public void Gap_fill_is_added_after_the_loss_and_no_seam_takes_nothing()
    {
        var joint = PlainLap with { GapFill = Ml(10) };

        Assert.Equal(Needed(joint.Look, 1) + 10, Beads.Needed(joint, PlainShop.Amounts).Millilitres, 1e-9);
        Assert.Equal(0, Needed(LookOf(Profile.None, 0, 0), 5), 1e-12);
    }

    [Fact]   // handbook 2.2: a dab of 8…20 mm and 2…5 mm height holds about 1…5 ml at most
    public void A_dab_without_a_shop_figure_is_half_an_ellipsoid()
    {
        var amounts = PlainShop.Amounts with { Dab = null };

        Assert.Equal(1.05, Beads.Dab(LookOf(Profile.Dab, 20, 5), amounts).Millilitres, 0.01);
        Assert.Equal(2, Beads.Dab(LookOf(Profile.Dab, 20, 5), PlainShop.Amounts).Millilitres, 1e-9);
    }

    [Fact]   // handbook 2.2: skip-brushed takes 60…80 % of brushed
    public void Skip_brushed_takes_less_than_brushed() =>
        Assert.Equal(0.8, Needed(LookOf(Profile.SkipBrushed, 20, 2), 1) / Needed(LookOf(Profile.Brushed, 20, 2), 1), 1e-9);
}

public class NozzleTests
{
    [Fact]   // X1: bore 0.430 in, 6 in long, 14.28 ml gross; free share 0.9: 12.9 ml
    public void X1_hold_up_of_a_mixer()
    {
        Assert.Equal(14.28, Nozzles.HoldUp(Length.FromInches(0.430), Length.FromInches(6), 1).Millilitres, 0.05);
        Assert.Equal(12.9, Nozzles.HoldUp(Length.FromInches(0.430), Length.FromInches(6)).Millilitres, 0.05);
    }

    [Fact]   // X2: 150 mm of an 8 mm round bead
    public void X2_purge_bead() => Assert.Equal(7.54, Nozzles.PurgeBead(Mm(8), Mm(150)).Millilitres, 0.005);

    [Theory]
    [InlineData(0, 1)]
    [InlineData(15, 1)]
    [InlineData(16, 1)]
    [InlineData(16.1, 2)]
    [InlineData(33, 3)]
    public void Each_begun_nozzle_life_takes_a_nozzle(double workMinutes, int runs) =>
        Assert.Equal(runs, Nozzles.Runs(Duration.FromMinutes(workMinutes), Duration.FromMinutes(16)));

    [Fact]
    public void A_session_takes_a_nozzle_a_pack_or_a_run_whichever_is_more()
    {
        Assert.Equal(2, Nozzles.Needed(2, 1));
        Assert.Equal(3, Nozzles.Needed(2, 3));
        Assert.Equal(1, Nozzles.Runs(Duration.FromHours(9), null));
        Assert.Throws<ArgumentOutOfRangeException>(() => Nozzles.Runs(Duration.FromMinutes(1), Duration.Zero));
    }
}

public class FilmTests
{
    private static Length Um(double micrometres) => Length.FromMicrometres(micrometres);

    [Fact]   // C1, C2: coating sheets, tolerance of their rounding
    public void C1_and_C2_coverage_and_wet_film()
    {
        Assert.Equal(176, Films.WetThickness(Um(125), 0.71).Micrometres, 1.0);
        Assert.Equal(5.68, Films.AreaPerLitre(0.71, Um(125)).SquareMetres, 0.05);
        Assert.Equal(5.2, Films.AreaPerLitre(0.65, Um(125)).SquareMetres, 0.05);
    }

    [Fact]   // C3: 65 %, 5 mil: 208.5 ft²/gal (US gallon 3.785411784 l)
    public void C3_coverage_in_customary_units() =>
        Assert.Equal(208.5, Films.AreaPerLitre(0.65, Length.FromMils(5)).SquareFeet * 3.785411784, 0.1);

    [Fact]   // C4, C6, C7
    public void C4_C6_and_C7_wet_film()
    {
        Assert.Equal(161, Films.WetThickness(Um(100), 0.62).Micrometres, 1.0);
        Assert.Equal(3.57, Films.WetThickness(Length.FromMils(1.5), 0.42).Mils, 0.01);
        Assert.Equal(357, Films.WetThickness(Um(125), 0.35).Micrometres, 1.0);
    }

    [Fact]   // C5: VS 50 %, 10 % thinner, 60 µm, loss 30 %
    public void C5_thinned_and_in_practice()
    {
        double thinned = Films.ThinnedSolids(0.50, 0.10);
        var theoretical = Films.AreaPerLitre(thinned, Um(60));

        Assert.Equal(45.45, thinned * 100, 0.01);
        Assert.Equal(7.57, theoretical.SquareMetres, 0.01);
        Assert.Equal(5.30, Films.Practical(theoretical, 0.30).SquareMetres, 0.01);
    }

    [Theory]   // C8: coverage table
    [InlineData(100, 25, 40.0)]
    [InlineData(45, 75, 6.0)]
    [InlineData(55, 50, 11.0)]
    [InlineData(80, 225, 3.6)]
    public void C8_coverage_table(double solids, double micrometres, double squareMetres) =>
        Assert.Equal(squareMetres, Films.AreaPerLitre(solids / 100, Um(micrometres)).SquareMetres, 0.05);

    [Fact]   // C9: 1.2 m², 60 µm, VS 45 %
    public void C9_litres_for_an_area()
    {
        Assert.Equal(246.2, Films.Needed(Area.FromSquareMetres(1.2), new FilmFacts(Um(60), 0.45, 0.65)).Millilitres, 0.1);
        Assert.Equal(400.0, Films.Needed(Area.FromSquareMetres(1.2), new FilmFacts(Um(60), 0.45, 0.40)).Millilitres, 0.1);
    }

    [Fact]   // G8: a 4:1 mix of 50 % and 60 % solids
    public void Solids_of_a_mix_are_the_mean_by_volume() =>
        Assert.Equal(0.52, Films.MixedSolids(new MixRatio(4, 1), 0.50, 0.60), 1e-12);

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(1.01)]
    [InlineData(45)]
    [InlineData(double.NaN)]
    public void Solids_outside_0_to_1_are_refused(double solids)
    {
        Assert.Throws<OutsideValidityException>(() => Films.AreaPerLitre(solids, Um(50)));
        Assert.Throws<OutsideValidityException>(() => Films.WetThickness(Um(50), solids));
        Assert.Throws<OutsideValidityException>(() => Films.Needed(Area.FromSquareMetres(1), new FilmFacts(Um(50), 0.5, solids)));
    }
}

public class MixingTests
{
    private static readonly MixRatio FourToOne = new(4, 1, Density.FromGramsPerMillilitre(1.40), Density.FromGramsPerMillilitre(0.98));
    private static readonly MixRatio TwoToOne = new(2, 1, Density.FromGramsPerMillilitre(1.15), Density.FromGramsPerMillilitre(0.95));

    [Fact]   // C10, C11
    public void C10_and_C11_weights_follow_volumes_and_densities()
    {
        Assert.Equal(17.5, Mixing.WeightRatio(FourToOne)!.Value * 100, 0.1);
        Assert.Equal(87.5, Mixing.HardenerFor(FourToOne, Mass.FromGrams(500))!.Value.Grams, 0.1);
        Assert.Equal(1.316, Mixing.MixDensity(FourToOne)!.Value.GramsPerMillilitre, 0.001);
        Assert.Equal(41.3, Mixing.WeightRatio(TwoToOne)!.Value * 100, 0.1);
    }

    [Fact]   // C12: one pint of base at 4:1 makes 1.25 pint
    public void C12_a_part_of_hardener_to_four_of_base()
    {
        var mix = Mixing.ByVolume(FourToOne, Ml(1.25));

        Assert.Equal(1, mix.Base.Millilitres, 1e-12);
        Assert.Equal(0.25, mix.Hardener.Millilitres, 1e-12);
    }

    [Fact]
    public void Without_densities_nothing_is_weighed()
    {
        Assert.Null(Mixing.WeightRatio(new MixRatio(4, 1)));
        Assert.Null(Mixing.ByWeight(new MixRatio(4, 1), Ml(100)));
        Assert.Throws<OutsideValidityException>(() => Mixing.ByVolume(new MixRatio(4, 0), Ml(100)));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.1, 5)]
    [InlineData(5, 5)]
    [InlineData(5.0000001, 5)]
    [InlineData(76, 80)]
    public void Pots_are_mixed_in_steps_of_five_millilitres(double ml, double practical) =>
        Assert.Equal(practical, Mixing.RoundedUp(Ml(ml)).Millilitres, 1e-9);

    [Fact]
    public void Parts_by_volume_and_by_weight_belong_together() =>
        Gen.Double[1, 2000].Sample(ml =>
        {
            var weights = Mixing.ByWeight(FourToOne, Ml(ml))!.Value;
            return Math.Abs(weights.Hardener / weights.Base - Mixing.WeightRatio(FourToOne)!.Value) < 1e-9
                && Math.Abs(weights.Mixed.Grams / ml - 1.316) < 1e-9;
        }, seed: "0000000000002");
}

public class CoatingTests
{
    [Fact]   // scenario set: P-EP 40 ml per metre of joint
    public void Primer_by_the_metre() =>
        Assert.Equal(76, Coatings.Primer(PEP, Length.FromMetres(1.9), Area.Zero)!.Value.Millilitres, 1e-9);

    [Fact]   // C9 through a sheet with film facts
    public void Primer_by_film_build_where_the_sheet_states_it()
    {
        var sheet = PEP with { Coverage = null, Film = new FilmFacts(Length.FromMicrometres(60), 0.45, 0.40) };

        Assert.Equal(400, Coatings.Primer(sheet, Length.Zero, Area.FromSquareMetres(1.2))!.Value.Millilitres, 0.1);
        Assert.Equal(33.3, Coatings.Primer(sheet, Length.FromMetres(1), Area.Zero)!.Value.Millilitres, 0.1);
        Assert.Null(Coatings.Primer(PEP with { Coverage = null }, Length.FromMetres(1), Area.Zero));
    }

    [Fact]   // scenario set: AD-E 33 ml per metre, stone-chip 1.0 l per m², wax 60 ml a cavity
    public void Adhesive_stone_chip_and_wax_by_their_sheets()
    {
        var bond = new Bond { Id = new PlaceId("B1"), Name = "skin", Adhesive = ADE.Id, Length = Length.FromMetres(2), Metals = [Metal.Steel] };
        var box = new Cavity { Id = new PlaceId("C1"), Name = "box", Treatment = CavityTreatment.Wax };
        var wax = PEP with { Use = MaterialUse.CavityWax, Coverage = new Coverage.PerPlace(Ml(60)) };

        Assert.Equal(66, Coatings.Adhesive(ADE, bond)!.Value.Millilitres, 1e-9);
        Assert.Equal(500, Coatings.StoneChip(PEP with { Coverage = new Coverage.PerSquareMetre(Ml(1000)) }, Area.FromSquareMetres(0.5))!.Value.Millilitres, 1e-9);
        Assert.Equal(60, Coatings.Wax(wax, box)!.Value.Millilitres, 1e-9);
        Assert.Equal(90, Coatings.Wax(wax with { Coverage = new Coverage.PerMetre(Ml(180)) }, box with { Length = Length.FromMetres(0.5) })!.Value.Millilitres, 1e-9);
        Assert.Null(Coatings.Wax(wax with { Coverage = null }, box));
    }

    [Fact]
    public void Foam_is_the_cavity_divided_by_the_expansion_or_a_whole_pack()
    {
        var pillar = new Cavity { Id = new PlaceId("C1"), Name = "pillar", Treatment = CavityTreatment.FlexibleFoam, Volume = Volume.FromLitres(1.5) };

        Assert.Equal(150, Coatings.Foam(FFX with { Coverage = new Coverage.Expansion(10) }, pillar).Millilitres, 1e-9);
        Assert.Equal(200, Coatings.Foam(FFX, pillar with { Volume = null }).Millilitres, 1e-9);
        Assert.Throws<OutsideValidityException>(() => Coatings.Foam(FFX with { Coverage = new Coverage.Expansion(0.5) }, pillar));
    }
}
