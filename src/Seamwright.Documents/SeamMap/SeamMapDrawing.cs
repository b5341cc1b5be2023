using Seamwright.Documents.Drawing;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Documents.SeamMap;

/// <summary>The unfolded seam map of a repair.</summary>
public sealed class SeamMapDrawing : IDrawing
{
    private readonly IWords _words;
    private readonly MapKey _key;

    /// <summary>A map.</summary>
    /// <param name="repair">The repair.</param>
    /// <param name="plan">Its plan, for states; null = everything is open.</param>
    /// <param name="words">Words.</param>
    /// <param name="options">How it is drawn; null = the usual way.</param>
    public SeamMapDrawing(Repair repair, Plan? plan, IWords words, MapOptions? options = null)
    {
        _words = words;
        Layout = MapLayout.Of(repair, plan, words, options);
        _key = MapKey.Of(Layout, words);
    }

    /// <summary>Where everything stands.</summary>
    public MapLayout Layout { get; }

    /// <inheritdoc/>
    public double Width => Layout.Options.Width;

    /// <inheritdoc/>
    public double Height => _key.Bottom + 12;

    /// <inheritdoc/>
    public string Title => _words.Say("draw.map.title", Layout.Repair.Name);

    /// <inheritdoc/>
    public string Description => string.Join(". ", Layout.Seams.Select(seam => seam.Title)
        .Concat(Layout.Patches.Select(patch => patch.Title)).Concat(Layout.Cells.Select(cell => cell.Title)));

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        canvas.Rectangle("opening", Layout.Opening, 16);
        foreach (var text in Layout.Texts)
            text.Draw(canvas);
        foreach (var patch in Layout.Patches)
            Draw(canvas, patch);
        foreach (var cell in Layout.Cells)
            Draw(canvas, cell);
        foreach (var seam in Layout.Seams)
            Draw(canvas, seam);
        _key.Draw(canvas);
    }

    private void Draw(ICanvas canvas, MapSeam seam)
    {
        var joint = seam.Joint;
        canvas.Open(new Mark($"seam seam--{Name(seam.State)}", seam.Title, Layout.Options.Link(joint.Id), joint.Id.Value));
        canvas.Rectangle("hit", seam.Hit);
        foreach (var run in seam.Runs)
            SeamStroke.Draw(canvas, run, joint, seam.State, seam.Dabs);
        Drains(canvas, seam);
        Badge(canvas, seam.Badge, seam);
        StateSign.Draw(canvas, seam.Sign, seam.State);
        foreach (var text in seam.Texts)
            text.Draw(canvas);
        canvas.Close();
    }

    private static void Drains(ICanvas canvas, MapSeam seam)
    {
        int shown = Math.Min(seam.Joint.Drains, 6);
        foreach (int i in Enumerable.Range(1, shown))
        {
            var at = seam.Runs[0].At((double)i / (shown + 1));
            canvas.Area("drain", at.By(0, -6), at.By(6, 0), at.By(0, 6), at.By(-6, 0));
        }
    }

    /// <summary>A name: light on dark where the seam is seen, dark on light where it is hidden.</summary>
    internal static void Badge(ICanvas canvas, Box badge, MapSeam seam)
    {
        bool visible = seam.Joint.Look.Visible;
        canvas.Rectangle(visible ? "badge badge--visible" : "badge", badge, 10);
        canvas.Text(visible ? "text text--name text--paper" : "text text--name", new(badge.Centre.X, badge.Centre.Y + 4.5), seam.Name, Align.Middle);
    }

    private void Draw(ICanvas canvas, MapPatch patch)
    {
        canvas.Open(new Mark("bare-area", patch.Title, Layout.Options.Link(patch.Area.Id), patch.Area.Id.Value));
        canvas.Rectangle("hit", patch.Patch.AtLeast(Layout.Options.Target, Layout.Options.Target));
        canvas.Rectangle("patch", patch.Patch);
        var box = patch.Patch;
        Spot[] corners = [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom)];
        foreach (var (from, to) in Hatch.Of(corners, 9, -45))
            canvas.Line("patch__hatch", from, to);
        foreach (var text in patch.Texts)
            text.Draw(canvas);
        canvas.Close();
    }

    private void Draw(ICanvas canvas, MapCell cell)
    {
        canvas.Open(new Mark("cavity", cell.Title, Layout.Options.Link(cell.Cavity.Id), cell.Cavity.Id.Value));
        var box = cell.Cell;
        canvas.Rectangle("hit", box.AtLeast(Layout.Options.Target, Layout.Options.Target));
        canvas.Rectangle("cell", box, 8);
        Filling(canvas, cell);
        int drains = Math.Min(cell.Cavity.Drains, Math.Max(1, (int)(box.Width / 16)));
        for (int i = 1; i <= Math.Min(drains, cell.Cavity.Drains); i++)
        {
            var at = new Spot(box.Left + box.Width * i / (drains + 1), box.Bottom);
            canvas.Area("drain", at.By(0, -5), at.By(5, 0), at.By(0, 5), at.By(-5, 0));
        }
        foreach (var text in cell.Texts)
            text.Draw(canvas);
        canvas.Close();
    }

    // Wax lines the walls, foam fills: waves for the one, bubbles for the other.
    private static void Filling(ICanvas canvas, MapCell cell)
    {
        var box = cell.Cell.Grown(-6);
        if (box.Width <= 4)
            return;
        if (cell.Cavity.Treatment == CavityTreatment.Wax)
        {
            int parts = Math.Max(4, (int)(box.Width / 3));
            canvas.Line("cell__fill", [.. Enumerable.Range(0, parts + 1).Select(i => new Spot(box.Left + box.Width * i / parts, box.Centre.Y + 3 * Math.Sin(i * 1.1)))]);
            return;
        }
        int bubbles = Math.Max(2, (int)(box.Width / 11));
        for (int i = 0; i < bubbles; i++)
            canvas.Disc("cell__fill", new(box.Left + box.Width * (i + 0.5) / bubbles, box.Centre.Y + (i % 2 == 0 ? -2 : 2)), 3.5);
    }

    /// <summary>Class of a state.</summary>
    internal static string Name(SeamState state) => state switch
    {
        SeamState.Nothing => "nothing",
        SeamState.Open => "open",
        SeamState.Late => "late",
        SeamState.Curing => "curing",
        SeamState.Sealed => "sealed",
        SeamState.Ready => "ready",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No state."),
    };
}
