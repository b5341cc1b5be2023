using System.Collections.Immutable;

namespace Seamwright.Documents.Charts;

/// <summary>Plain numbers up a sheet: what they count is the chart's matter.</summary>
/// <param name="Low">Value at the foot.</param>
/// <param name="High">Value at the top, above the foot.</param>
/// <param name="Top">Where the top is. [drawing units]</param>
/// <param name="Bottom">Where the foot is. [drawing units]</param>
public readonly record struct ValueScale(double Low, double High, double Top, double Bottom)
{
    /// <summary>Where a value stands. [drawing units]</summary>
    public double Y(double value) => Bottom - (value - Low) / (High - Low) * (Bottom - Top);

    /// <summary>Round values in range, ascending, about so many.</summary>
    public ImmutableArray<double> Ticks(int about)
    {
        double step = Step(High - Low, about);
        double first = Math.Ceiling(Low / step - 1e-9);
        double last = Math.Floor(High / step + 1e-9);
        return [.. Enumerable.Range(0, (int)(last - first) + 1).Select(i => (first + i) * step)];
    }

    /// <summary>A scale over values, its ends round and a little beyond them.</summary>
    public static ValueScale Over(IEnumerable<double> values, double top, double bottom, int about = 4)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (double value in values)
        {
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }
        if (double.IsInfinity(low))
            (low, high) = (0, 1);
        double room = Math.Max(high - low, Math.Max(Math.Abs(high) * 0.02, 1e-6));
        double step = Step(room * 1.1, about);
        return new(Math.Floor((low - room * 0.05) / step) * step, Math.Ceiling((high + room * 0.05) / step) * step, top, bottom);
    }

    private static double Step(double range, int about)
    {
        double rough = range / Math.Max(1, about);
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        foreach (double factor in (double[])[1, 2, 5])
        {
            if (factor * power >= rough * 0.999)
                return factor * power;
        }
        return 10 * power;
    }
}
