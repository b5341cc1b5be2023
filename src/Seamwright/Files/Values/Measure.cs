using System.Collections.Immutable;

namespace Seamwright.Files.Values;

/// <summary>A unit as files write it.</summary>
/// <param name="Spellings">Accepted spellings; the first is the one shown.</param>
/// <param name="Factor">Inner units per this unit.</param>
/// <param name="Offset">Inner value of zero of this unit.</param>
internal sealed record Unit(ImmutableArray<string> Spellings, double Factor, double Offset = 0);

/// <summary>A physical dimension and the units in which files may state it.</summary>
/// <param name="Name">In words, for example <c>a length</c>.</param>
/// <param name="Units">Units.</param>
internal sealed record Dimension(string Name, ImmutableArray<Unit> Units)
{
    /// <summary>Units as shown in messages and documents.</summary>
    public string Shown { get; } = Words.OneOf(Units.Select(unit => unit.Spellings[0]));

    /// <summary>The unit of a spelling, or null.</summary>
    public Unit? Find(string spelling)
    {
        foreach (var unit in Units)
        {
            if (unit.Spellings.Contains(spelling))
                return unit;
        }

        return null;
    }
}

/// <summary>A dimension with the range that makes sense for one key.</summary>
/// <param name="Dimension">Dimension.</param>
/// <param name="Least">Least value in inner units.</param>
/// <param name="Most">Greatest value in inner units.</param>
/// <param name="LeastShown">Least value as shown.</param>
/// <param name="MostShown">Greatest value as shown.</param>
/// <param name="AboveLeast">True where the least value itself is out of range.</param>
internal sealed record Measure(
    Dimension Dimension, double Least, double Most, string LeastShown, string MostShown, bool AboveLeast = false)
{
    public bool Contains(double value) => (AboveLeast ? value > Least : value >= Least) && value <= Most;

    /// <summary>The range in words.</summary>
    public string Range => AboveLeast ? $"above {LeastShown} up to {MostShown}" : $"{LeastShown} to {MostShown}";
}

/// <summary>The dimensions of the files.</summary>
internal static class Dimensions
{
    /// <summary>Inner unit: m.</summary>
    public static Dimension Length { get; } = new("a length",
    [
        Unit(1e-3, "mm"), Unit(1e-2, "cm"), Unit(1, "m"), Unit(0.0254, "in", "\"", "inch", "inches"), Unit(0.3048, "ft", "'", "foot", "feet"),
        Unit(1e-6, "µm", "μm", "um"), Unit(2.54e-5, "mil", "mils"),
    ]);

    /// <summary>Inner unit: m³.</summary>
    public static Dimension Volume { get; } = new("a volume",
    [
        Unit(1e-6, "ml", "mL", "cc", "cm³", "cm3"), Unit(1e-5, "cl"), Unit(1e-3, "l", "L"),
        Unit(29.5735295625e-6, "fl oz", "fl. oz", "fl.oz", "floz"), Unit(3.785411784e-3, "gal"),
    ]);

    /// <summary>Inner unit: m².</summary>
    public static Dimension Area { get; } = new("an area",
    [
        Unit(1, "m²", "m2", "m^2"), Unit(1e-4, "cm²", "cm2", "cm^2"), Unit(0.09290304, "ft²", "ft2", "ft^2", "sq ft"),
        Unit(0.00064516, "in²", "in2", "in^2", "sq in"),
    ]);

    /// <summary>Inner unit: K.</summary>
    public static Dimension Temperature { get; } = new("a temperature",
    [
        new(["°C", "ºC", "℃", "C", "degC"], 1, 273.15), new(["°F", "ºF", "℉", "F", "degF"], 5.0 / 9, 273.15 - 32 * 5.0 / 9), Unit(1, "K"),
    ]);

    /// <summary>Inner unit: K.</summary>
    public static Dimension TemperatureDifference { get; } = new("a temperature difference",
    [
        Unit(1, "K", "°C", "ºC", "℃", "C"), Unit(5.0 / 9, "°F", "ºF", "℉", "F"),
    ]);

    /// <summary>Inner unit: fraction.</summary>
    public static Dimension Percent { get; } = new("a percentage", [Unit(0.01, "%")]);

