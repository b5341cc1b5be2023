using System.Globalization;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>
/// Moist-air formulas F1…F7 of docs/formulas.md. Humidity is over liquid water, also below 0 °C, as weather services report it;
/// only <see cref="SaturationPressureOverIce"/> and nothing else is over ice.
/// </summary>
public static class MoistAir
{
    /// <summary>Coldest temperature for which a saturation pressure over water is given. [°C]</summary>
    public const double ColdestCelsius = -80;

    /// <summary>Warmest temperature for which a saturation pressure over water is given. [°C]</summary>
    public const double WarmestCelsius = 200;

    private const string HylandWexler = "Hyland-Wexler over water (ASHRAE Fundamentals 2017, ch. 1, eq. 6)";
    private const string HylandWexlerIce = "Hyland-Wexler over ice (ASHRAE Fundamentals 2017, ch. 1, eq. 5)";
    private const string Magnus = "Magnus form (WMO-No. 8, annex 4.B)";

    /// <summary>Molar mass of water over that of dry air. [1; ASHRAE Fundamentals 2017]</summary>
    private const double WaterToDryAir = 0.621945;

    /// <summary>1/Rv with Rv the gas constant of water vapour. [g·K/J]</summary>
    private const double VapourConstant = 216.679;

    /// <summary>Saturation vapour pressure over liquid water (F1).</summary>
    /// <param name="air">Temperature. [−80…200 °C; the source vouches for 0…200 °C]</param>
    /// <returns>Pressure. [Pa]</returns>
    /// <exception cref="OutsideValidityException"><paramref name="air"/> is outside −80…200 °C or not a number.</exception>
    /// <remarks>
    /// Source: Hyland-Wexler, ASHRAE Fundamentals 2017, ch. 1, eq. 6. Below 0 °C the same formula is carried on over supercooled
    /// water; there it stays within 0.28 % of the Magnus form down to −30 °C and 0.51 % down to −45 °C (MoistAirTests). Accuracy: docs/formulas.md, F1.
    /// </remarks>
    public static Pressure SaturationPressure(Temperature air)
    {
        RequireWater(air);
        return Pressure.FromPascals(SaturationPascals(air.Kelvin));
    }

    /// <summary>Saturation vapour pressure over ice (F2), for frost; humidities in this program are over water.</summary>
    /// <param name="air">Temperature. [−100…0.01 °C]</param>
    /// <returns>Pressure. [Pa]</returns>
    /// <exception cref="OutsideValidityException"><paramref name="air"/> is outside −100…0.01 °C or not a number.</exception>
    /// <remarks>Source: Hyland-Wexler, ASHRAE Fundamentals 2017, ch. 1, eq. 5.</remarks>
    public static Pressure SaturationPressureOverIce(Temperature air)
    {
        if (air.Celsius is not (>= -100 and <= 0.01 + 1e-9))
            throw new OutsideValidityException(HylandWexlerIce, Text(air), "−100…0.01 °C");

        double t = air.Kelvin;
        double ln = -5674.5359 / t + 6.3925247
            + t * (-0.009677843 + t * (6.2215701e-7 + t * (2.0747825e-9 - 9.484024e-13 * t)))
            + 4.1635019 * Math.Log(t);
        return Pressure.FromPascals(Math.Exp(ln));
    }

    /// <summary>Saturation vapour pressure over liquid water by the Magnus form (F3), for comparison with instruments that use it.</summary>
    /// <param name="air">Temperature. [−45…60 °C]</param>
    /// <returns>Pressure. [Pa]</returns>
    /// <exception cref="OutsideValidityException"><paramref name="air"/> is outside −45…60 °C or not a number.</exception>
    /// <remarks>Source: WMO-No. 8, annex 4.B: 611.2·exp[17.62·t/(243.12 + t)]. Up to 0.29 % below F1 between 0 and 50 °C.</remarks>
    public static Pressure MagnusSaturationPressure(Temperature air)
    {
        double t = air.Celsius;
        if (t is not (>= -45 and <= 60))
            throw new OutsideValidityException(Magnus, Text(air), "−45…60 °C");

        return Pressure.FromPascals(611.2 * Math.Exp(17.62 * t / (243.12 + t)));
    }

