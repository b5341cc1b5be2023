using System.Collections.Immutable;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;

namespace Seamwright.Documents.Charts;

/// <summary>Parts that all charts have: heading, clock below, values at the side, names that keep clear of each other.</summary>
internal static class ChartParts
{
    public const string Small = "text text--small";
    public const string Faint = "text text--small text--faint";

    /// <summary>A heading and lines below it.</summary>
    public static ImmutableArray<PlacedText> Heading(double width, string title, IEnumerable<string> lines, out double bottom)
    {
        var texts = ImmutableArray.CreateBuilder<PlacedText>();
        double y = 12;
        foreach (var (look, text) in lines.Select(line => (Faint, line)).Prepend(("text text--title", title)))
        {
            foreach (string line in Lettering.Wrap(text, look, width - 24, 3))
            {
                y += MapMeasures.Line(look);
                texts.Add(new(look, new(12, y - 4), line, Align.Start));
            }
            y += 3;
        }
        bottom = y;
        return texts.ToImmutable();
    }

    /// <summary>Clock and days below a plot.</summary>
    public static void Clock(ICanvas canvas, TimeScale scale, Box plot, double foot, IWords words, double width)
    {
        double free = double.NegativeInfinity;
        foreach (var tick in scale.Ticks(words.Zone, 48))
        {
            canvas.Line("rule", new(tick.X, plot.Top), new(tick.X, plot.Bottom));
            string clock = words.Clock(tick.At);
            double half = Lettering.Width(clock, Faint) / 2;
            canvas.Text(Faint, new(Math.Clamp(tick.X, half + 2, width - half - 2), foot + 16), clock, Align.Middle);
            string day = words.Day(tick.At);
            double wide = Lettering.Width(day, "text text--small text--name");
            double left = Math.Clamp(tick.X - half, 2, Math.Max(2, width - wide - 2));
            if (!tick.NewDay || left < free)
                continue;
            canvas.Text("text text--small text--name", new(left, foot + 32), day);
            free = left + wide + 8;
        }
    }

    /// <summary>Values at the left side of a plot.</summary>
    public static void Values(ICanvas canvas, ValueScale scale, Box plot, int about, Func<double, string> text)
    {
        foreach (double value in scale.Ticks(about))
        {
            canvas.Line("rule", new(plot.Left, scale.Y(value)), new(plot.Right, scale.Y(value)));
            canvas.Text(Faint, new(plot.Left - 7, scale.Y(value) + 4), text(value), Align.End);
        }
    }

    /// <summary>Names above a plot, each over its place, in as few rows as they need. The first row is the lowest.</summary>
    public static ImmutableArray<(PlacedText Text, double X, int Row)> Over(IEnumerable<(double X, string Text, string Look)> names, double left, double right)
    {
        var rows = new List<double>();
        var placed = ImmutableArray.CreateBuilder<(PlacedText, double, int)>();
        // From the right: a name reaches to the left of its place, so its line never runs through another one's letters.
        foreach (var (x, text, look) in names.OrderByDescending(name => name.X))
        {
            double wide = Lettering.Width(text, look);
            // A name without room to the right of its line ends before it, so that the line does not strike it out.
            double start = x + 4 + wide <= right ? x + 4 : Math.Max(left, x - 6 - wide);
            int row = rows.FindIndex(free => start + wide + 10 <= free);
            if (row < 0)
            {
                row = rows.Count;
                rows.Add(0);
            }
            rows[row] = start;
            placed.Add((new PlacedText(look, new(start, 0), text, Align.Start), x, row));
        }
        return placed.ToImmutable();
    }

    /// <summary>Moments at which a curve is drawn: evenly, and at both ends.</summary>
    public static IEnumerable<Instant> Moments(Instant from, Instant to, int parts) =>
        Enumerable.Range(0, parts + 1).Select(i => from + (to - from) * ((double)i / parts));

    /// <summary>A curve cut where nothing is known: its pieces, each with two places or more.</summary>
    /// <param name="from">Start.</param>
    /// <param name="to">End.</param>
    /// <param name="gaps">Stretches that stay open.</param>
    /// <param name="spot">Where the curve stands at a moment.</param>
    public static ImmutableArray<ImmutableArray<Spot>> Curve(Instant from, Instant to, ImmutableArray<Interval> gaps, Func<Instant, Spot> spot)
    {
        var pieces = ImmutableArray.CreateBuilder<ImmutableArray<Spot>>();
        var reached = from;
        foreach (var gap in gaps.Where(gap => gap.Start < to && gap.End > from).OrderBy(gap => gap.Start).Append(new Interval(to, to)))
        {
            if (gap.Start > reached)
            {
                int parts = Math.Clamp((int)((gap.Start - reached) / (to - from) * 120), 2, 120);
                pieces.Add([.. Moments(reached, gap.Start, parts).Select(spot)]);
            }
            reached = Instant.Max(reached, gap.End);
        }
        return pieces.ToImmutable();
    }
}
