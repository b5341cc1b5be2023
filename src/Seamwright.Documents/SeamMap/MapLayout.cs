using System.Collections.Immutable;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Documents.SeamMap;

/// <summary>The unfolded seam map laid out: where every seam, bare area and cavity of a repair stands on the sheet.</summary>
public sealed record MapLayout
{
    private const double Gap = 10;

    /// <summary>The repair.</summary>
    public required Repair Repair { get; init; }

    /// <summary>How it is drawn.</summary>
    public required MapOptions Options { get; init; }

    /// <summary>Drawing units for a metre of seam, the same for all.</summary>
    public required double Scale { get; init; }

    /// <summary>The opening of the replaced panel.</summary>
    public required Box Opening { get; init; }

    /// <summary>Seams in the repair's order.</summary>
    public required ImmutableArray<MapSeam> Seams { get; init; }

    /// <summary>Bare areas, by row.</summary>
    public required ImmutableArray<MapPatch> Patches { get; init; }

    /// <summary>Closed sections, by row.</summary>
    public required ImmutableArray<MapCell> Cells { get; init; }

    /// <summary>Heading, names of the edges.</summary>
    public required ImmutableArray<PlacedText> Texts { get; init; }

    /// <summary>Where the map ends and the list of seams begins. [drawing units]</summary>
    public required double Bottom { get; init; }

    /// <summary>Moment whose states are shown.</summary>
    public required Instant At { get; init; }

    /// <summary>Lays a repair out.</summary>
    /// <param name="repair">The repair.</param>
    /// <param name="plan">Its plan, for states; null = everything is open.</param>
    /// <param name="words">Words.</param>
    /// <param name="options">How it is drawn; null = the usual way.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sheet is narrower than <see cref="MapOptions.Narrowest"/>.</exception>
    public static MapLayout Of(Repair repair, Plan? plan, IWords words, MapOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(repair);
        ArgumentNullException.ThrowIfNull(words);
        options ??= new MapOptions();
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Width, MapOptions.Narrowest);

        var edges = Placement.Of(repair);
        var frame = MapFrame.Fit(repair, edges, options, words);
        var at = options.At ?? repair.Now;
        var texts = Heading(repair, plan, at, words, options.Width, out double top);

        var opening = frame.Opening with { Top = top + frame.HeightAbove + 8 };
        frame = frame with { Opening = opening };
        var titles = new MapTitles(words);
        var decisions = plan?.Joints.ToDictionary(joint => joint.Joint) ?? [];
        var sets = Sets(frame).ToDictionary(set => set.Joint.Id);
        var seams = repair.Joints.Select(joint =>
        {
            var state = SeamStates.Of(joint, decisions.GetValueOrDefault(joint.Id), at);
            return Seam(sets[joint.Id], frame.Measures, edges[joint.Id], state, titles.Of(joint, state));
        });

