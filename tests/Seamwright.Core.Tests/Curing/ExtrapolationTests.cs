using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class ExtrapolationTests
{
    private static readonly Instant Start = Local(2027, 1, 12, 9, 0);

    [Fact]
    public void Within_the_sheets_points_nothing_is_extrapolated() => Assert.False(Met(18, null).Any);

    [Fact]
    public void A_panel_colder_than_the_sheet_is_told()
    {
        var met = Met(8, null);

        Assert.True(met is { Colder: true, Warmer: false });
        Assert.Equal(8, met.Coldest.Celsius, 1e-9);
    }

    [Fact]
    public void A_lamp_hotter_than_the_sheet_is_told() =>
        Assert.True(Met(18, new(Start, Temperature.FromCelsius(60), Minutes(10), Minutes(30), Minutes(20))) is { Colder: false, Warmer: true });

    [Fact]
    public void Half_a_degree_is_still_at_the_point() => Assert.False(Met(9.6, null).Any);

    private static Extrapolation Met(double celsius, HeatProfile? heat)
    {
        var fit = (CureFitResult.Fitted)CureFit.TwoPart([Point(10, 150), Point(23, 60)], Temperature.FromCelsius(23), null, "sheet");
        var panel = heat is null ? Constant(celsius, 40) : PanelClimate.Heated(Constant(celsius, 40), heat);
        return Extrapolation.Between(fit.Evidence, panel, Start, Start + Duration.FromHours(2));
    }
}
