using System.Collections.Immutable;

namespace Seamwright.Documents.Drawing;

/// <summary>Hatching of areas by lines, so that kinds stay apart without colour and on every canvas.</summary>
public static class Hatch
{
    /// <summary>The parts of parallel lines that lie inside an area.</summary>
    /// <param name="corners">Corners of the area, in order.</param>
    /// <param name="gap">Distance between lines. [drawing units, &gt; 0]</param>
    /// <param name="degrees">Lean of the lines from level.</param>
    /// <returns>Start and end of each part.</returns>
    public static ImmutableArray<(Spot From, Spot To)> Of(ReadOnlySpan<Spot> corners, double gap, double degrees)
    {
        // In a turned frame the lines are level: each meets the edges in an even number of places.
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        var turned = new Spot[corners.Length];
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (int i = 0; i < corners.Length; i++)
        {
            turned[i] = new(corners[i].X * cos + corners[i].Y * sin, -corners[i].X * sin + corners[i].Y * cos);
            low = Math.Min(low, turned[i].Y);
            high = Math.Max(high, turned[i].Y);
        }

        var parts = ImmutableArray.CreateBuilder<(Spot, Spot)>();
        for (double y = Math.Ceiling(low / gap) * gap + gap * 0.013; y < high; y += gap)
        {
            var crossings = new List<double>();
            for (int i = 0; i < turned.Length; i++)
            {
                var (a, b) = (turned[i], turned[(i + 1) % turned.Length]);
                if (a.Y <= y != b.Y <= y)
                    crossings.Add(a.X + (y - a.Y) / (b.Y - a.Y) * (b.X - a.X));
            }
            crossings.Sort();
            for (int i = 0; i + 1 < crossings.Count; i += 2)
                parts.Add((Back(crossings[i], y), Back(crossings[i + 1], y)));
        }
        return parts.ToImmutable();

        Spot Back(double x, double y) => new(x * cos - y * sin, x * sin + y * cos);
    }
}
