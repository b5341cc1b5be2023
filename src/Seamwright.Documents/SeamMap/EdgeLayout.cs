using System.Collections.Immutable;
using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>Sets the seams of one edge of the opening: in file order, with even gaps, in a second course where one does not hold them.</summary>
internal static class EdgeLayout
{
    /// <summary>A seam with its runs and label placed.</summary>
    internal sealed record Set(Joint Joint, ImmutableArray<Run> Runs, Box Badge, Spot Sign, ImmutableArray<PlacedText> Texts);

    /// <summary>Courses along an upper or lower edge.</summary>
    public static List<List<Joint>> Courses(MapMeasures measures, IEnumerable<Joint> joints, double width)
    {
        var courses = new List<List<Joint>>();
        double left = 0;
        foreach (var joint in joints)
        {
            double slot = measures.Slot(joint);
            if (courses.Count == 0 || left < slot)
            {
                courses.Add([]);
                left = width;
            }
            courses[^1].Add(joint);
            left -= slot;
        }
        return courses;
    }

    /// <summary>Height of a course with its labels.</summary>
    public static double Height(MapMeasures measures, List<Joint> course) =>
        course.Max(MapMeasures.Across) + course.Max(joint => measures.Label(joint).Height) + 10;

    /// <summary>A course. Labels stand away from the opening: above the upper edge, below the lower one.</summary>
    public static IEnumerable<Set> Level(MapMeasures measures, List<Joint> course, double left, double width, double edge, bool upwards)
    {
        double gap = (width - course.Sum(measures.Slot)) / (course.Count + 1);
        double x = left + gap;
        double across = course.Max(MapMeasures.Across);
        foreach (var joint in course)
        {
            double slot = measures.Slot(joint);
            double middle = x + slot / 2;
            double length = measures.LengthOf(joint);
            var runs = Enumerable.Range(0, MapMeasures.Drawn(joint))
                .Select(i => edge + (upwards ? -1 : 1) * i * MapMeasures.RunGap)
                .Select(y => new Run(new(middle - length / 2, y), new(middle + length / 2, y)));
            double top = upwards ? edge - across + 4 - measures.Label(joint).Height : edge + across - 4;
            yield return Labelled(measures, joint, [.. runs], middle, top, Align.Middle);
            x += slot + gap;
        }
    }

    /// <summary>A front or rear edge. Labels stand outside.</summary>
    public static IEnumerable<Set> Upright(MapMeasures measures, List<Joint> joints, double top, double height, double edge, bool leftwards)
    {
        double gap = (height - joints.Sum(measures.Storey)) / (joints.Count + 1);
        double y = top + gap;
        foreach (var joint in joints)
        {
            double storey = measures.Storey(joint);
            double middle = y + storey / 2;
            double length = measures.LengthOf(joint);
            var runs = Enumerable.Range(0, MapMeasures.Drawn(joint))
                .Select(i => edge + (leftwards ? -1 : 1) * i * MapMeasures.RunGap)
                .Select(x => new Run(new(x, middle - length / 2), new(x, middle + length / 2)));
            double beside = MapMeasures.Across(joint) - 4;
            double at = leftwards ? edge - beside : edge + beside;
            yield return Labelled(measures, joint, [.. runs], at, middle - measures.Label(joint).Height / 2, leftwards ? Align.End : Align.Start);
            y += storey + gap;
        }
    }

    /// <summary>A seam inside the opening, its label below it.</summary>
    public static Set Inside(MapMeasures measures, Joint joint, double left, double top, double width)
    {
        double length = measures.LengthOf(joint);
        double middle = left + width / 2;
        var runs = Enumerable.Range(0, MapMeasures.Drawn(joint))
            .Select(i => top + 9 + i * MapMeasures.RunGap)
            .Select(y => new Run(new(middle - length / 2, y), new(middle + length / 2, y)));
        return Labelled(measures, joint, [.. runs], middle, top + MapMeasures.Across(joint) + 2, Align.Middle);
    }

    // Name and sign in the first line, then the texts.
    private static Set Labelled(MapMeasures measures, Joint joint, ImmutableArray<Run> runs, double x, double top, Align align)
    {
        double badge = measures.BadgeWidth(joint.Id);
        double wide = badge + MapMeasures.SignRoom;
        double left = align switch { Align.Start => x, Align.Middle => x - wide / 2, _ => x - wide };
        var texts = ImmutableArray.CreateBuilder<PlacedText>();
        double y = top + MapMeasures.BadgeHeight + 2;
        foreach (var (look, text) in measures.TextsOf(joint))
        {
            y += MapMeasures.Line(look);
            texts.Add(new PlacedText(look, new(x, y - 3), text, align));
        }
        return new Set(joint, runs, new Box(left, top, badge, MapMeasures.BadgeHeight), new(left + badge + 12, top + MapMeasures.BadgeHeight / 2), texts.ToImmutable());
    }
}
