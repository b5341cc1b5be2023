using Seamwright.Units;
using Xunit;

namespace Seamwright.UnitTests;

public class TemperatureTests
{
    [Fact]
    public void Sixty_degrees_Fahrenheit_is_15_6_Celsius()
    {
        Assert.Equal(15.56, Temperature.FromFahrenheit(60).Celsius, 0.005);
        Assert.Equal(60, Temperature.FromFahrenheit(60).Fahrenheit, 1e-9);
    }

    [Fact]
    public void Five_Fahrenheit_degrees_of_margin_are_2_8_kelvins() =>   // the customary margin on US charts
        Assert.Equal(5, TemperatureDifference.FromKelvins(2.7778).FahrenheitDegrees, 1e-3);

    [Fact]
    public void A_forgotten_temperature_is_absolute_zero() => Assert.Equal(0, default(Temperature).Kelvin);

    [Fact]
    public void Adding_a_difference_and_taking_it_away_gives_the_temperature_back()
    {
        var t = Temperature.FromCelsius(21.3);
        var d = TemperatureDifference.FromKelvins(7.7);

        Assert.Equal(t.Kelvin, (t + d - d).Kelvin, 1e-12);
        Assert.Equal(7.7, (t + d - t).Kelvins, 1e-12);
        Assert.Equal(t + d, Temperature.Max(t, t + d));
        Assert.Equal(t, Temperature.Min(t, t + d));
    }

    [Fact]
    public void A_fluid_ounce_is_29_5735_millilitres() => Assert.Equal(29.5735, Volume.FromFluidOunces(1).Millilitres, 1e-4);

    [Fact]
    public void A_mil_is_25_4_micrometres() => Assert.Equal(1, Length.FromMicrometres(25.4).Mils, 1e-12);
}
