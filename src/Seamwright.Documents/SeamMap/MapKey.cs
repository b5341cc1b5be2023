using System.Collections.Immutable;
using Seamwright.Documents.Drawing;

namespace Seamwright.Documents.SeamMap;

/// <summary>Below the map: the scale, what the signs mean, and the list of seams with their facts.</summary>
internal sealed record MapKey
{
    private const string Plain = "text text--small";
    private const string Faint = "text text--small text--faint";

    public required double Bottom { get; init; }

    public required MapLayout Layout { get; init; }

    public required double Bar { get; init; }

    public required string BarText { get; init; }

    public required double BarY { get; init; }

    public required ImmutableArray<(Spot At, Action<ICanvas, Spot> Sign, PlacedText Text)> Signs { get; init; }

    public required ImmutableArray<Row> Rows { get; init; }

    internal sealed record Row(MapSeam Seam, Box Box, Box Badge, Run Sample, ImmutableArray<PlacedText> Texts, Spot Sign);

    public static MapKey Of(MapLayout layout, IWords words)
    {
        double y = layout.Bottom + 8;
        // A length that leaves the bar readable: the first round one below a third of the sheet.
        bool feet = words.Units == Shops.UnitSystem.UsCustomary;
        double unit = feet ? 0.3048 : 1;
        double[] steps = [5, 2, 1, 0.5, 0.2, 0.1];
        double step = steps.FirstOrDefault(step => step * unit * layout.Scale <= layout.Options.Width / 3, 0.1);
        var signs = SignsOf(layout, words, 12 + step * unit * layout.Scale + 24, y + 4, out double signBottom);
        var rows = layout.Options.Key ? List(layout, words, signBottom + 12) : [];
        return new MapKey
        {
            Layout = layout,
            Bar = step * unit * layout.Scale,
            BarText = words.Word(Units.Length.FromMetres(step * unit)),
            BarY = y,
            Signs = signs,
            Rows = rows,
            Bottom = rows.IsEmpty ? signBottom : rows[^1].Box.Bottom,
        };
    }

    public void Draw(ICanvas canvas)
    {
        canvas.Line("axis", new(12, BarY - 4), new(12, BarY + 4), new(12, BarY), new(12 + Bar, BarY), new(12 + Bar, BarY - 4), new(12 + Bar, BarY + 4));
        canvas.Text(Plain, new(12 + Bar / 2, BarY + 18), BarText, Align.Middle);
        foreach (var (at, sign, text) in Signs)
        {
            sign(canvas, at);
            text.Draw(canvas);
        }
        foreach (var row in Rows)
        {
            var joint = row.Seam.Joint;
            canvas.Line("rule", new(12, row.Box.Top), new(row.Box.Right, row.Box.Top));
            canvas.Open(new Mark($"seam seam--{SeamMapDrawing.Name(row.Seam.State)}", row.Seam.Title, Layout.Options.Link(joint.Id), joint.Id.Value));
            canvas.Rectangle("hit", row.Box);
            SeamMapDrawing.Badge(canvas, row.Badge, row.Seam);
            SeamStroke.Draw(canvas, row.Sample, joint, row.Seam.State, Math.Min(3, row.Seam.Dabs));
            StateSign.Draw(canvas, row.Sign, row.Seam.State);
            foreach (var text in row.Texts)
                text.Draw(canvas);
            canvas.Close();
        }
    }

