using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.Sections;

/// <summary>Joints with a wall: channels and corners.</summary>
internal static class Channels
{
    /// <summary>A channel between two panels whose floors lap.</summary>
    public static JointShape Ditch(double width, double floor, double deep, double t, double g)
    {
        double c = width / 2;
        double left = c - floor / 2;
        double right = c + floor / 2;
        Spot[] leftSheet = [new(0, deep), new(left, deep), new(left, 0), new(right - 1.2, 0), new(right - 1.2, -t), new(left - t, -t), new(left - t, deep - t), new(0, deep - t)];
        Spot[] rightSheet =
        [
            new(width, deep), new(right, deep), new(right, -t - g), new(left + 2, -t - g), new(left + 2, -2 * t - g), new(right + t, -2 * t - g),
            new(right + t, deep - t), new(width, deep - t),
        ];
        return new()
        {
            Width = width,
            Seam = c,
            Sheets = [new(SheetPart.Right, 1, [.. rightSheet], new(width - 3, deep - t / 2)), new(SheetPart.Left, 0, [.. leftSheet], new(right - 3, -t / 2))],
            Faying = JointShape.Slab(left + 2, right - 1.2, -t - g, -t),
            FayingMark = new(left + 4, -t - g / 2),
            Trough = (left, right),
        };
    }

    /// <summary>A wall on a floor, its foot turned away; the seam lies in the corner.</summary>
    public static JointShape Corner(double width, double bead, Profile profile, double high, double t, double g)
    {
        double wall = width * 0.42;
        Spot[] angle = [new(wall, g), new(wall, high), new(wall - t, high), new(wall - t, g + t), new(wall - 12, g + t), new(wall - 12, g)];
        // A fillet leans on the wall, any other look lies before it.
        double seam = profile == Profile.Fillet ? wall : wall + bead / 2 - Math.Min(1, bead / 6);
        double needed = Math.Max(width, seam + bead / 2 + 6);
        return new()
        {
            Width = needed,
            Seam = seam,
            Sheets =
            [
                new(SheetPart.Lower, 1, JointShape.Slab(Math.Max(0, wall - 17), needed, -t, 0), new(needed - 4, -t / 2)),
                new(SheetPart.Upper, 0, [.. angle], new(wall - t / 2, high - 2)),
            ],
            Faying = JointShape.Slab(wall - 12, wall, 0, g),
            FayingMark = new(wall - 8, g / 2),
            CoatFrom = wall,
        };
    }
}
