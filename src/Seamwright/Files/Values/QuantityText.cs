using System.Globalization;
using System.Text.RegularExpressions;

namespace Seamwright.Files.Values;

/// <summary>Reads a number with its unit.</summary>
internal static partial class QuantityText
{
    /// <summary>The value in the measure's inner unit, or null where there is a problem, which has been told.</summary>
    public static double? Read(Field field, Measure measure)
    {
        if (field.Scalar() is not { } text)
            return null;

        var dimension = measure.Dimension;
        double sum = 0;
        int at = 0;
        do
        {
            var match = NumberAndUnit().Match(text, at);
            if (!match.Success)
                return NotAQuantity(field, text, dimension);
            if (!double.TryParse(match.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
                || !double.IsFinite(number))
            {
                field.Problem("value.number-too-large", Words.Quote(match.Groups["number"].Value));
                return null;
            }

            string spelling = match.Groups["unit"].Value.Trim();
            if (spelling.Length == 0 && match.Index + match.Length < text.Length)
                return NotAQuantity(field, text, dimension);
            if (dimension.Find(spelling) is not { } unit)
            {
                TellUnit(field, text, spelling, dimension);
                return null;
            }

            sum += number * unit.Factor + unit.Offset;
            at = match.Index + match.Length;
        }
        while (at < text.Length && dimension == Dimensions.Time);   // 1 h 30 min

        if (at < text.Length)
            return NotAQuantity(field, text, dimension);
        if (dimension == Dimensions.Temperature && sum < 0)
        {
            field.Problem("value.below-absolute-zero", Words.Quote(text));
            return null;
        }

        // Conversion from other units must not throw a stated limit out of its own range by the last digit.
        double slack = 1e-12 * Math.Max(Math.Abs(measure.Least), Math.Abs(measure.Most));
        double value = sum < measure.Least && sum >= measure.Least - slack ? measure.Least
            : sum > measure.Most && sum <= measure.Most + slack ? measure.Most : sum;
        if (!measure.Contains(value))
        {
            field.Problem("value.out-of-range", Words.Quote(text), measure.Range);
            return null;
        }

        return value;
    }

    private static double? NotAQuantity(Field field, string text, Dimension dimension)
    {
        if (CommaNumber().IsMatch(text))
            field.Problem("value.decimal-comma", Words.Quote(text), Words.Quote(text.Replace(',', '.')));
        else
            field.Problem("value.not-a-quantity", Words.Quote(text), dimension.Name, dimension.Shown);
        return null;
    }

    private static void TellUnit(Field field, string text, string spelling, Dimension dimension)
    {
        if (spelling.Length == 0)
            field.Problem("value.unit-missing", Words.Quote(text), dimension.Name, dimension.Shown);
        else if (Dimensions.All.FirstOrDefault(other => other.Find(spelling) is not null) is { } belongs)
            field.Problem("value.unit-wrong", Words.Quote(text), belongs.Name, dimension.Name, dimension.Shown);
        else
            field.Problem("value.unit-unknown", Words.Quote(spelling), dimension.Name, dimension.Shown);
    }

    // A unit starts with no digit and holds none but a closing ² or ³ written as 2 or 3; it ends at the next number.
    [GeneratedRegex(@"\G\s*(?<number>[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?)\s*(?<unit>[^\d\s.,+-][^\s]*(\s+[^\d\s.,+-][^\s]*)*|)\s*",
        RegexOptions.CultureInvariant, 1000)]
    private static partial Regex NumberAndUnit();

    [GeneratedRegex(@"^\s*[+-]?\d+,\d+(?!\d*,)", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex CommaNumber();
}
