using System.Collections.Immutable;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Units;

namespace Seamwright.Documents.Charts;

/// <summary>A way to do the repair.</summary>
/// <param name="Ready">When the vehicle is ready.</param>
/// <param name="Cost">What it costs.</param>
/// <param name="Label">Short name in words, for example <c>with lamp</c>.</param>
/// <param name="Chosen">The present plan.</param>
/// <param name="Behind">Another way is no later and no dearer: it stands off the curve.</param>
/// <param name="Link">Where choosing it leads; null = it cannot be chosen.</param>
public sealed record TradeOffPoint(Instant Ready, Money Cost, string Label, bool Chosen = false, bool Behind = false, string? Link = null);

/// <summary>Money against time: what being ready earlier costs.</summary>
public sealed class TradeOffDrawing : IDrawing
{
    private const string Name = "text text--small";

    private readonly IWords _words;
    private readonly ImmutableArray<PlacedText> _texts;
    private readonly Box _plot;
    private readonly TimeScale _time;
    private readonly ValueScale _money;
    private readonly string _currency;

    /// <summary>A trade-off chart.</summary>
    /// <param name="points">Ways, at least one, in any order, of one currency.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public TradeOffDrawing(ImmutableArray<TradeOffPoint> points, IWords words, double width = 720)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 320);
        if (points.IsDefaultOrEmpty)
            throw new ArgumentException("A trade-off needs at least one point.", nameof(points));
        (_words, Width) = (words, width);
        Points = [.. points.OrderBy(point => point.Ready).ThenByDescending(point => point.Cost.Amount)];
        Title = words.Say("draw.trade.title");
        _currency = Points[0].Cost.Currency ?? "";
        _texts = ChartParts.Heading(width, Title, [words.Say("draw.trade.about")], out double top);

        double room = Points.Max(point => Lettering.Width(words.Word(point.Cost), ChartParts.Faint));
        double left = 12 + room + 12;
        _plot = new Box(left, top + 30, width - left - 20, width < 560 ? 220 : 280);
        var first = Points[0].Ready;
        var margin = Points[^1].Ready - first < Duration.FromHours(1) ? Duration.FromHours(1) : (Points[^1].Ready - first) * 0.12;
        _time = TimeScale.Even(first - margin, Points[^1].Ready + margin, left, _plot.Width);
        _money = ValueScale.Over(Points.Select(point => (double)point.Cost.Amount), _plot.Top, _plot.Bottom);
        Labels = Place();
    }

    /// <summary>Ways by time.</summary>
    public ImmutableArray<TradeOffPoint> Points { get; }

    /// <summary>Names of the ways, in their order; they overlap neither each other nor a point.</summary>
    public ImmutableArray<PlacedText> Labels { get; }

    /// <inheritdoc/>
    public double Width { get; }

    /// <inheritdoc/>
    public double Height => _plot.Bottom + 44;

    /// <inheritdoc/>
    public string Title { get; }

    /// <inheritdoc/>
    public string Description => string.Join(". ", Points.Select(Said));

    /// <summary>Where a way stands.</summary>
    public Spot SpotOf(TradeOffPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return new(_time.X(point.Ready), _money.Y((double)point.Cost.Amount));
    }

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        foreach (var text in _texts)
            text.Draw(canvas);
        ChartParts.Clock(canvas, _time, _plot, _plot.Bottom, _words, Width);
        ChartParts.Values(canvas, _money, _plot, 4, value => _words.Word(new Money((decimal)value, _currency)));
        canvas.Text(ChartParts.Faint, new(12, _plot.Top - 14), _words.Say("draw.trade.cost"));

        if (Stair() is { Length: > 1 } stair)
            canvas.Line("curve", stair);
        for (int i = 0; i < Points.Length; i++)
            Draw(canvas, Points[i], Labels[i]);
    }

    /// <summary>Between two ways the earlier one is the only way to be ready then.</summary>
    private Spot[] Stair()
    {
        var front = Points.Where(point => !point.Behind).Select(SpotOf).ToList();
        return [.. front.Take(1).Concat(front.Zip(front.Skip(1)).SelectMany(pair => new[] { new Spot(pair.Second.X, pair.First.Y), pair.Second }))];
    }

    private void Draw(ICanvas canvas, TradeOffPoint point, PlacedText label)
    {
        var spot = SpotOf(point);
        canvas.Open(new Mark("way", Said(point), point.Link));
        canvas.Rectangle("hit", new Box(spot.X, spot.Y, 0, 0).AtLeast(24, 24));
        if (point.Chosen)
            canvas.Disc("ring", spot, 10);
        canvas.Disc(point.Chosen ? "point point--chosen" : point.Behind ? "point point--behind" : "point", spot, 5.5);
        var box = label.Box;
        canvas.Rectangle("mask", new Box(box.Left - 2, box.Top - 1, box.Width + 4, box.Height + 2), 2);
        label.Draw(canvas);
        canvas.Close();
    }

    private string Said(TradeOffPoint point) => _words.Say(point.Chosen ? "draw.trade.chosen" : "draw.trade.point", point.Label, point.Ready, point.Cost);

    private ImmutableArray<PlacedText> Place()
    {
        var taken = Points.Select(point => new Box(SpotOf(point).X, SpotOf(point).Y, 0, 0).AtLeast(22, 22)).ToList();
        // Names do not lie on the line either where there is room beside it.
        var stair = Stair();
        var line = stair.Zip(stair.Skip(1)).Select(step => new Box(Math.Min(step.First.X, step.Second.X), Math.Min(step.First.Y, step.Second.Y), Math.Abs(step.Second.X - step.First.X), Math.Abs(step.Second.Y - step.First.Y)).AtLeast(3, 3)).ToList();
        var sheet = new Box(2, _plot.Top - 8, Width - 4, _plot.Height + 6);
        var labels = ImmutableArray.CreateBuilder<PlacedText>();
        foreach (var point in Points)
        {
            string text = Lettering.Cut(point.Chosen ? _words.Say("draw.trade.present", point.Label) : point.Label, Name, Width * 0.6);
            string look = point.Chosen ? "text text--small text--name" : Name;
            var open = Candidates(SpotOf(point), look, text).Where(label => sheet.Holds(label.Box) && !taken.Any(box => box.Overlaps(label.Box.Grown(1)))).ToList();
            var found = open.Find(label => !line.Exists(box => box.Overlaps(label.Box)))
                ?? open.FirstOrDefault()
                ?? Candidates(SpotOf(point), look, text).First();
            taken.Add(found.Box.Grown(1));
            labels.Add(found);
        }
        return labels.ToImmutable();
    }

    // Beside, then further and further up and down.
    private static IEnumerable<PlacedText> Candidates(Spot spot, string look, string text)
    {
        for (double away = 0; away < 200; away += 8)
        {
            foreach (double side in away == 0 ? [0.0] : new[] { -away, away })
            {
                yield return new(look, spot.By(15, 4 + side), text, Align.Start);
                yield return new(look, spot.By(-15, 4 + side), text, Align.End);
                if (away >= 16)
                    yield return new(look, spot.By(0, 4 + side), text, Align.Middle);
            }
        }
    }
}
