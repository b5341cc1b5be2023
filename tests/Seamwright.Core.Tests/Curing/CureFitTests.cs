using System.Globalization;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Published;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class CureFitTests
{
    private static readonly Temperature Reference = Temperature.FromCelsius(23);

    public static IEnumerable<TheoryDataRow<PublishedRow>> Energies => PublishedTable.Cases("sheet-energies.csv");

    [Theory, MemberData(nameof(Energies), DisableDiscoveryEnumeration = true)]
    public void Fitted_energies_agree_with_the_handbook(PublishedRow row)
    {
        var points = row["points"].Split(" · ").Select(text =>
        {
            string[] parts = text.Split(" °C ");
            return Point(double.Parse(parts[0], CultureInfo.InvariantCulture), double.Parse(parts[1], CultureInfo.InvariantCulture));
        });

        var fit = Assert.IsType<CureFitResult.Fitted>(CureFit.TwoPart(points, Reference, null, row["source"]));

        Assert.Equal(row.Number("expected_kj_per_mol"), fit.Energy.KilojoulesPerMole, row.Number("tolerance_kj_per_mol"));
        Assert.False(fit.Evidence.EnergyIsDefault);
    }

    [Fact]
    public void Two_points_are_met_exactly()
    {
        var fit = Fitted(CureFit.TwoPart([Point(23, 60), Point(10, 150)], Reference, null, "sheet"));

        Assert.Equal(1, fit.Needed.Hours, 1e-12);
        Assert.Equal(2.5, 1 / CureRate.Rate(fit.Law, AirOf(10, 50)), 1e-9);
        Assert.Equal(0, fit.Evidence.WorstResidual);
        Assert.Equal(0, fit.RmsResidual);
        Assert.Equal(2, fit.Count);
        Assert.Equal(10, fit.Evidence.Coldest.Celsius, 1e-9);
        Assert.Equal(23, fit.Evidence.Warmest.Celsius, 1e-9);
    }

    [Fact]
    public void Points_made_from_a_law_give_the_law_back()
    {
        var law = TwoPart(52.3);
        var points = new[] { 5.0, 12, 20, 31, 60 }.Select(t => Point(t, 90 / CureRate.Rate(law, AirOf(t, 50))));

        var fit = Fitted(CureFit.TwoPart(points, Reference, null, "sheet"));

        Assert.Equal(52.3, fit.Energy.KilojoulesPerMole, 1e-6);
        Assert.Equal(90, fit.Needed.Minutes, 1e-6);
    }

    [Fact]
    public void A_single_point_takes_the_default_and_says_so()
    {
        var fit = Fitted(CureFit.TwoPart([Point(20, 90)], Reference, CureDefaults.EpoxyReaction.Energy, "sheet"));

        Assert.True(fit.Evidence.EnergyIsDefault);
        Assert.Equal(55, fit.Energy.KilojoulesPerMole, 1e-12);
        Assert.Equal(90, fit.Needed.Minutes / CureRate.Rate(fit.Law, AirOf(20, 50)), 1e-9);
    }

    [Fact]
    public void Points_at_one_temperature_are_averaged_and_their_spread_is_the_residual()
    {
        var fit = Fitted(CureFit.TwoPart([Point(23, 60), Point(23, 80)], Reference, CureDefaults.EpoxyReaction.Energy, "sheet"));

        Assert.True(fit.Evidence.EnergyIsDefault);
        Assert.Equal(Math.Sqrt(60.0 * 80), fit.Needed.Minutes, 1e-9);
        Assert.InRange(fit.Evidence.WorstResidual, 0.13, 0.16);
    }

    [Fact]
    public void Acrylic_with_one_temperature_is_not_guessed() =>
        Assert.Equal(
            CureFitProblemKind.NoEnergyKnown, Problem(CureFit.TwoPart([Point(23, 10)], Reference, CureDefaults.AcrylicReaction.Energy, "sheet")).Kind);

    [Fact]
    public void Longer_times_in_the_heat_are_a_problem_that_names_the_energy()
    {
        var problem = Problem(CureFit.TwoPart([Point(10, 60), Point(23, 90)], Reference, null, "sheet"));

        Assert.Equal(CureFitProblemKind.EnergyNegative, problem.Kind);
        Assert.True(problem.FittedEnergy!.Value.KilojoulesPerMole < 0);
        Assert.InRange(problem.WorstResidual, 0.2, 0.3);
    }

    [Fact]
    public void Hours_taken_for_minutes_are_a_problem() =>
        Assert.Equal(CureFitProblemKind.EnergyTooHigh, Problem(CureFit.TwoPart([Point(15, 6000), Point(23, 2)], Reference, null, "sheet")).Kind);

    [Fact]
    public void Impossible_rows_are_named_by_their_place()
    {
        Assert.Equal(new(CureFitProblemKind.NoPoints), Problem(CureFit.TwoPart([], Reference, null, "sheet")));
        Assert.Equal(new(CureFitProblemKind.TimeNotPositive, 1), Problem(CureFit.TwoPart([Point(23, 9), Point(30, 0)], Reference, null, "sheet")));
        Assert.Equal(new(CureFitProblemKind.ClimateOutOfRange, 0), Problem(CureFit.TwoPart([Point(-300, 9)], Reference, null, "sheet")));
        Assert.Equal(new(CureFitProblemKind.ClimateOutOfRange, 0), Problem(CureFit.Moisture([Point(23, 9, 0)], AirState.Standard, MolarEnergy.Zero, "sheet")));
        Assert.Equal(new(CureFitProblemKind.ClimateOutOfRange, 0), Problem(CureFit.Drying([Point(23, 9, 100)], AirState.Standard, true, MolarEnergy.Zero, "sheet")));
    }

    [Fact]
    public void Moisture_points_that_keep_to_the_vapour_law_need_no_energy()
    {
        var points = new[] { (23.0, 50.0), (20, 30), (5, 80), (35, 70) }
            .Select(air => Point(air.Item1, 240 / CureRate.Rate(Moisture(0), AirOf(air.Item1, air.Item2)), air.Item2));

        var fit = Fitted(CureFit.Moisture(points, AirState.Standard, MolarEnergy.Zero, "sheet"));

        Assert.Equal(0, fit.Energy.KilojoulesPerMole, 1e-6);
        Assert.Equal(240, fit.Needed.Minutes, 1e-6);
        Assert.False(fit.Evidence.EnergyIsDefault);
    }

    [Fact]
    public void Humidity_alone_checks_the_vapour_law_but_fits_no_energy()
    {
        var fit = Fitted(CureFit.Moisture([Point(23, 60, 50), Point(23, 110, 25)], AirState.Standard, MolarEnergy.Zero, "sheet"));

        Assert.True(fit.Evidence.EnergyIsDefault);
        Assert.InRange(fit.Evidence.WorstResidual, 0.03, 0.06);
    }

    [Fact]
    public void Water_borne_points_are_brought_to_the_reference_humidity()
    {
        var law = Film(28, waterborne: true);
        var points = new[] { (23.0, 50.0), (20, 70), (35, 30) }.Select(air => Point(air.Item1, 60 / CureRate.Rate(law, AirOf(air.Item1, air.Item2)), air.Item2));

        var fit = Fitted(CureFit.Drying(points, AirState.Standard, true, null, "sheet"));

        Assert.Equal(28, fit.Energy.KilojoulesPerMole, 1e-6);
        Assert.Equal(60, fit.Needed.Minutes, 1e-6);
    }

    [Fact]
    public void Every_default_says_where_it_comes_from()
    {
        CureDefault[] all =
        [
            CureDefaults.FilmDrying, CureDefaults.EpoxyReaction, CureDefaults.PolyurethaneReaction, CureDefaults.AcrylicReaction,
            CureDefaults.MoisturePermeability,
        ];

        Assert.Equal([30, 55, 50, null, 0.0], all.Select(entry => entry.Energy?.KilojoulesPerMole));
        Assert.All(all, entry => Assert.NotEmpty(entry.Source));
    }

    private static CureFitResult.Fitted Fitted(CureFitResult result) => Assert.IsType<CureFitResult.Fitted>(result);

    private static CureFitProblem Problem(CureFitResult result) => Assert.IsType<CureFitResult.Refused>(result).Problem;
}
