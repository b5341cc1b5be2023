using NodaTime;
using Seamwright.Shops;

namespace Seamwright.Files.Values;

/// <summary>Values that are more than one number.</summary>
internal static class Composite
{
    /// <summary>A duration to the nearest millisecond, so that 0.5 min is exactly 30 s.</summary>
    public static Duration Duration(double seconds) => NodaTime.Duration.FromMilliseconds(Math.Round(seconds * 1e3));

    /// <summary>A mix ratio such as <c>2:1</c>.</summary>
    public static (double Base, double Hardener)? Ratio(Field field)
    {
        if (field.Scalar() is not { } text)
            return null;
        var parts = text.Split(':');
        if (parts.Length == 2 && Part(parts[0]) is { } first && Part(parts[1]) is { } second)
            return (first, second);
        field.Problem("value.not-a-ratio", Words.Quote(text));
        return null;
    }

    private static double? Part(string text) =>
        double.TryParse(text.Trim(), System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out double part)
        && part is > 0 and <= 1000 ? part : null;
}
