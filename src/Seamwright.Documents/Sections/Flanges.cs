using Seamwright.Documents.Drawing;

namespace Seamwright.Documents.Sections;

/// <summary>Joints of bent and folded sheets.</summary>
internal static class Flanges
{
    /// <summary>Two flanges turned down, face to face; the root lies between the bends.</summary>
    public static JointShape Coach(double width, double root, double t, double g)
    {
        double c = width / 2;
        double left = c - g / 2;
        double right = c + g / 2;
        double foot = -root - 8;
        double inner = Math.Max(0.2, root - t);
        Spot[] leftSheet =
        [
            new(0, 0), .. JointShape.Arc(left - root, -root, root, 90, 0), new(left, foot), new(left - t, foot),
            .. JointShape.Arc(left - root, -root, inner, 0, 90), new(0, -t),
        ];
        return new()
        {
            Width = width,
            Seam = c,
            Sheets =
            [
                new(SheetPart.Left, 0, [.. leftSheet], new(left - t / 2, foot + 5)),
                new(SheetPart.Right, 1, [.. leftSheet.Select(spot => new Spot(2 * c - spot.X, spot.Y))], new(width - 4, -t / 2)),
            ],
            Faying = JointShape.Slab(left, right, foot, -root),
            FayingMark = new(c, foot + 2),
            BeadFloor = -root,
        };
    }

    /// <summary>Two flanges turned up, pressed together; the seam caps their edge.</summary>
    public static JointShape Standing(double width, double bead, double t, double g)
    {
        double c = width / 2;
        double left = c - g / 2;
        const double rise = 11;
        const double bend = 1.6;
        Spot[] leftSheet =
        [
            new(0, 0), .. JointShape.Arc(left - t - bend, bend, bend, 270, 360), new(left - t, rise), new(left, rise),
            .. JointShape.Arc(left - t - bend, bend, bend + t, 360, 270), new(0, -t),
        ];
        return new()
        {
            Width = width,
            Seam = c,
            Sheets =
            [
                new(SheetPart.Left, 0, [.. leftSheet], new(left - t / 2, rise * 0.7)),
                new(SheetPart.Right, 1, [.. leftSheet.Select(spot => new Spot(2 * c - spot.X, spot.Y))], new(width - 4, -t / 2)),
            ],
            Faying = JointShape.Slab(left, c + g / 2, bend, rise),
            FayingMark = new(c, rise * 0.45),
            Crest = rise,
            BeadFloor = rise - Math.Max(1, bead * 0.5),
        };
    }

    /// <summary>The outer skin folded over the inner panel; the seam lies on the cut edge.</summary>
    public static JointShape Hem(double width, double bead, double t, double g)
    {
        double fold = width - 5;
        double edge = fold - Math.Max(12, bead / 2 + 2);
        double low = -t - g;
        double middle = (low + 0) / 2;
        double radius = (-low + 2 * t) / 2;
        Spot[] skin =
        [
            new(0, low - t), new(fold, low - t), .. JointShape.Arc(fold, middle, radius, -90, 90), new(edge, t), new(edge, 0), new(fold, 0),
            .. JointShape.Arc(fold, middle, -low / 2, 90, -90), new(0, low),
        ];
        return new()
        {
            Width = width,
            Seam = edge,
            CoatTo = fold + 0.7 * radius,
            Sheets =
            [
                new(SheetPart.Inner, 1, JointShape.Slab(0, fold - 1, -t, 0), new(edge + 3, -t / 2)),
                new(SheetPart.Outer, 0, [.. skin], new(fold - 4, low - t / 2)),
            ],
            Faying = JointShape.Slab(edge - 2, fold - 1, low, -t),
            FayingMark = new(edge + 1, (low - t) / 2),
        };
    }
}
