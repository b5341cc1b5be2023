using System.Collections.Immutable;
using Seamwright.Documents.Drawing;

namespace Seamwright.Documents.Sections;

/// <summary>The height of a surface over evenly spaced places: what the next coat lies on. Drawing units, y upwards.</summary>
internal sealed class Relief
{
    /// <summary>Distance between places. [drawing units]</summary>
    public const double Step = 0.5;

    private readonly double[] _heights;

    private Relief(double[] heights) => _heights = heights;

    /// <summary>Number of places.</summary>
    public int Count => _heights.Length;

    /// <summary>Height at a place; at the nearest one beyond the ends.</summary>
    public double At(double x) => _heights[Math.Clamp((int)Math.Round(x / Step), 0, Count - 1)];

    /// <summary>Greatest height.</summary>
    public double Highest => _heights.Max();

    /// <summary>The upper side of some outlines; where there is none, the foot.</summary>
    public static Relief Over(IEnumerable<ImmutableArray<Spot>> outlines, double width, double foot)
    {
        double[] heights = new double[(int)(width / Step) + 1];
        Array.Fill(heights, foot);
        foreach (var outline in outlines)
        {
            for (int i = 0; i < outline.Length; i++)
            {
                var (a, b) = (outline[i], outline[(i + 1) % outline.Length]);
                if (a.X > b.X)
                    (a, b) = (b, a);
                for (int s = (int)Math.Ceiling(a.X / Step); s * Step <= b.X && s < heights.Length; s++)
                {
                    if (s >= 0)
                        heights[s] = Math.Max(heights[s], b.X - a.X < 1e-9 ? Math.Max(a.Y, b.Y) : a.Y + (s * Step - a.X) / (b.X - a.X) * (b.Y - a.Y));
                }
            }
        }
        return new(heights);
    }

    /// <summary>The same with another height at each place.</summary>
    public Relief Each(Func<double, double, double> height) => new([.. _heights.Select((y, i) => height(i * Step, y))]);

    /// <summary>The surface of a film of even thickness on this one, measured square to it: a disc of that radius rolled along.</summary>
    public Relief Coated(double thickness)
    {
        int reach = (int)(thickness / Step);
        double[] disc = [.. Enumerable.Range(0, reach + 1).Select(d => Math.Sqrt(Math.Max(0, thickness * thickness - d * Step * (d * Step))))];
        double[] coated = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            double top = double.NegativeInfinity;
            for (int d = -reach; d <= reach; d++)
                top = Math.Max(top, _heights[Math.Clamp(i + d, 0, Count - 1)] + disc[Math.Abs(d)]);
            coated[i] = top;
        }
        return new(coated);
    }

    /// <summary>Mean height within a reach of each place.</summary>
    public Relief Smoothed(double reach)
    {
        int n = Math.Max(1, (int)(reach / Step));
        return new([.. Enumerable.Range(0, Count).Select(i => Enumerable.Range(-n, 2 * n + 1).Average(d => _heights[Math.Clamp(i + d, 0, Count - 1)]))]);
    }

    /// <summary>Outline of what lies between this surface and a higher one; places with nothing between are left out at the ends.</summary>
    public ImmutableArray<Spot> UpTo(Relief upper, double from, double to)
    {
        int first = Math.Max(0, (int)Math.Ceiling(from / Step));
        int last = Math.Min(Count - 1, (int)Math.Floor(to / Step));
        while (first < last && upper._heights[first] - _heights[first] < 0.01)
            first++;
        while (last > first && upper._heights[last] - _heights[last] < 0.01)
            last--;
        if (last - first < 2)
            return [];
        var above = Enumerable.Range(first, last - first + 1).Select(i => new Spot(i * Step, upper._heights[i])).ToList();
        var below = Enumerable.Range(first, last - first + 1).Reverse().Select(i => new Spot(i * Step, Math.Min(_heights[i], upper._heights[i]))).ToList();
        return [.. Thinned(above), .. Thinned(below)];
    }

    // Without places that lie on the line between their neighbours: a hundred corners become a handful (Douglas and Peucker 1973).
    private static List<Spot> Thinned(List<Spot> spots)
    {
        const double near = 0.12;
        bool[] kept = new bool[spots.Count];
        kept[0] = kept[^1] = true;
        var open = new Stack<(int From, int To)>();
        open.Push((0, spots.Count - 1));
        while (open.TryPop(out var part))
        {
            var (a, b) = (spots[part.From], spots[part.To]);
            double length = Math.Sqrt((b.X - a.X) * (b.X - a.X) + (b.Y - a.Y) * (b.Y - a.Y));
            int farthest = -1;
            double most = near;
            for (int i = part.From + 1; i < part.To; i++)
            {
                double off = Math.Abs((b.X - a.X) * (a.Y - spots[i].Y) - (a.X - spots[i].X) * (b.Y - a.Y)) / Math.Max(1e-9, length);
                if (off > most)
                    (most, farthest) = (off, i);
            }
            if (farthest < 0)
                continue;
            kept[farthest] = true;
            open.Push((part.From, farthest));
            open.Push((farthest, part.To));
        }
        return [.. spots.Where((_, i) => kept[i])];
    }
}
