using Seamwright.Documents.Drawing;
using Xunit;

namespace Seamwright.Documents.Tests;

/// <summary>A canvas that only measures: every shape's and text's room, every class and every name.</summary>
internal sealed class MeasuringCanvas : ICanvas
{
    private int _open;

    public List<(string Look, string Text, Box Box)> Texts { get; } = [];

    public List<(string Look, Box Box)> Shapes { get; } = [];

    public List<Mark> Marks { get; } = [];

    public static MeasuringCanvas Of(IDrawing drawing)
    {
        var canvas = new MeasuringCanvas();
        drawing.Draw(canvas);
        Assert.Equal(0, canvas._open);
        return canvas;
    }

    public IEnumerable<string> Classes => Texts.Select(text => text.Look).Concat(Shapes.Select(shape => shape.Look)).SelectMany(look => look.Split(' '));

    public void Open(Mark mark)
    {
        _open++;
        Marks.Add(mark);
    }

    public void Close() => _open--;

    public void Line(string look, params ReadOnlySpan<Spot> spots)
    {
        Assert.True(spots.Length >= 2, $"A line of {spots.Length} places ({look})");
        Shapes.Add((look, Around(spots)));
    }

    public void Area(string look, params ReadOnlySpan<Spot> corners)
    {
        Assert.True(corners.Length >= 3, $"An area of {corners.Length} corners ({look})");
        Shapes.Add((look, Around(corners)));
    }

    public void Rectangle(string look, Box box, double rounding = 0)
    {
        Assert.True(box.Width >= 0 && box.Height >= 0, $"A rectangle of {box} ({look})");
        Shapes.Add((look, box));
    }

    public void Disc(string look, Spot centre, double radius) => Shapes.Add((look, new Box(centre.X - radius, centre.Y - radius, 2 * radius, 2 * radius)));

    public void Text(string look, Spot at, string text, Align align = Align.Start) => Texts.Add((look, text, Lettering.BoxOf(look, at, text, align)));

    /// <summary>Everything lies on the sheet, and nothing is no number.</summary>
    public void AssertInside(IDrawing drawing)
    {
        var sheet = new Box(0, 0, drawing.Width, drawing.Height);
        Assert.All(Shapes, shape => Assert.True(sheet.Holds(shape.Box), $"{shape.Look} at {shape.Box} leaves {sheet}"));
        Assert.All(Texts, text => Assert.True(sheet.Holds(text.Box), $"“{text.Text}” at {text.Box} leaves {sheet}"));
    }

    /// <summary>No two texts lie on each other.</summary>
    public void AssertTextsApart()
    {
        for (int i = 0; i < Texts.Count; i++)
        {
            for (int j = i + 1; j < Texts.Count; j++)
                Assert.False(Texts[i].Box.Overlaps(Texts[j].Box), $"“{Texts[i].Text}” {Texts[i].Box} lies on “{Texts[j].Text}” {Texts[j].Box}");
        }
    }

    private static Box Around(ReadOnlySpan<Spot> spots)
    {
        double left = double.PositiveInfinity, top = double.PositiveInfinity, right = double.NegativeInfinity, bottom = double.NegativeInfinity;
        foreach (var spot in spots)
        {
            Assert.True(double.IsFinite(spot.X) && double.IsFinite(spot.Y), $"{spot} is no place");
            (left, top, right, bottom) = (Math.Min(left, spot.X), Math.Min(top, spot.Y), Math.Max(right, spot.X), Math.Max(bottom, spot.Y));
        }
        return new(left, top, right - left, bottom - top);
    }
}
