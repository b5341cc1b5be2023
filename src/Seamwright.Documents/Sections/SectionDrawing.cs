using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Repairs;

namespace Seamwright.Documents.Sections;

/// <summary>The cross-section of a seam with every layer named.</summary>
public sealed class SectionDrawing : IDrawing
{
    private readonly List<PlacedText> _texts = [];
    private readonly double _top;
    private readonly double _bottom;
    private readonly IWords _words;
    private readonly BuildUp _buildUp;

    /// <summary>A cross-section.</summary>
    /// <param name="joint">Name of the joint in words, with its short name.</param>
    /// <param name="buildUp">What the cut meets.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public SectionDrawing(string joint, BuildUp buildUp, IWords words, double width = 720)
    {
        ArgumentNullException.ThrowIfNull(words);
        _words = words;
        _buildUp = buildUp;
        Layout = SectionLayout.Of(buildUp, words, width);
        Title = words.Say("draw.section.title", joint);
        double y = 12;
        void Add(string look, string text, int most)
        {
            foreach (string line in Lettering.Wrap(text, look, width - 24, most))
            {
                y += MapMeasures.Line(look);
                _texts.Add(new(look, new(12, y - 4), line, Align.Start));
            }
        }
        Add("text text--title", joint, 2);
        y += 4;
        Add("text text--small text--faint", $"{words.Word(buildUp.Type)} · {words.Word(buildUp.Look)}", 2);
        _top = y + 18;
        y = _top + Layout.Height + 14;
        Add("text text--small text--faint", Note(), 3);
        _bottom = y + 10;
    }

    /// <summary>Where everything stands.</summary>
    public SectionLayout Layout { get; }

    /// <inheritdoc/>
    public double Width => Layout.Width;

    /// <inheritdoc/>
    public double Height => _bottom;

    /// <inheritdoc/>
    public string Title { get; }

    /// <inheritdoc/>
    public string Description => _words.Say("draw.section.layers", string.Join("; ", Layout.Parts.Select(part => part.Name)));

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        foreach (var text in _texts)
            text.Draw(canvas);
        var lower = new Lowered(canvas, _top);
        foreach (var part in Layout.Parts)
            Draw(lower, part);
        if (Layout.Measure is { } measure)
            Draw(lower, measure.From, measure.To);
        Leaders.Draw(lower, Layout.Leaders);
    }

    private string Note() => Layout.Exaggerations.Length switch
    {
        0 => _words.Say("draw.section.sheets-not-to-scale"),
        1 => _words.Say("draw.section.not-to-scale", Layout.Exaggerations[0]),
        _ => _words.Say("draw.section.not-to-scale-two", Layout.Exaggerations[^1], Layout.Exaggerations[0]),
    };

    private static void Draw(ICanvas canvas, SectionPart part)
    {
        if (part.Corners.IsEmpty)
            return;
        canvas.Open(new Mark("part", part.Name));
        canvas.Area(part.Look, part.Corners.AsSpan());
        foreach (double lean in part.Hatching)
        {
            foreach (var (from, to) in Hatch.Of(part.Corners.AsSpan(), 5.5, lean))
                canvas.Line("sheet-metal__hatch", from, to);
        }
        canvas.Close();
    }

    private void Draw(ICanvas canvas, Spot from, Spot to)
    {
        canvas.Line("measure", from.By(0, -5), from.By(0, 5));
        canvas.Line("measure", to.By(0, -5), to.By(0, 5));
        canvas.Line("measure", from, to);
        canvas.Text("text text--small text--faint", new(from.X, from.Y + 18), _words.Word(_buildUp.Look.Width));
    }

    /// <summary>The same canvas further down.</summary>
    private sealed class Lowered(ICanvas canvas, double by) : ICanvas
    {
        public void Open(Mark mark) => canvas.Open(mark);

        public void Close() => canvas.Close();

        public void Line(string look, params ReadOnlySpan<Spot> spots) => canvas.Line(look, Down(spots));

        public void Area(string look, params ReadOnlySpan<Spot> corners) => canvas.Area(look, Down(corners));

        public void Rectangle(string look, Box box, double rounding = 0) => canvas.Rectangle(look, box with { Top = box.Top + by }, rounding);

        public void Disc(string look, Spot centre, double radius) => canvas.Disc(look, centre.By(0, by), radius);

        public void Text(string look, Spot at, string text, Align align = Align.Start) => canvas.Text(look, at.By(0, by), text, align);

        private Spot[] Down(ReadOnlySpan<Spot> spots)
        {
            var down = new Spot[spots.Length];
            for (int i = 0; i < spots.Length; i++)
                down[i] = spots[i].By(0, by);
            return down;
        }
    }
}