    // Only what the map shows is explained.
    private static ImmutableArray<(Spot, Action<ICanvas, Spot>, PlacedText)> SignsOf(MapLayout layout, IWords words, double left, double top, out double bottom)
    {
        var wanted = new List<(Action<ICanvas, Spot> Sign, string Text)>();
        void Badge(bool visible, string text) => wanted.Add(((canvas, at) => canvas.Rectangle(visible ? "badge badge--visible" : "badge", new Box(at.X - 9, at.Y - 6, 18, 12), 6), text));
        if (layout.Seams.Any(seam => seam.Joint.Look.Visible))
            Badge(true, words.Say("draw.map.visible"));
        if (layout.Seams.Any(seam => !seam.Joint.Look.Visible))
            Badge(false, words.Say("draw.map.hidden"));
        var titles = new MapTitles(words);
        foreach (var state in layout.Seams.Select(seam => seam.State).Distinct().Order())
            wanted.Add(((canvas, at) => StateSign.Draw(canvas, at, state), titles.State(state)));
        if (layout.Seams.Any(seam => seam.Joint.Drains > 0) || layout.Cells.Any(cell => cell.Cavity.Drains > 0))
            wanted.Add(((canvas, at) => canvas.Area("drain", at.By(0, -6), at.By(6, 0), at.By(0, 6), at.By(-6, 0)), words.Say("draw.map.drain")));

        var signs = ImmutableArray.CreateBuilder<(Spot, Action<ICanvas, Spot>, PlacedText)>();
        double x = left;
        double y = top;
        foreach (var (sign, text) in wanted)
        {
            double width = 26 + Lettering.Width(text, Plain) + 14;
            if (x + width > layout.Options.Width - 12 && x > 12)
            {
                // The first line begins beside the scale, the others at the margin.
                x = 12;
                y += y == top ? 36 : 22;
            }
            signs.Add((new(x + 10, y - 4), sign, new(Plain, new(x + 25, y), text, Align.Start)));
            x += width;
        }
        bottom = Math.Max(y + 8, top + 22);
        return signs.ToImmutable();
    }

    private static ImmutableArray<Row> List(MapLayout layout, IWords words, double top)
    {
        var titles = new MapTitles(words);
        var measures = new MapMeasures(layout.Scale, layout.Options, words);
        double width = layout.Options.Width;
        double badge = layout.Seams.IsEmpty ? 0 : layout.Seams.Max(seam => measures.BadgeWidth(seam.Joint.Id));
        double height = Math.Max(layout.Options.IsNarrow ? 42 : 28, layout.Options.Target);
        var rows = ImmutableArray.CreateBuilder<Row>();
        double stateWidth = layout.Seams.IsEmpty ? 0 : layout.Seams.Max(seam => Lettering.Width(titles.State(seam.State), Plain));
        double stateLeft = width - 12 - stateWidth;
        double y = top;
        foreach (var seam in layout.Seams)
        {
            var joint = seam.Joint;
            double middle = y + height / 2;
            double sample = 12 + badge + 14;
            double text = sample + 46 + 14;
            string state = titles.State(seam.State);
            var texts = new List<PlacedText> { new(Plain, new(stateLeft, (layout.Options.IsNarrow ? middle - 7 : middle) + 4), state, Align.Start) };
            var sign = new Spot(stateLeft - 13, layout.Options.IsNarrow ? middle - 7 : middle);
            string facts = joint.IsBare ? words.Word(joint.Look) : joint.Length == Units.Length.Zero && !MapMeasures.IsDabs(joint) ? "" : $"{words.Word(joint.Look)} · {measures.Size(joint)}";
            if (layout.Options.IsNarrow)
            {
                texts.Add(new(Plain, new(text, middle - 3), Lettering.Cut(joint.Name, Plain, sign.X - 12 - text), Align.Start));
                texts.Add(new(Faint, new(text, middle + 14), Lettering.Cut(facts, Faint, width - 12 - text), Align.Start));
            }
            else
            {
                double half = (sign.X - 20 - text) * 0.5;
                texts.Add(new(Plain, new(text, middle + 4), Lettering.Cut(joint.Name, Plain, half - 10), Align.Start));
                texts.Add(new(Faint, new(text + half, middle + 4), Lettering.Cut(facts, Faint, half), Align.Start));
            }
            rows.Add(new Row(
                seam, new Box(12, y, width - 24, height), new Box(12, middle - 10, measures.BadgeWidth(joint.Id), 20),
                new Run(new(sample, middle), new(sample + 46, middle)), [.. texts], sign));
            y += height;
        }
        return rows.ToImmutable();
    }
}