        var inner = new InnerLayout(frame.Measures);
        var placed = InnerLayout.Place(frame.Rows, InnerRoom(frame)).ToList();
        texts.AddRange(EdgeNames(frame, words, opening));
        return new MapLayout
        {
            Repair = repair,
            Options = options,
            Scale = frame.Measures.Scale,
            Opening = opening,
            Seams = [.. seams],
            Patches = [.. placed.Where(item => item.Item.Area is not null).Select(item => inner.Patch(item, frame.Inner.Width, titles.Of(item.Item.Area!)))],
            Cells = [.. placed.Where(item => item.Item.Cavity is not null).Select(item => inner.Cell(item, titles.Of(item.Item.Cavity!)))],
            Texts = [.. texts],
            Bottom = opening.Bottom + 8 + frame.HeightBelow + Gap,
            At = at,
        };
    }

    private static List<PlacedText> Heading(Repair repair, Plan? plan, Instant at, IWords words, double width, out double bottom)
    {
        var texts = new List<PlacedText>();
        double y = 12;
        void Add(string look, string text, int most)
        {
            foreach (string line in Lettering.Wrap(text, look, width - 24, most))
            {
                y += MapMeasures.Line(look);
                texts.Add(new(look, new(12, y - 4), line, Align.Start));
            }
        }
        Add("text text--title", repair.Name, 2);
        y += 4;
        Add("text text--small text--faint", words.Say("draw.map.scale"), 2);
        if (plan is not null)
            Add("text text--small text--faint", words.Say("draw.map.at", words.Moment(at)), 1);
        bottom = y + Gap;
        return texts;
    }

    private static IEnumerable<EdgeLayout.Set> Sets(MapFrame frame)
    {
        var (measures, opening) = (frame.Measures, frame.Opening);
        double y = opening.Top;
        foreach (var course in frame.Above)
        {
            foreach (var set in EdgeLayout.Level(measures, course, opening.Left, opening.Width, y, upwards: true))
                yield return set;
            y -= EdgeLayout.Height(measures, course);
        }
        y = opening.Bottom;
        foreach (var course in frame.Below)
        {
            foreach (var set in EdgeLayout.Level(measures, course, opening.Left, opening.Width, y, upwards: false))
                yield return set;
            y += EdgeLayout.Height(measures, course);
        }
        foreach (var set in EdgeLayout.Upright(measures, frame.Front, opening.Top + 8, opening.Height - 16, opening.Left, leftwards: true))
            yield return set;
        foreach (var set in EdgeLayout.Upright(measures, frame.Rear, opening.Top + 8, opening.Height - 16, opening.Right, leftwards: false))
            yield return set;
        foreach (var placed in InnerLayout.Place(frame.Rows, InnerRoom(frame)).Where(placed => placed.Item.Joint is not null))
            yield return EdgeLayout.Inside(measures, placed.Item.Joint!, placed.Box.Left, placed.Box.Top, placed.Box.Width);
    }

    // The names of the upper and lower edge stand inside the opening, above and below the rows.
    private static Box InnerRoom(MapFrame frame) => frame.Inner with { Top = frame.Inner.Top + 18, Height = frame.Inner.Height - 36 };

    private static IEnumerable<PlacedText> EdgeNames(MapFrame frame, IWords words, Box opening)
    {
        const string look = "text text--small text--faint";
        yield return new(look, new(opening.Centre.X, opening.Top + 21), words.Word(PanelEdge.Top), Align.Middle);
        yield return new(look, new(opening.Centre.X, opening.Bottom - 13), words.Word(PanelEdge.Bottom), Align.Middle);
        var front = new PlacedText(look, new(opening.Left + 13, opening.Top + 21), words.Word(PanelEdge.Front), Align.Start);
        var rear = new PlacedText(look, new(opening.Right - 13, opening.Top + 21), words.Word(PanelEdge.Rear), Align.End);
        if (Lettering.Width(words.Word(PanelEdge.Top), look) / 2 + 6 > opening.Centre.X - Math.Max(front.Box.Right, 2 * opening.Centre.X - rear.Box.Left))
            yield break;
        yield return front;
        yield return rear;
    }

    private static MapSeam Seam(EdgeLayout.Set set, MapMeasures measures, PanelEdge edge, SeamState state, string title)
    {
        // Neighbours stand 14 apart, so that what is touched stays with its own seam.
        var hit = set.Runs.Select(run => new Box(Math.Min(run.From.X, run.To.X), Math.Min(run.From.Y, run.To.Y), Math.Abs(run.To.X - run.From.X), Math.Abs(run.To.Y - run.From.Y)).Grown(6))
            .Aggregate((a, b) => a.With(b)).With(set.Badge).AtLeast(measures.Options.Target, measures.Options.Target);
        return new MapSeam
        {
            Joint = set.Joint,
            Edge = edge,
            State = state,
            Runs = set.Runs,
            Name = measures.NameOf(set.Joint.Id),
            Dabs = Math.Min(set.Joint.Count, measures.MostDabs),
            Badge = set.Badge,
            Sign = set.Sign,
            Texts = set.Texts,
            Hit = hit,
            Title = title,
        };
    }
}
