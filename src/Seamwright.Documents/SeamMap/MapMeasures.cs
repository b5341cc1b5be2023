using Seamwright.Documents.Drawing;
using Seamwright.Repairs;

namespace Seamwright.Documents.SeamMap;

/// <summary>Sizes of what stands in a map at a scale. Metres become drawing units here and nowhere else.</summary>
/// <param name="Scale">Drawing units for a metre of seam.</param>
/// <param name="Options">How it is drawn.</param>
/// <param name="Words">Words.</param>
internal sealed record MapMeasures(double Scale, MapOptions Options, IWords Words)
{
    public const double BadgeHeight = 20;
    public const double SignRoom = 20;
    public const double RunGap = 20;
    public const int MostRuns = 3;
    private const double BareStub = 40;
    private const double NameRoom = 118;

    /// <summary>A phone has no room beside the opening for long names; the list below shows more of them.</summary>
    public double NameWidth => Options.IsNarrow ? 40 : 90;

    /// <summary>Most dabs drawn one by one.</summary>
    public int MostDabs => Options.IsNarrow ? 6 : 8;

    private double DabGap => Options.IsNarrow ? 11 : 15;

    public const string Small = "text text--small text--faint";
    public const string Plain = "text text--small";

    public double LengthOf(Joint joint) => IsDabs(joint)
        ? DabGap * (Math.Min(joint.Count, MostDabs) - 1)
        : joint.Length > Units.Length.Zero ? joint.Length.Metres * Scale : BareStub;

    public static bool IsDabs(Joint joint) => joint.Length == Units.Length.Zero && !joint.IsBare;

    public static int Drawn(Joint joint) => IsDabs(joint) || joint.Length == Units.Length.Zero ? 1 : Math.Clamp(joint.Count, 1, MostRuns);

    /// <summary>Room that the runs take across. [drawing units]</summary>
    public static double Across(Joint joint) => 18 + (Drawn(joint) - 1) * RunGap;

    public string NameOf(PlaceId id) => Lettering.Cut(id.Value, "text text--name", NameWidth);

    public double BadgeWidth(PlaceId id) => Math.Max(28, Lettering.Width(NameOf(id), "text text--name") + 14);

    /// <summary>Length or count of a seam in words.</summary>
    public string Size(Joint joint) => IsDabs(joint) ? Words.Say("draw.map.count", joint.Count)
        : joint.Length == Units.Length.Zero ? Words.Word(joint.Look)
        : joint.Count > 1 ? Words.Say("draw.map.runs", joint.Count, joint.Length)
        : Words.Word(joint.Length);

    /// <summary>Lines of text that stand beside a seam.</summary>
    public IReadOnlyList<(string Look, string Text)> TextsOf(Joint joint)
    {
        var lines = new List<(string, string)> { (Plain, Size(joint)) };
        if (!Options.IsNarrow)
            lines.AddRange(Lettering.Wrap(joint.Name, Small, NameRoom, 2).Select(line => (Small, line)));
        return lines;
    }

    /// <summary>Width and height of name, sign and texts of a seam.</summary>
    public (double Width, double Height) Label(Joint joint)
    {
        var texts = TextsOf(joint);
        double width = Math.Max(BadgeWidth(joint.Id) + SignRoom, texts.Max(line => Lettering.Width(line.Text, line.Look)));
        return (width, BadgeHeight + 4 + texts.Sum(line => Line(line.Look)));
    }

    public static double Line(string look) => Styles.SizeOf(look) * Lettering.LineHeight;

    /// <summary>Room along an upper or lower edge.</summary>
    public double Slot(Joint joint) => Math.Max(Math.Max(LengthOf(joint), Label(joint).Width), Options.Target) + 14;

    /// <summary>Room along a front or rear edge.</summary>
    public double Storey(Joint joint) => Math.Max(Math.Max(LengthOf(joint), Label(joint).Height), Options.Target) + 14;

    public (double Width, double Height) Patch(BareArea area, double most)
    {
        double width = Math.Min(Math.Sqrt(2 * area.Area.SquareMetres) * Scale, most);
        return width > 0 ? (width, area.Area.SquareMetres * Scale * Scale / width) : (0, 0);
    }

    public double Cell(Cavity cavity) => cavity.Length is { } length && length > Units.Length.Zero ? length.Metres * Scale : 64;
}
