namespace Seamwright.Documents.Drawing;

/// <summary>What a colour means. Each has a shade for paper and one for a dark screen.</summary>
public enum Ink
{
    /// <summary>No colour.</summary>
    None,

    /// <summary>The sheet itself.</summary>
    Paper,

    /// <summary>A quiet field on the sheet.</summary>
    Field,

    /// <summary>Letters and main lines.</summary>
    Ink,

    /// <summary>Less important letters.</summary>
    Faint,

    /// <summary>Thin help lines and frames.</summary>
    Rule,

    /// <summary>A seam that nobody has touched.</summary>
    Seam,

    /// <summary>The body of a band or bead.</summary>
    Bead,

    /// <summary>Something that dries or cures.</summary>
    Curing,

    /// <summary>The body of something that cures.</summary>
    CuringField,

    /// <summary>Ready.</summary>
    Ready,

    /// <summary>Late, or at its limit.</summary>
    Late,

    /// <summary>Metal.</summary>
    Metal,

    /// <summary>Hatching of metal.</summary>
    MetalLine,

    /// <summary>Epoxy primer and electrocoat.</summary>
    Primer,

    /// <summary>Etch primer.</summary>
    Etch,

    /// <summary>Weld-through primer.</summary>
    Zinc,

    /// <summary>Adhesive.</summary>
    Adhesive,

    /// <summary>Surfacer.</summary>
    Surfacer,

    /// <summary>Colour coat.</summary>
    Colour,

    /// <summary>Clear coat.</summary>
    Clear,

    /// <summary>Stone-chip coating.</summary>
    StoneChip,

    /// <summary>Wax and foam.</summary>
    Wax,

    /// <summary>Work of a person.</summary>
    Work,

    /// <summary>Heat of lamp or booth.</summary>
    Heat,
}

/// <summary>Shades: warm paper and ink by day, the same ink drawing on a dark board by night. Letters reach 4.5 : 1 on their ground (tested).</summary>
public static class Palette
{
    /// <summary>Shade on paper and on a dark screen, as <c>#rrggbb</c>; <c>none</c> for no colour.</summary>
    public static (string Light, string Dark) Of(Ink ink) => ink switch
    {
        Ink.None => ("none", "none"),
        Ink.Paper => ("#fcf8f0", "#1d1b19"),
        Ink.Field => ("#f3ecdf", "#292622"),
        Ink.Ink => ("#2a2833", "#f1e8d9"),
        Ink.Faint => ("#686158", "#b0a698"),
        Ink.Rule => ("#d8cdba", "#4a443d"),
        Ink.Seam => ("#1d4a66", "#93c4de"),
        Ink.Bead => ("#c3d7df", "#2e4a59"),
        Ink.Curing => ("#8a5a0b", "#e3b15c"),
        Ink.CuringField => ("#f0d9a6", "#574425"),
        Ink.Ready => ("#2f6344", "#94cba6"),
        Ink.Late => ("#a1331f", "#f0937f"),
        Ink.Metal => ("#d3d4d3", "#4a4c4f"),
        Ink.MetalLine => ("#7c8086", "#8b8f95"),
        Ink.Primer => ("#6f7f5a", "#8f9f78"),
        Ink.Etch => ("#b59a3a", "#c9ae52"),
        Ink.Zinc => ("#4f5d73", "#8d9bb3"),
        Ink.Adhesive => ("#7a5577", "#b68cb2"),
        Ink.Surfacer => ("#a8a294", "#7d776b"),
        Ink.Colour => ("#b0472f", "#cf6d54"),
        Ink.Clear => ("#e7cfc2", "#7a5f54"),
        Ink.StoneChip => ("#4b443c", "#9a8f80"),
        Ink.Wax => ("#d9a860", "#b98a45"),
        Ink.Work => ("#34566b", "#7fa9c0"),
        Ink.Heat => ("#bb5a3c", "#e58b69"),
        _ => throw new ArgumentOutOfRangeException(nameof(ink), ink, "No shade."),
    };
}