    /// <summary>Inner unit: s.</summary>
    public static Dimension Time { get; } = new("a length of time",
    [
        Unit(1, "s"), Unit(60, "min"), Unit(3600, "h"), Unit(86400, "d"), Unit(7 * 86400, "weeks", "week"),
    ]);

    /// <summary>Inner unit: °.</summary>
    public static Dimension Angle { get; } = new("an angle", [Unit(1, "°", "º", "deg")]);

    /// <summary>Inner unit: J/mol.</summary>
    public static Dimension MolarEnergy { get; } = new("an activation energy", [Unit(1e3, "kJ/mol"), Unit(4184, "kcal/mol")]);

    /// <summary>Inner unit: kg/kg.</summary>
    public static Dimension HumidityRatio { get; } = new("a water content of the air", [Unit(1e-3, "g/kg"), Unit(1.0 / 7000, "gr/lb")]);

    /// <summary>Inner unit: kg/m³.</summary>
    public static Dimension Density { get; } = new("a density", [Unit(1e3, "g/ml", "g/mL", "g/cm³", "g/cm3", "kg/l"), Unit(1, "kg/m³", "kg/m3")]);

    /// <summary>All of them, to tell what a unit out of place belongs to.</summary>
    public static ImmutableArray<Dimension> All { get; } =
        [Length, Volume, Area, Temperature, Percent, Time, Angle, MolarEnergy, HumidityRatio, Density];

    private static Unit Unit(double factor, params string[] spellings) => new([.. spellings], factor);
}

/// <summary>What a key may be, with its range.</summary>
internal static class Measures
{
    public static Measure SeamLength { get; } = new(Dimensions.Length, 0, 100, "0 m", "100 m", AboveLeast: true);

    public static Measure BeadSize { get; } = new(Dimensions.Length, 0, 0.3, "0 mm", "300 mm", AboveLeast: true);

    public static Measure Gap { get; } = new(Dimensions.Length, 0, 1, "0 mm", "1 m");

    public static Measure StripLength { get; } = new(Dimensions.Length, 0, 1000, "0 m", "1000 m");

    public static Measure Radius { get; } = new(Dimensions.Length, 0, 100, "0 mm", "100 m", AboveLeast: true);

    public static Measure FilmThickness { get; } = new(Dimensions.Length, 0, 0.01, "0 µm", "10 mm", AboveLeast: true);

    public static Measure Volume { get; } = new(Dimensions.Volume, 0, 1, "0 ml", "1000 l");

    public static Measure SomeVolume { get; } = new(Dimensions.Volume, 0, 1, "0 ml", "1000 l", AboveLeast: true);

    public static Measure Area { get; } = new(Dimensions.Area, 0, 1000, "0 m²", "1000 m²", AboveLeast: true);

    public static Measure AirTemperature { get; } = new(Dimensions.Temperature, 273.15 - 45, 273.15 + 60, "-45 °C", "60 °C");

    public static Measure PanelTemperature { get; } = new(Dimensions.Temperature, 273.15 - 45, 273.15 + 200, "-45 °C", "200 °C");

    public static Measure Humidity { get; } = new(Dimensions.Percent, 0, 1, "0 %", "100 %");

    public static Measure Share { get; } = new(Dimensions.Percent, 0, 1, "0 %", "100 %");

    public static Measure SomeShare { get; } = new(Dimensions.Percent, 0, 1, "0 %", "100 %", AboveLeast: true);

    public static Measure Duration { get; } = new(Dimensions.Time, 0, 3660 * 86400d, "0 min", "3660 d");

    public static Measure SomeDuration { get; } = new(Dimensions.Time, 0, 3660 * 86400d, "0 min", "3660 d", AboveLeast: true);

    public static Measure Work { get; } = new(Dimensions.Time, 0, 30 * 86400d, "0 min", "30 d");

    public static Measure Tilt { get; } = new(Dimensions.Angle, 0, 90, "0°", "90°");

    public static Measure Energy { get; } = new(Dimensions.MolarEnergy, 0, 300e3, "0 kJ/mol", "300 kJ/mol");

    public static Measure Water { get; } = new(Dimensions.HumidityRatio, 0, 0.1, "0 g/kg", "100 g/kg");

    public static Measure Margin { get; } = new(Dimensions.TemperatureDifference, 0, 50, "0 K", "50 K");

    public static Measure Density { get; } = new(Dimensions.Density, 100, 20e3, "0.1 g/ml", "20 g/ml");
}
