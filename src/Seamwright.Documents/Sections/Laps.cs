using Seamwright.Documents.Drawing;

namespace Seamwright.Documents.Sections;

/// <summary>Joints of flat sheets that lie on each other.</summary>
internal static class Laps
{
    private const double Overlap = 14;

    public static JointShape Lap(double width, double t, double g)
    {
        double c = width / 2;
        return new()
        {
            Width = width,
            Seam = c,
            Sheets =
            [
                new(SheetPart.Lower, 1, JointShape.Slab(c - Overlap, width, -t, 0), new(width - 4, -t / 2)),
                new(SheetPart.Upper, 0, JointShape.Slab(0, c, g, g + t), new(c - 3, g + t / 2)),
            ],
            Faying = JointShape.Slab(c - Overlap, c, 0, g),
            FayingMark = new(c - Overlap + 3, g / 2),
        };
    }

    public static JointShape Sandwich(double width, double t, double g)
    {
        double c = width / 2;
        return new()
        {
            Width = width,
            Seam = c + 3,
            Sheets =
            [
                new(SheetPart.Lower, 1, JointShape.Slab(c - Overlap, width, -2 * t - g, -t - g), new(width - 4, -1.5 * t - g)),
                new(SheetPart.Middle, 0, JointShape.Slab(c - Overlap - 2, c + 6, -t, 0), new(c + 1, -t / 2)),
                new(SheetPart.Upper, 0, JointShape.Slab(0, c, g, g + t), new(c - 3, g + t / 2)),
            ],
            Faying = JointShape.Slab(c - Overlap, c, 0, g),
            FayingMark = new(c - Overlap + 4, g / 2),
        };
    }

    public static JointShape Butt(double width, double t, double g)
    {
        double c = width / 2;
        return new()
        {
            Width = width,
            Seam = c,
            Sheets =
            [
                new(SheetPart.Sleeve, 1, JointShape.Slab(c - 11, c + 11, -2 * t - g, -t - g), new(c + 8, -1.5 * t - g)),
                new(SheetPart.Left, 0, JointShape.Slab(0, c - 0.4, -t, 0), new(c - 4, -t / 2)),
                new(SheetPart.Right, 1, JointShape.Slab(c + 0.4, width, -t, 0), new(width - 5, -t / 2)),
            ],
            Faying = JointShape.Slab(c - 11, c + 11, -t - g, -t),
            FayingMark = new(c - 8, -t - g / 2),
        };
    }

    public static JointShape Head(double width, double t, double g)
    {
        double c = width / 2;
        Spot[] rivet =
        [
            new(c - 1.8, -2 * t - g - 2.4), new(c + 1.8, -2 * t - g - 2.4), new(c + 1.8, 0), new(c + 4.4, 0),
            .. JointShape.Arc(c, -3.3, 5.5, 36.9, 143.1), new(c - 4.4, 0), new(c - 1.8, 0),
        ];
        return new()
        {
            Width = width,
            Seam = c,
            Sheets =
            [
                new(SheetPart.Lower, 1, JointShape.Slab(0, width, -2 * t - g, -t - g), new(width - 7, -1.5 * t - g)),
                new(SheetPart.Upper, 0, JointShape.Slab(0, width, -t, 0), new(width - 11, -t / 2)),
                new(SheetPart.Fastener, 1, [.. rivet], new(c, -2 * t - g - 1.2)),
            ],
            Faying = JointShape.Slab(0, width, -t - g, -t),
            FayingMark = new(c + 6, -t - g / 2),
        };
    }

    public static JointShape Bar(double width, double t)
    {
        double c = width / 2;
        const double gap = 5;
        return new()
        {
            Width = width,
            Seam = c,
            Sheets = [new(SheetPart.Outer, 0, JointShape.Slab(0, width, -t, 0), new(width - 4, -t / 2))],
            Roof = [new(SheetPart.Bar, 1, JointShape.Slab(c - 13, c + 13, gap, gap + t), new(c + 9, gap + t / 2))],
            Crest = gap,
        };
    }
}