    /// <summary>Vapour pressure of air: RH times saturation pressure.</summary>
    /// <param name="air">Temperature −80…200 °C, humidity 0…1.</param>
    /// <returns>Pressure. [Pa]</returns>
    /// <exception cref="OutsideValidityException">Temperature or humidity is outside its range or not a number.</exception>
    public static Pressure VapourPressure(AirState air)
    {
        RequireHumidity(air.Humidity);
        return SaturationPressure(air.Temperature) * air.Humidity.Fraction;
    }

    /// <summary>Dew point over liquid water: F1 inverted by Newton's method to better than 1e-9 K.</summary>
    /// <param name="air">Temperature −80…200 °C, humidity above 0 and at most 1.</param>
    /// <exception cref="OutsideValidityException">An input is outside its range, or the air is drier than a dew point of −80 °C.</exception>
    public static Temperature DewPoint(AirState air) => DewPoint(VapourPressure(air));

    /// <summary>Dew point over liquid water of a vapour pressure.</summary>
    /// <param name="vapour">Vapour pressure. [Pa; from saturation at −80 °C to saturation at 200 °C]</param>
    /// <exception cref="OutsideValidityException"><paramref name="vapour"/> is outside that range or not a number.</exception>
    public static Temperature DewPoint(Pressure vapour)
    {
        double pascals = vapour.Pascals;
        if (!(pascals >= DriestPascals && pascals <= SaturationPascals(WarmestCelsius + Temperature.ZeroCelsius)))
            throw new OutsideValidityException(HylandWexler, Text(pascals, "Pa"), "dew points of −80…200 °C");

        return Temperature.FromKelvin(DewPointKelvin(pascals));
    }

    /// <summary>Dew point by the Magnus form (F4), as weather stations compute it.</summary>
    /// <param name="air">Temperature −45…60 °C, humidity above 0 and at most 1.</param>
    /// <exception cref="OutsideValidityException">An input is outside its range or not a number.</exception>
    /// <remarks>Source: WMO-No. 8, annex 4.B. Within 0.044 K of the inverted F1 for 0…50 °C and dew points above 0 °C.</remarks>
    public static Temperature MagnusDewPoint(AirState air)
    {
        double t = air.Temperature.Celsius;
        double fraction = air.Humidity.Fraction;
        if (t is not (>= -45 and <= 60))
            throw new OutsideValidityException(Magnus, Text(air.Temperature), "−45…60 °C");
        if (fraction is not (> 0 and <= 1))
            throw new OutsideValidityException(Magnus, Text(air.Humidity), "above 0 to 100 % relative humidity");

        double g = Math.Log(fraction) + 17.62 * t / (243.12 + t);
        return Temperature.FromCelsius(243.12 * g / (17.62 - g));
    }

    /// <summary>Water vapour per volume (F5): 216.679·pv[hPa]/T. Ideal gas: 0.2 % low at 50 °C and 70 %.</summary>
    /// <param name="air">Temperature −80…200 °C, humidity 0…1.</param>
    /// <exception cref="OutsideValidityException">An input is outside its range or not a number.</exception>
    /// <remarks>Source: a sensor maker's humidity conversion formulas, constant 216.679 g·K/J.</remarks>
    public static AbsoluteHumidity AbsoluteHumidity(AirState air) =>
        Units.AbsoluteHumidity.FromGramsPerCubicMetre(VapourConstant * VapourPressure(air).Hectopascals / air.Temperature.Kelvin);

    /// <summary>Water vapour per dry air by mass (F6): 0.621945·pv/(P − pv).</summary>
    /// <param name="air">Temperature −80…200 °C, humidity 0…1.</param>
    /// <param name="pressure">Total pressure; null = one standard atmosphere.</param>
    /// <exception cref="OutsideValidityException">An input is outside its range, or the vapour pressure reaches the total pressure.</exception>
    public static HumidityRatio HumidityRatio(AirState air, Pressure? pressure = null) => HumidityRatio(VapourPressure(air), pressure);

    /// <summary>Water vapour per dry air by mass, from the vapour pressure (F6).</summary>
    /// <param name="vapour">Vapour pressure. [Pa, ≥ 0 and below the total pressure]</param>
    /// <param name="pressure">Total pressure; null = one standard atmosphere.</param>
    /// <exception cref="OutsideValidityException"><paramref name="vapour"/> is negative, not a number or not below the total pressure.</exception>
    /// <remarks>Source: ASHRAE Fundamentals 2017, ch. 1; no enhancement factor, hence up to 0.5 % below the tables.</remarks>
    public static HumidityRatio HumidityRatio(Pressure vapour, Pressure? pressure = null)
    {
        double total = (pressure ?? Pressure.StandardAtmosphere).Pascals;
        double pascals = vapour.Pascals;
        if (!(pascals >= 0 && pascals < total))
            throw new OutsideValidityException("Humidity ratio (ASHRAE Fundamentals 2017, ch. 1)", Text(pascals, "Pa"), "0 Pa to below the total pressure");

        return Units.HumidityRatio.FromGramsPerKilogram(1000 * WaterToDryAir * pascals / (total - pascals));
    }

