using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>Sets inner seams, bare areas and cavities in rows inside the opening: what lies at the top first, what lies at the bottom last.</summary>
internal sealed class InnerLayout(MapMeasures measures)
{
    /// <summary>Least distance of two things in a row, and of two rows. [drawing units]</summary>
    public const double Gap = 18;

    private const double CellHeight = 24;

    /// <summary>Something inside, with its size.</summary>
    internal sealed record Item(PanelEdge Edge, double Width, double Height, Joint? Joint, BareArea? Area, Cavity? Cavity);

    /// <summary>Things placed.</summary>
    internal sealed record Placed(Item Item, Box Box);

    /// <summary>What stands inside, in file order within its band.</summary>
    public ImmutableArray<Item> Items(Repair repair, ImmutableDictionary<PlaceId, PanelEdge> edges, double width)
    {
        var items = new List<Item>();
        foreach (var joint in repair.Joints.Where(joint => edges[joint.Id] == PanelEdge.Inside))
        {
            var (wide, high) = measures.Label(joint);
            items.Add(new(PanelEdge.Inside, Math.Max(wide, Math.Max(measures.LengthOf(joint), measures.Options.Target)), MapMeasures.Across(joint) + 2 + high, joint, null, null));
        }
        foreach (var area in repair.BareAreas)
        {
            var (wide, high) = measures.Patch(area, width);
            var texts = Texts(area.Id, area.Name, measures.Words.Word(area.Area));
            items.Add(new(edges[area.Id], Math.Max(Math.Max(wide, TextWidth(texts)), measures.Options.Target), Math.Max(high, 8) + TextHeight(texts), null, area, null));
        }
        foreach (var cavity in repair.Cavities)
        {
            var texts = Texts(cavity.Id, cavity.Name, measures.Words.Word(cavity.Treatment));
            items.Add(new(edges[cavity.Id], Math.Max(measures.Cell(cavity), TextWidth(texts)), CellHeight + TextHeight(texts), null, null, cavity));
        }
        return [.. items.OrderBy(item => Band(item.Edge)).ThenBy(item => item.Edge switch { PanelEdge.Front => 0, PanelEdge.Rear => 2, _ => 1 })];
    }

    /// <summary>Rows that hold the items; each row belongs to one band.</summary>
    public static List<List<Item>> Rows(ImmutableArray<Item> items, double width)
    {
        var rows = new List<List<Item>>();
        double left = 0;
        foreach (var item in items)
        {
            if (rows.Count == 0 || left < item.Width + Gap || Band(rows[^1][^1].Edge) != Band(item.Edge))
            {
                rows.Add([]);
                left = width + Gap;
            }
            rows[^1].Add(item);
            left -= item.Width + Gap;
        }
        return rows;
    }

    public static double Height(List<List<Item>> rows) => rows.Count == 0 ? 0 : rows.Sum(row => row.Max(item => item.Height)) + Gap * (rows.Count - 1);

    /// <summary>Places the rows, spread over the height there is.</summary>
    public static IEnumerable<Placed> Place(List<List<Item>> rows, Box room)
    {
        double spare = (room.Height - Height(rows)) / (rows.Count + 1);
        double y = room.Top + spare;
        foreach (var row in rows)
        {
            double gap = (room.Width - row.Sum(item => item.Width) - Gap * (row.Count - 1)) / (row.Count + 1);
            double x = room.Left + gap;
            foreach (var item in row)
            {
                yield return new(item, new Box(x, y, item.Width, item.Height));
                x += item.Width + Gap + gap;
            }
            y += row.Max(item => item.Height) + Gap + spare;
        }
    }

    public MapPatch Patch(Placed placed, double most, string title)
    {
        var area = placed.Item.Area!;
        var (wide, high) = measures.Patch(area, most);
        var patch = new Box(placed.Box.Centre.X - wide / 2, placed.Box.Top, wide, high);
        return new(area, patch, Lines(Texts(area.Id, area.Name, measures.Words.Word(area.Area)), placed.Box.Centre.X, placed.Box.Top + Math.Max(high, 8)), title);
    }

    public MapCell Cell(Placed placed, string title)
    {
        var cavity = placed.Item.Cavity!;
        double wide = measures.Cell(cavity);
        var cell = new Box(placed.Box.Centre.X - wide / 2, placed.Box.Top, wide, CellHeight);
        return new(cavity, cell, Lines(Texts(cavity.Id, cavity.Name, measures.Words.Word(cavity.Treatment)), placed.Box.Centre.X, cell.Bottom), title);
    }

    private static int Band(PanelEdge edge) => edge switch { PanelEdge.Top => 0, PanelEdge.Bottom => 2, _ => 1 };

    private List<(string Look, string Text)> Texts(PlaceId id, string name, string fact)
    {
        var lines = new List<(string, string)> { ("text text--small text--name", Lettering.Cut(id.Value, "text text--small text--name", measures.NameWidth)) };
        lines.AddRange(Lettering.Wrap(fact, MapMeasures.Plain, measures.Options.IsNarrow ? 84 : 110, 2).Select(line => (MapMeasures.Plain, line)));
        if (!measures.Options.IsNarrow)
            lines.AddRange(Lettering.Wrap(name, MapMeasures.Small, 110, 2).Select(line => (MapMeasures.Small, line)));
        return lines;
    }

    private static double TextWidth(List<(string Look, string Text)> texts) => texts.Max(line => Lettering.Width(line.Text, line.Look));

    private static double TextHeight(List<(string Look, string Text)> texts) => 4 + texts.Sum(line => MapMeasures.Line(line.Look));

    private static ImmutableArray<PlacedText> Lines(List<(string Look, string Text)> texts, double x, double top)
    {
        var lines = ImmutableArray.CreateBuilder<PlacedText>();
        double y = top + 2;
        foreach (var (look, text) in texts)
        {
            y += MapMeasures.Line(look);
            lines.Add(new(look, new(x, y - 2), text, Align.Middle));
        }
        return lines.ToImmutable();
    }
}
