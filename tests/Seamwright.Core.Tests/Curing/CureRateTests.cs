using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Published;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class CureRateTests
{
    public static IEnumerable<TheoryDataRow<PublishedRow>> Arrhenius => PublishedTable.Cases("arrhenius.csv");

    public static IEnumerable<TheoryDataRow<PublishedRow>> MoistureRows => PublishedTable.Cases("moisture-cure.csv");

    [Theory, MemberData(nameof(Arrhenius), DisableDiscoveryEnumeration = true)]
    public void Two_part_rate_agrees_with_K1_to_K4_and_Q4_to_Q7(PublishedRow row)
    {
        var law = TwoPart(row.Number("energy_kj_per_mol"), row.Number("reference_celsius"));

        double rate = CureRate.Rate(law, AirOf(row.Number("temperature_celsius"), 50));

        Assert.Equal(row.Number("expected_rate"), rate, row.Number("tolerance"));
    }

    [Theory]   // doubling over ten kelvins as an activation energy
    [InlineData("Q1", 18, 28, 50.53)]
    [InlineData("Q2", 25, 35, 52.95)]
    [InlineData("Q3", 10, 20, 47.84)]
    public void Doubling_over_ten_kelvins_is_the_energy_of_Q1_to_Q3(string row, double cold, double warm, double expected)
    {
        var fit = (CureFitResult.Fitted)CureFit.TwoPart([Point(cold, 120), Point(warm, 60)], Temperature.FromCelsius(23), null, row);

        Assert.Equal(expected, fit.Energy.KilojoulesPerMole, 0.01);
    }

    [Theory, MemberData(nameof(MoistureRows), DisableDiscoveryEnumeration = true)]
    public void Moisture_cure_agrees_with_M1_to_M7(PublishedRow row)
    {
        var air = AirOf(row.Number("temperature_celsius"), row.Number("humidity_percent"));
        var depth = new DepthCure(Length.FromMillimetres(3), Moisture(0));

        double rate = CureRate.Rate(depth.Law, air);
        double hours = depth.Needed(Length.FromMillimetres(3)).Hours / rate;
        double afterOneDay = depth.Depth(ReferenceTime.FromHours(24 * rate)).Millimetres;

        Assert.Equal(row.Number("rate"), rate, 0.0005);
        Assert.Equal(row.Number("hours_to_3_mm"), hours, row.Number("hours_to_3_mm") * 0.005);
        Assert.Equal(row.Number("depth_after_24_h_mm"), afterOneDay, 0.005);
        Assert.Equal(row.Number("rate_ep_20"), CureRate.Rate(Moisture(20), air), 0.0005);
    }

    [Theory, MemberData(nameof(BeadDepths), DisableDiscoveryEnumeration = true)]
    public void Bead_depth_agrees_with_M8_to_M12(PublishedRow row)
    {
        var depth = Length.FromMillimetres(row.Number("depth_mm"));

        double slow = new DepthCure(Length.FromMillimetres(2), Moisture(0)).Needed(depth).Hours;
        double fast = new DepthCure(Length.FromMillimetres(3), Moisture(0)).Needed(depth).Hours;

        Assert.Equal(row.Number("hours_3_mm_sheet"), fast, row.Number("hours_3_mm_sheet") * 0.005);
        Assert.Equal(row.Number("hours_2_mm_sheet"), slow, row.Number("hours_2_mm_sheet") * 0.005);
    }

    public static IEnumerable<TheoryDataRow<PublishedRow>> BeadDepths => PublishedTable.Cases("bead-depth.csv");

    [Fact]   // 3 mm in 24 h at 1405.2 Pa: 2VP = z²/(p·t), 7.413e-14 m²/(Pa·s) within 0.1 %
    public void The_diffusion_law_behind_the_depth_is_that_of_M13()
    {
        var bead = new DepthCure(Length.FromMillimetres(3), Moisture(0));
        double depth = bead.Depth(ReferenceTime.FromHours(24)).Metres;

        double twoVp = depth * depth / (MoistAir.VapourPressure(AirState.Standard).Pascals * 24 * 3600);

        Assert.Equal(7.413e-14, twoVp, 7.413e-14 * 0.001);
    }

    [Fact]   // a lamp from 20 to 60 °C in air of 20 °C and 40 %
    public void A_lamp_helps_two_part_much_and_moisture_cure_only_by_its_permeability_as_M14_says()
    {
        var room = AirOf(20, 40);
        double Gain(CureLaw law) =>
            CureRate.Rate(law, Temperature.FromCelsius(60), MoistAir.VapourPressure(room), room.Humidity) / CureRate.Rate(law, room);

        Assert.Equal(1.000, Gain(Moisture(0)), 0.0005);
        Assert.Equal(2.68, Gain(Moisture(20)), 0.005);
        Assert.Equal(11.7, Gain(TwoPart(50)), 0.05);
    }

    [Theory]   // ratios of the handbook, 3.6: two decimals
    [InlineData(20, 65, 1.08)]
    [InlineData(20, 35, 0.58)]
    [InlineData(20, 20, 0.33)]
    [InlineData(18, 35, 0.51)]
    [InlineData(15, 40, 0.49)]
    [InlineData(12, 45, 0.45)]
    [InlineData(10, 60, 0.52)]
    [InlineData(5, 80, 0.50)]
    [InlineData(25, 60, 1.35)]
    [InlineData(28, 65, 1.75)]
    [InlineData(30, 70, 2.12)]
    public void Vapour_ratio_agrees_with_the_handbook(double celsius, double percent, double expected) =>
        Assert.Equal(expected, CureRate.Rate(Moisture(0), AirOf(celsius, percent)), 0.0051);

    [Theory]   // grams of water per kilogram of air, handbook 3.6: one decimal
    [InlineData(20, 65, 9.5)]
    [InlineData(20, 20, 2.9)]
    [InlineData(15, 40, 4.2)]
    [InlineData(5, 80, 4.3)]
    [InlineData(30, 70, 18.8)]
    [InlineData(20, 28, 4.0)]     // scenario 1
    [InlineData(17, 42, 5.0)]     // scenario 2
    public void Water_content_agrees_with_the_handbook(double celsius, double percent, double expected) =>
        Assert.Equal(expected, MoistAir.HumidityRatio(AirOf(celsius, percent)).GramsPerKilogram, 0.06);

    [Fact]
    public void Water_borne_drying_stands_still_in_saturated_air()
    {
        var law = new CureLaw.Drying(MolarEnergy.FromKilojoulesPerMole(30), AirState.Standard, true);

        Assert.Equal(1, CureRate.Rate(law, AirState.Standard), 1e-12);
        Assert.Equal(0.4, CureRate.Rate(law, AirOf(23, 80)), 1e-12);
        Assert.Equal(0, CureRate.Rate(law, AirOf(23, 100)), 1e-12);
    }

    [Fact]   // stone-chip coating of the scenarios: cured after 24 h at 15.6 °C, 30 min at 38 °C
    public void A_stepped_law_does_nothing_below_its_first_step()
    {
        var law = Stepped((15.6, 1), (38, 48));

        Assert.Equal(0, CureRate.Rate(law, AirOf(15.5, 50)));
        Assert.Equal(1, CureRate.Rate(law, AirOf(15.6, 50)));
        Assert.Equal(1, CureRate.Rate(law, AirOf(37.9, 50)));
        Assert.Equal(48, CureRate.Rate(law, AirOf(38, 50)));
    }

    [Fact]
    public void The_clock_runs_in_any_air() => Assert.Equal(1, CureRate.Rate(new CureLaw.Clock(), AirOf(-10, 90)));

    [Fact]
    public void Laws_with_impossible_parameters_are_refused()
    {
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(TwoPart(-1), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(TwoPart(double.NaN), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(new CureLaw.TwoPart(MolarEnergy.Zero, default), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(new CureLaw.Moisture(MolarEnergy.Zero, AirOf(23, 0)), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(new CureLaw.Drying(MolarEnergy.Zero, AirOf(23, 100), true), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(Stepped((20, 1), (15, 2)), AirState.Standard));
        Assert.Throws<OutsideValidityException>(() => CureRate.Rate(Stepped((20, 2), (25, 1)), AirState.Standard));
    }

    private static CureLaw.Stepped Stepped(params (double Celsius, double Rate)[] steps) =>
        new(ImmutableArray.CreateRange(steps.Select(step => new RateStep(Temperature.FromCelsius(step.Celsius), step.Rate))));
}
