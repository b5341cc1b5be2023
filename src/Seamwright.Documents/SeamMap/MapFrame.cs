using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>The opening with what stands around and in it at one scale.</summary>
internal sealed record MapFrame
{
    private const double Margin = 12;
    // A metre is never drawn longer than this, or a single seam would fill the sheet.
    private const double LargestScale = 420;
    private const double SmallestScale = 4;

    public required MapMeasures Measures { get; init; }

    public required List<List<Joint>> Above { get; init; }

    public required List<List<Joint>> Below { get; init; }

    public required List<Joint> Front { get; init; }

    public required List<Joint> Rear { get; init; }

    public required List<List<InnerLayout.Item>> Rows { get; init; }

    /// <summary>The opening, its upper edge at zero.</summary>
    public required Box Opening { get; init; }

    public double HeightAbove => Above.Sum(course => EdgeLayout.Height(Measures, course));

    public double HeightBelow => Below.Sum(course => EdgeLayout.Height(Measures, course));

    public Box Inner => Opening.Grown(-Pad(Measures.Options));

    private static double Pad(MapOptions options) => options.IsNarrow ? 12 : 22;

    /// <summary>The largest scale at which everything fits the sheet.</summary>
    public static MapFrame Fit(Repair repair, ImmutableDictionary<PlaceId, PanelEdge> edges, MapOptions options, IWords words)
    {
        // At a vanishing scale only the labels count: no scale does with fewer courses or less height.
        var least = At(SmallestScale, repair, edges, options, words);
        double most = Math.Max(options.IsNarrow ? 430 : 470, least.Opening.Height * 1.15);
        for (double scale = LargestScale; scale > SmallestScale; scale *= 0.96)
        {
            var frame = At(scale, repair, edges, options, words);
            if (frame.Above.Count <= least.Above.Count && frame.Below.Count <= least.Below.Count && frame.Opening.Height <= most && frame.IsWideEnough())
                return frame;
        }
        return least;
    }

    private bool IsWideEnough() =>
        Above.Concat(Below).All(course => course.Sum(Measures.Slot) <= Opening.Width)
        && Rows.All(row => row.Sum(item => item.Width) + InnerLayout.Gap * (row.Count - 1) <= Inner.Width);

    private static MapFrame At(double scale, Repair repair, ImmutableDictionary<PlaceId, PanelEdge> edges, MapOptions options, IWords words)
    {
        var measures = new MapMeasures(scale, options, words);
        List<Joint> On(PanelEdge edge) => [.. repair.Joints.Where(joint => edges[joint.Id] == edge)];
        double Beside(List<Joint> joints) => joints.Count == 0 ? Margin + 8 : Margin + joints.Max(joint => measures.Label(joint).Width + MapMeasures.Across(joint));
        var front = On(PanelEdge.Front);
        var rear = On(PanelEdge.Rear);
        double left = Beside(front);
        double width = options.Width - left - Beside(rear);
        var above = EdgeLayout.Courses(measures, On(PanelEdge.Top), width);
        var below = EdgeLayout.Courses(measures, On(PanelEdge.Bottom), width);
        double inner = width - 2 * Pad(options);
        var rows = InnerLayout.Rows(new InnerLayout(measures).Items(repair, edges, inner), inner);
        double height = Math.Max(Math.Max(front.Sum(measures.Storey), rear.Sum(measures.Storey)) + 16, InnerLayout.Height(rows) + 2 * Pad(options) + 36);
        return new MapFrame
        {
            Measures = measures,
            Above = above,
            Below = below,
            Front = front,
            Rear = rear,
            Rows = rows,
            Opening = new Box(left, 0, width, Math.Max(height, 110)),
        };
    }
}