    /// <summary>Relative humidity of air with a given vapour pressure; above 1 where the air would be supersaturated.</summary>
    /// <param name="vapour">Vapour pressure. [Pa, ≥ 0]</param>
    /// <param name="air">Temperature. [−80…200 °C]</param>
    /// <exception cref="OutsideValidityException"><paramref name="air"/> is outside its range or not a number.</exception>
    public static RelativeHumidity RelativeHumidity(Pressure vapour, Temperature air) =>
        Units.RelativeHumidity.FromFraction(vapour / SaturationPressure(air));

    /// <summary>
    /// Outdoor air brought indoors and warmed, with its vapour pressure kept (F7): well mixed, no source of water indoors. Held at 100 % where
    /// the indoor temperature is below the outdoor dew point (the surplus condenses).
    /// </summary>
    /// <param name="outdoors">Outdoor air: −80…200 °C, humidity 0…1 over water.</param>
    /// <param name="indoors">Indoor temperature. [−80…200 °C]</param>
    /// <exception cref="OutsideValidityException">An input is outside its range or not a number.</exception>
    public static AirState CarriedIndoors(AirState outdoors, Temperature indoors)
    {
        double fraction = RelativeHumidity(VapourPressure(outdoors), indoors).Fraction;
        return new AirState(indoors, Units.RelativeHumidity.FromFraction(Math.Min(1, fraction)));
    }

    /// <summary>Saturation pressure at the driest dew point that is computed. [Pa]</summary>
    internal static double DriestPascals { get; } = SaturationPascals(ColdestCelsius + Temperature.ZeroCelsius);

    /// <summary>F1 without checks, for the integrators. [K → Pa]</summary>
    internal static double SaturationPascals(double kelvin) => Math.Exp(LogSaturation(kelvin));

    /// <summary>Dew point without checks, for the integrators. [Pa → K; at least the dew point of −80 °C]</summary>
    internal static double DewPointKelvin(double pascals)
    {
        double wanted = Math.Log(Math.Max(pascals, DriestPascals));

        // The Magnus form inverted is a start within 2 K everywhere in range; Newton on ln p then doubles the digits each round.
        double g = wanted - Math.Log(611.2);
        double kelvin = 243.12 * g / (17.62 - g) + Temperature.ZeroCelsius;
        for (int round = 0; round < 8; round++)
        {
            double step = (LogSaturation(kelvin) - wanted) / LogSaturationSlope(kelvin);
            kelvin -= step;
            if (Math.Abs(step) < 1e-10)
                break;
        }

        return kelvin;
    }

    /// <summary>Throws unless a saturation pressure over water is given at the temperature.</summary>
    internal static void RequireWater(Temperature air)
    {
        // Written so that a number that is not a number fails too; the tiny allowance is for values converted from °C.
        if (air.Celsius is not (>= ColdestCelsius - 1e-9 and <= WarmestCelsius + 1e-9))
            throw new OutsideValidityException(HylandWexler, Text(air), "−80…200 °C");
    }

    private static void RequireHumidity(RelativeHumidity humidity)
    {
        if (humidity.Fraction is not (>= 0 and <= 1 + 1e-9))
            throw new OutsideValidityException("Relative humidity", Text(humidity), "0…100 %");
    }

    private static double LogSaturation(double t) =>
        -5800.2206 / t + 1.3914993 + t * (-0.048640239 + t * (4.1764768e-5 - 1.4452093e-8 * t)) + 6.5459673 * Math.Log(t);

    private static double LogSaturationSlope(double t) =>
        5800.2206 / (t * t) - 0.048640239 + t * (2 * 4.1764768e-5 - 3 * 1.4452093e-8 * t) + 6.5459673 / t;

    private static string Text(Temperature air) => Text(air.Celsius, "°C");

    private static string Text(RelativeHumidity humidity) => Text(humidity.Percent, "%");

    private static string Text(double value, string unit) => value.ToString("0.###", CultureInfo.InvariantCulture) + " " + unit;
}
