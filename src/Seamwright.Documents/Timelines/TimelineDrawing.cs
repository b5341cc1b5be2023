using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Work;

namespace Seamwright.Documents.Timelines;

/// <summary>A plan over time: a lane for each person, what cures below, the paint slot as a line through all.</summary>
public sealed class TimelineDrawing : IDrawing
{
    private const string Small = "text text--small";
    private const string Faint = "text text--small text--faint";

    private readonly List<PlacedText> _texts = [];
    private readonly Plan _plan;
    private readonly Instant _now;
    private readonly IWords _words;
    private readonly double _flags;

    /// <summary>A timeline.</summary>
    /// <param name="input">What the plan was made from.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public TimelineDrawing(RepairInput input, Plan plan, IWords words, double width = 900)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(words);
        (_plan, _words, _now) = (plan, words, input.Repair.Now);
        Title = words.Say("draw.time.title", input.Repair.Name);
        double y = 12;
        foreach (var (look, text) in new[]
        {
            ("text text--title", words.Say("draw.time.heading")),
            (Faint, words.Say("draw.time.facts", plan.ReadyForPaint, plan.Slot, plan.ReadyForDelivery)),
        })
        {
            foreach (string line in Lettering.Wrap(text, look, width - 24, 3))
            {
                y += MapMeasures.Line(look);
                _texts.Add(new(look, new(12, y - 4), line, Align.Start));
            }
            y += 4;
        }
        // Flag of the slot, days and hours stand above the lanes.
        _flags = y + 8;
        Layout = TimelineLayout.Of(input, plan, words, width, _flags + 66);
    }

    /// <summary>Where everything stands.</summary>
    public TimelineLayout Layout { get; }

    /// <inheritdoc/>
    public double Width => Layout.Width;

    /// <inheritdoc/>
    public double Height => Layout.Field.Bottom + 40 + (Width < 560 ? 40 : 0);

    /// <inheritdoc/>
    public string Title { get; }

    /// <inheritdoc/>
    public string Description => string.Join(". ", Layout.Lanes.SelectMany(lane => lane.Bars.Select(bar => $"{lane.Name}: {bar.Title}")));

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        foreach (var text in _texts)
            text.Draw(canvas);
        Ground(canvas);
        Slot(canvas);
        foreach (var lane in Layout.Lanes)
            Lane(canvas, lane);
        Legend(canvas);
    }

    private void Ground(ICanvas canvas)
    {
        var field = Layout.Field;
        foreach (var closed in Layout.Closed)
            canvas.Rectangle("night", closed);
        double day = double.NegativeInfinity;
        foreach (var tick in Layout.Ticks)
        {
            canvas.Line("rule", new(tick.X, field.Top - 8), new(tick.X, field.Bottom));
            string clock = _words.Clock(tick.At);
            double half = Lettering.Width(clock, Faint) / 2;
            double x = Math.Clamp(tick.X, half, Width - half);
            canvas.Text(Faint, new(x, field.Top - 13), clock, Align.Middle);
            string name = _words.Day(tick.At);
            if (tick.NewDay && tick.X - half >= day && tick.X - half + Lettering.Width(name, "text text--small text--name") <= Width - 4)
            {
                canvas.Text("text text--small text--name", new(Math.Max(4, tick.X - half), field.Top - 30), name);
                day = tick.X - half + Lettering.Width(name, "text text--small text--name") + 8;
            }
        }
        foreach (var fold in Layout.Scale.Stretches.Where(stretch => stretch.Folded))
            Fold(canvas, fold);
    }

    // A strip with torn edges: time goes on, the scale does not.
    private void Fold(ICanvas canvas, TimeScale.Stretch fold)
    {
        var field = Layout.Field;
        canvas.Open(new Mark("fold-mark", _words.Say("draw.time.fold", fold.From, fold.To)));
        canvas.Rectangle("night", new Box(fold.Left, field.Top - 8, fold.Width, field.Height + 8));
        foreach (double x in (double[])[fold.Left, fold.Left + fold.Width])
        {
            int teeth = Math.Max(2, (int)(field.Height / 7));
            canvas.Line("axis", [.. Enumerable.Range(0, teeth + 1).Select(i => new Spot(x + (i % 2 == 0 ? -2.5 : 2.5), field.Top - 8 + (field.Height + 8) * i / teeth))]);
        }
        canvas.Close();
    }

    private void Lane(ICanvas canvas, TimelineLane lane)
    {
        bool above = lane.Box.Left <= 12;
        string look = TimelineLayout.LookOf(lane.Kind);
        if (above)
            Masked(canvas, look, new(16, lane.Box.Top - 5), Lettering.Cut(lane.Name, look, Width - 32));
        else
            canvas.Text(look, new(lane.Box.Left - 12, lane.Box.Centre.Y + 4), Lettering.Cut(lane.Name, look, lane.Box.Left - 22), Align.End);
        canvas.Line("rule", new(lane.Box.Left, lane.Box.Bottom + 3), new(lane.Box.Right, lane.Box.Bottom + 3));
        foreach (var bar in lane.Bars)
            Bar(canvas, lane, bar);
    }

    private static void Bar(ICanvas canvas, TimelineLane lane, TimelineBar bar)
    {
        canvas.Open(new Mark($"step step--{(lane.Kind == LaneKind.Person ? "work" : lane.Kind == LaneKind.Heat ? "heat" : "cure")}", bar.Title, Name: bar.Step.Id));
        switch (lane.Kind)
        {
            case LaneKind.Person:
                canvas.Rectangle("bar", bar.Box, 3);
                break;
            case LaneKind.Heat:
                canvas.Rectangle("bar bar--heat", bar.Box, 3);
                break;
            default:
                Cure(canvas, bar.Box);
                break;
        }
        if (bar.Label is { } label)
        {
            if (bar.LabelInside)
                canvas.Text("text text--small text--paper", new(bar.Box.Left + 5, bar.Box.Centre.Y + 4), label);
            else
                Masked(canvas, Small, new(bar.Box.Right + (lane.Kind == LaneKind.Cure ? 9 : 4), bar.Box.Centre.Y + 4), label);
        }
        canvas.Close();
    }

    // Lines of the clock and the slot must not run through letters.
    private static void Masked(ICanvas canvas, string look, Spot at, string text)
    {
        var box = Lettering.BoxOf(look, at, text, Align.Start);
        canvas.Rectangle("mask", new Box(box.Left - 2, box.Top - 1, box.Width * 0.92 + 2, box.Height + 2), 2);
        canvas.Text(look, at, text);
    }

    // A wedge that grows to its full height: it is done where it is full. A diamond says ready.
    private static void Cure(ICanvas canvas, Box box)
    {
        canvas.Area("bar--cure", new(box.Left, box.Bottom), new(box.Left, box.Bottom - 4), new(box.Right, box.Top + 2), new(box.Right, box.Bottom));
        canvas.Area("ready-mark", new(box.Right, box.Centre.Y - 6), new(box.Right + 6, box.Centre.Y), new(box.Right, box.Centre.Y + 6), new(box.Right - 6, box.Centre.Y));
    }

    private void Slot(ICanvas canvas)
    {
        var field = Layout.Field;
        double x = Layout.Scale.X(_plan.Slot);
        string text = _words.Say("draw.time.slot", _plan.Slot);
        double wide = Lettering.Width(text, "text text--small text--paper") + 12;
        double left = Math.Clamp(x - wide / 2, 12, Width - 12 - wide);
        canvas.Open(new Mark("slot-mark", text));
        canvas.Line("slot", new(x, _flags + 20), new(x, field.Bottom));
        canvas.Rectangle("slot__flag", new Box(left, _flags, wide, 20), 3);
        canvas.Text("text text--small text--paper", new(left + 6, _flags + 14), text);
        canvas.Close();
        double now = Layout.Scale.X(_now);
        canvas.Line("now", new(now, field.Top - 8), new(now, field.Bottom));
    }

    private void Legend(ICanvas canvas)
    {
        double y = Layout.Field.Bottom + 24;
        double x = 12;
        void Entry(Action<Box> sign, string text)
        {
            double wide = Lettering.Width(text, Small);
            if (x + 26 + wide > Width - 12)
            {
                x = 12;
                y += 20;
            }
            sign(new Box(x, y - 10, 16, 12));
            canvas.Text(Small, new(x + 26, y), text);
            x += 26 + wide + 16;
        }
        Entry(box => canvas.Rectangle("bar", box, 3), _words.Say("draw.time.work"));
        Entry(box => Cure(canvas, box), _words.Say("draw.time.cure"));
        if (Layout.Lanes.Any(lane => lane.Kind == LaneKind.Heat))
            Entry(box => canvas.Rectangle("bar bar--heat", box, 3), _words.Say("draw.time.heat"));
        if (!Layout.Closed.IsEmpty || Layout.Scale.Stretches.Any(stretch => stretch.Folded))
            Entry(box => { canvas.Rectangle("night", box); canvas.Rectangle("frame", box); }, _words.Say("draw.time.closed"));
    }
}
