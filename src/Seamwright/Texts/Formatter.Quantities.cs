using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Program.Texts;

public sealed partial class Formatter
{
    // Below this a length is a film, told in µm or mil; thinnest beads and strips are well above.
    private const double FilmBelowMillimetres = 0.25;

    private bool Us => Notation.Units == UnitSystem.UsCustomary;

    /// <summary>A number with at most some decimals, trailing zeros dropped, halves away from zero.</summary>
    public string Number(double value, int decimals)
    {
        // decimal rounds what is written, not the nearest binary fraction: 0.285 becomes 0.29.
        if (!double.IsFinite(value) || Math.Abs(value) > 1e15)
            return value.ToString(Notation.Culture);
        decimal rounded = decimal.Round((decimal)value, decimals, MidpointRounding.AwayFromZero);
        string text = Math.Abs(rounded).ToString(decimals switch { 0 => "0", 1 => "0.#", 2 => "0.##", _ => "0.###" }, Notation.Culture);
        return rounded < 0 ? "−" + text : text;
    }

    /// <summary>A sum with two decimals, halves away from zero.</summary>
    /// <param name="money">The sum.</param>
    /// <param name="format"><c>signed</c>, <c>currency</c> or empty.</param>
    public string Text(Money money, string format = "")
    {
        decimal rounded = money.Rounded.Amount;
        string sign = rounded < 0 ? "−" : format == "signed" ? "+" : "";
        string text = sign + Math.Abs(rounded).ToString("0.00", Notation.Culture);
        return format == "currency" && money.Currency is { Length: > 0 } currency ? $"{text} {currency}" : text;
    }

    private string Quantity(object fact) => fact switch
    {
        Temperature t => Us ? $"{Number(t.Fahrenheit, 1)} °F" : $"{Number(t.Celsius, 1)} °C",
        TemperatureDifference d => Us ? $"{Number(d.FahrenheitDegrees, 1)} °F" : $"{Number(d.Kelvins, 1)} K",
        RelativeHumidity h => $"{Number(h.Percent, h.Percent < 10 ? 1 : 0)} %",
        HumidityRatio w => Us ? $"{Number(w.GramsPerKilogram * 7, 1)} gr/lb" : $"{Number(w.GramsPerKilogram, 1)} g/kg",
        AbsoluteHumidity a => Us ? $"{Number(a.GramsPerCubicMetre * 0.436996, 2)} gr/ft³" : $"{Number(a.GramsPerCubicMetre, 1)} g/m³",
        Pressure p => Us ? $"{Number(p.Pascals / 3386.389, 3)} inHg" : $"{Number(p.Pascals, 0)} Pa",
        Length l => Text(l),
        Area a => Text(a),
        Volume v => Text(v),
        Mass m => Text(m),
        Density d => $"{Number(d.GramsPerMillilitre, 2)} g/ml",
        Angle a => $"{Number(a.Degrees, 1)}°",
        MolarEnergy e => $"{Number(e.KilojoulesPerMole, 1)} kJ/mol",
        AirState air => $"{Quantity(air.Temperature)} / {Quantity(air.Humidity)}",
        Look look => Text(look),
        Coverage coverage => Text(coverage),
        _ => throw new ArgumentOutOfRangeException(nameof(fact), fact.GetType().Name, "Not a quantity."),
    };

    /// <summary>A factory look: <c>sprayed 40 × 1 mm</c>.</summary>
    public string Text(Look look)
    {
        string kind = Word(look.Profile);
        if (look.Profile == Profile.None || look.Width == Length.Zero)
            return kind;
        return look.Height == Length.Zero
            ? $"{kind} {Text(look.Width)}"
            : Us ? $"{kind} {Inches(look.Width.Inches)} × {Inches(look.Height.Inches)} in"
            : $"{kind} {Number(look.Width.Millimetres, 1)} × {Number(look.Height.Millimetres, 1)} mm";
    }

    /// <summary>A length: µm for films, mm below one metre; mil, inches below one foot.</summary>
    public string Text(Length length)
    {
        double mm = Math.Abs(length.Millimetres);
        if (mm is > 0 and < FilmBelowMillimetres)
            return Us ? $"{Number(length.Mils, 1)} mil" : $"{Number(length.Micrometres, 0)} µm";
        if (Us)
            return Math.Abs(length.Inches) < 12 ? $"{Inches(length.Inches)} in" : $"{Number(length.Feet, 1)} ft";
        return mm < 999.5 ? $"{Number(length.Millimetres, mm < 100 ? 1 : 0)} mm" : $"{Number(length.Metres, 2)} m";
    }

    private string Text(Area area)
    {
        bool section = area.SquareMetres < 0.01;
        if (Us)
            return section ? $"{Number(area.SquareMillimetres / 645.16, 2)} in²" : $"{Number(area.SquareFeet, 1)} ft²";
        return section ? $"{Number(area.SquareMillimetres, 1)} mm²" : $"{Number(area.SquareMetres, 2)} m²";
    }

    /// <summary>A volume: ml below one litre; US fluid ounces.</summary>
    public string Text(Volume volume)
    {
        if (Us)
            return $"{Number(volume.FluidOunces, 1)} fl oz";
        double ml = volume.Millilitres;
        return Math.Abs(ml) < 999.5 ? $"{Number(ml, Math.Abs(ml) < 10 ? 1 : 0)} ml" : $"{Number(volume.Litres, 2)} l";
    }

    private string Text(Mass mass)
    {
        double g = mass.Grams;
        if (Us)
            return $"{Number(g / 28.349523125, 2)} oz";
        return Math.Abs(g) < 999.5 ? $"{Number(g, Math.Abs(g) < 100 ? 1 : 0)} g" : $"{Number(mass.Kilograms, 2)} kg";
    }

    private string Text(Coverage coverage) => coverage switch
    {
        Coverage.PerMetre amount => $"{Text(amount.Amount)}/m",
        Coverage.PerSquareMetre amount => $"{Text(amount.Amount)}/m²",
        Coverage.PerPlace amount => Text(amount.Amount),
        Coverage.Expansion foam => $"× {Number(foam.Factor, 1)}",
        _ => throw new ArgumentOutOfRangeException(nameof(coverage), coverage.GetType().Name, "Not a coverage."),
    };

    // A sixteenth where it says the same within 1 %, as on a rule; decimals otherwise.
    private string Inches(double inches)
    {
        double sixteenths = Math.Round(inches * 16);
        if (sixteenths >= 1 && Math.Abs(sixteenths / 16 - inches) <= 0.01 * inches)
        {
            (int whole, int part) = Math.DivRem((int)sixteenths, 16);
            int below = 16;
            while (part > 0 && part % 2 == 0)
                (part, below) = (part / 2, below / 2);
            string fraction = $"{Number(part, 0)}/{Number(below, 0)}";
            return part == 0 ? Number(whole, 0) : whole == 0 ? fraction : $"{Number(whole, 0)} {fraction}";
        }
        return Number(inches, inches < 0.2 ? 3 : 2);
    }
}
