namespace Seamwright.Units;

/// <summary>A temperature. Subtracting two gives a <see cref="TemperatureDifference"/>; two cannot be added.</summary>
/// <remarks><c>default</c> is 0 K, outside every validity range, so a forgotten value fails at its first use.</remarks>
public readonly record struct Temperature : IComparable<Temperature>
{
    /// <summary>0 °C in kelvin (exact by definition of the Celsius scale).</summary>
    public const double ZeroCelsius = 273.15;

    private Temperature(double kelvin) => Kelvin = kelvin;

    /// <summary>Absolute temperature. [K]</summary>
    public double Kelvin { get; }

    /// <summary>Temperature. [°C]</summary>
    public double Celsius => Kelvin - ZeroCelsius;

    /// <summary>Temperature. [°F]</summary>
    public double Fahrenheit => Celsius * 9 / 5 + 32;

    /// <summary>From degrees Celsius.</summary>
    public static Temperature FromCelsius(double celsius) => new(celsius + ZeroCelsius);

    /// <summary>From degrees Fahrenheit.</summary>
    public static Temperature FromFahrenheit(double fahrenheit) => FromCelsius((fahrenheit - 32) * 5 / 9);

    /// <summary>From kelvin.</summary>
    public static Temperature FromKelvin(double kelvin) => new(kelvin);

    /// <summary>The warmer of two.</summary>
    public static Temperature Max(Temperature a, Temperature b) => a >= b ? a : b;

    /// <summary>The colder of two.</summary>
    public static Temperature Min(Temperature a, Temperature b) => a <= b ? a : b;

    /// <summary>The difference of two temperatures.</summary>
    public static TemperatureDifference operator -(Temperature a, Temperature b) => TemperatureDifference.FromKelvins(a.Kelvin - b.Kelvin);

    /// <summary>A temperature moved by a difference.</summary>
    public static Temperature operator +(Temperature t, TemperatureDifference d) => new(t.Kelvin + d.Kelvins);

    /// <summary>A temperature moved down by a difference.</summary>
    public static Temperature operator -(Temperature t, TemperatureDifference d) => new(t.Kelvin - d.Kelvins);

    /// <summary>Colder than.</summary>
    public static bool operator <(Temperature a, Temperature b) => a.Kelvin < b.Kelvin;

    /// <summary>Warmer than.</summary>
    public static bool operator >(Temperature a, Temperature b) => a.Kelvin > b.Kelvin;

    /// <summary>Not warmer than.</summary>
    public static bool operator <=(Temperature a, Temperature b) => a.Kelvin <= b.Kelvin;

    /// <summary>Not colder than.</summary>
    public static bool operator >=(Temperature a, Temperature b) => a.Kelvin >= b.Kelvin;

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => Kelvin.CompareTo(other.Kelvin);
}
