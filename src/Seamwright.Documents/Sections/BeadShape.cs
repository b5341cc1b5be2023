using Seamwright.Repairs;

namespace Seamwright.Documents.Sections;

/// <summary>The upper side of a bead of each look, on what lies below it. Drawing units, y upwards.</summary>
/// <param name="shape">The joint.</param>
/// <param name="profile">The look.</param>
/// <param name="width">Width, or leg along the floor of a fillet. [drawing units]</param>
/// <param name="height">Height, or leg along the wall of a fillet. [drawing units]</param>
/// <param name="scale">Drawing units for a millimetre.</param>
internal sealed class BeadShape(JointShape shape, Profile profile, double width, double height, double scale)
{
    /// <summary>Left end.</summary>
    public double Left => Fills ? shape.Trough!.Value.Left * scale : LeansOnWall ? Seam : Math.Max(Seam - width / 2, shape.CoatFrom * scale);

    /// <summary>Right end.</summary>
    public double Right => Fills ? shape.Trough!.Value.Right * scale : LeansOnWall ? Seam + width : Seam + width / 2;

    private double Seam => shape.Seam * scale;

    private bool Fills => profile == Profile.Ditch && shape.Trough is not null;

    private bool LeansOnWall => profile == Profile.Fillet && shape.CoatFrom > 0;

    /// <summary>Upper side of the bead on a surface; the surface itself where there is no bead.</summary>
    public Relief On(Relief ground)
    {
        double end = ground.At(Right);
        // Before a wall the bead lies on the floor alone.
        bool wall = shape.CoatFrom > 0;
        double start = wall ? end : ground.At(Left);
        var drape = wall ? ground.Each((_, _) => end) : ground.Smoothed(1.5 * scale);
        return ground.Each((x, y) =>
        {
            if (x <= Left || x >= Right)
                return y;
            double u = 2 * (x - Left) / (Right - Left) - 1;
            double line = start + (u + 1) / 2 * (end - start);
            double top = Top(x, u, line, drape.At(x), ground.At(Seam));
            return Math.Max(y, top);
        });
    }

    private double Top(double x, double u, double line, double drape, double floor)
    {
        if (shape.Crest is { } crest)
        {
            double foot = double.IsInfinity(shape.BeadFloor) ? crest * scale : shape.BeadFloor * scale;
            return double.IsInfinity(shape.BeadFloor) ? crest * scale : foot + (crest * scale - foot + height) * Dome(u, 2.4);
        }
        if (Fills)
        {
            // The liquid climbs the walls a little before it sets.
            double off = Math.Min(x - Left, Right - x) / scale;
            return floor + height * (1 + 0.22 * Math.Exp(-off / 0.9));
        }
        if (LeansOnWall)
            return line + height * Math.Pow((1 - u) / 2, 1.25);
        double draped = Math.Max(drape, line);
        return profile switch
        {
            Profile.Round => line + height * Dome(u, 2.8),
            Profile.Brushed or Profile.SkipBrushed => draped + height * Dome(u, 7) * (0.86 + 0.14 * Math.Cos(2 * Math.PI * (x - Seam) / (1.7 * scale))),
            Profile.Sprayed => draped + height * Dome(u, 5) * (0.78 + 0.22 * Grain(x / scale)),
            Profile.Strip => draped + height,
            _ => line + height * Dome(u, 2),
        };
    }

    private static double Dome(double u, double power) => Math.Pow(Math.Max(0, 1 - Math.Pow(Math.Abs(u), power)), 1 / Math.Min(power, 3));

    // A texture that is the same in every drawing. [−1…1]
    private static double Grain(double millimetres) =>
        0.5 * Math.Sin(5.1 * millimetres) + 0.3 * Math.Sin(8.7 * millimetres + 1.3) + 0.2 * Math.Sin(13.3 * millimetres + 0.7);
}
