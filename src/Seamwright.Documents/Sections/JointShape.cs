using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.Sections;

/// <summary>Which sheet of a joint it is.</summary>
public enum SheetPart
{
    /// <summary>Upper sheet.</summary>
    Upper,

    /// <summary>Lower sheet.</summary>
    Lower,

    /// <summary>Middle sheet of three.</summary>
    Middle,

    /// <summary>Outer skin.</summary>
    Outer,

    /// <summary>Inner panel.</summary>
    Inner,

    /// <summary>Left one of two like sheets.</summary>
    Left,

    /// <summary>Right one of two like sheets.</summary>
    Right,

    /// <summary>Backing sleeve.</summary>
    Sleeve,

    /// <summary>Rivet or screw.</summary>
    Fastener,

    /// <summary>Reinforcement bar.</summary>
    Bar,
}

/// <summary>A sheet in the cut. Millimetres of the true part, y upwards.</summary>
/// <param name="Part">Which it is.</param>
/// <param name="Metal">Index into the joint's metals.</param>
/// <param name="Corners">Outline. [mm]</param>
/// <param name="Mark">Where its leader points. [mm]</param>
internal sealed record SheetShape(SheetPart Part, int Metal, ImmutableArray<Spot> Corners, Spot Mark);

/// <summary>The metal of a joint in the cut, and where its seam sits. Millimetres, y upwards.</summary>
internal sealed record JointShape
{
    public required double Width { get; init; }

    public required ImmutableArray<SheetShape> Sheets { get; init; }

    /// <summary>Sheets above the seam that no coat of this side reaches, drawn last.</summary>
    public ImmutableArray<SheetShape> Roof { get; init; } = [];

    /// <summary>The gap between the sheets, where adhesive or weld-through primer lies; empty = the sheets do not lie on each other.</summary>
    public ImmutableArray<Spot> Faying { get; init; } = [];

    public Spot FayingMark { get; init; }

    /// <summary>Middle of the seam.</summary>
    public required double Seam { get; init; }

    /// <summary>Where coats of this side begin. [mm]</summary>
    public double CoatFrom { get; init; }

    /// <summary>Where coats of this side end; null = at the end of the cut. [mm]</summary>
    public double? CoatTo { get; init; }

    /// <summary>Nothing of the bead lies below this. [mm]</summary>
    public double BeadFloor { get; init; } = double.NegativeInfinity;

    /// <summary>A fixed crest for a bead, in place of one that follows the metal: the edge of a standing flange, the gap below a bar.</summary>
    public double? Crest { get; init; }

    /// <summary>Width of a trough that a self-levelling bead fills; null = none.</summary>
    public (double Left, double Right)? Trough { get; init; }

    /// <summary>The shape of a joint.</summary>
    /// <param name="type">How the panels meet.</param>
    /// <param name="look">Look of the seam.</param>
    /// <param name="depth">Depth of the root. [mm]</param>
    /// <param name="t">Sheet thickness drawn. [mm]</param>
    /// <param name="g">Gap between sheets drawn. [mm]</param>
    public static JointShape Of(JointType type, Look look, double depth, double t, double g)
    {
        double w = look.Width.Millimetres;
        double h = look.Height.Millimetres > 0 ? look.Height.Millimetres : w / 2;
        double width = Math.Max(34, w + 20);
        return type switch
        {
            JointType.Coach => Flanges.Coach(width, Math.Max(depth > 0 ? depth : 0.8 * h, 1.5 * t), t, g),
            JointType.PinchWeld => Flanges.Standing(width, h, t, g),
            JointType.Hem => Flanges.Hem(width, w, t, g),
            JointType.Sandwich => Laps.Sandwich(width, t, g),
            JointType.RoofDitch or JointType.DripChannel => Channels.Ditch(width, look.Profile == Profile.Ditch ? w : Math.Max(14, w + 4), Math.Max(9, 2 * h), t, g),
            JointType.Cowl or JointType.Wheelhouse or JointType.ClosedSection => Channels.Corner(width, w, look.Profile, Math.Max(14, h + 7), t, g),
            JointType.Butt => Laps.Butt(width, t, g),
            JointType.Fastener => Laps.Head(width, t, g),
            JointType.SkinToBar => Laps.Bar(width, t),
            // A fillet of some size needs a wall to lean on: the lap of an angled sheet.
            JointType.Lap or JointType.StrutTower when look.Profile == Profile.Fillet => Channels.Corner(width, w, look.Profile, Math.Max(14, h + 7), t, g),
            _ => Laps.Lap(width, t, g),
        };
    }

    public static SheetShape Sheet(SheetPart part, int metal, Spot mark, params ReadOnlySpan<Spot> corners) => new(part, metal, [.. corners], mark);

    public static ImmutableArray<Spot> Slab(double left, double right, double bottom, double top) =>
        [new(left, bottom), new(right, bottom), new(right, top), new(left, top)];

    /// <summary>Places on an arc, both ends included. [mm, degrees counter-clockwise from the right]</summary>
    public static IEnumerable<Spot> Arc(double x, double y, double radius, double fromDegrees, double toDegrees)
    {
        const int parts = 12;
        for (int i = 0; i <= parts; i++)
        {
            var (sin, cos) = Math.SinCos((fromDegrees + (toDegrees - fromDegrees) * i / parts) * Math.PI / 180);
            yield return new(x + radius * cos, y + radius * sin);
        }
    }
}
