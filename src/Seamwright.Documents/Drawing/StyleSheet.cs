using System.Globalization;
using System.Text;

namespace Seamwright.Documents.Drawing;

/// <summary>Style sheets made of <see cref="Styles"/> and <see cref="Palette"/>.</summary>
public static class StyleSheet
{
    private const string Letters = "font-family:system-ui,-apple-system,\"Segoe UI\",Roboto,\"Noto Sans\",\"DejaVu Sans\",sans-serif";

    /// <summary>
    /// For a page that holds drawings: colours as custom properties (<c>--d-ink</c>, …) that the page may set anew; dark where the reader's
    /// system is, or where the page says <c>data-theme="dark"</c> at its root, unless it says <c>light</c>.
    /// </summary>
    public static string ForPage()
    {
        var css = new StringBuilder();
        css.Append(".drawing{").Append(Properties(dark: false)).Append('}').Append('\n');
        css.Append("@media (prefers-color-scheme:dark){:root:not([data-theme=\"light\"]) .drawing{").Append(Properties(dark: true)).Append("}}\n");
        css.Append(":root[data-theme=\"dark\"] .drawing{").Append(Properties(dark: true)).Append("}\n");
        css.Append(Common());
        foreach (var (name, style) in Styles.All)
            Rule(css, name, Geometry(style) + Colours(style, ink => ink == Ink.None ? "none" : $"var(--d-{Name(ink)})"));
        css.Append("@media print{.drawing{").Append(Properties(dark: false)).Append("}}\n");
        return css.ToString();
    }

    /// <summary>For an SVG file by itself: plain colours, so that viewers without custom properties show it too; dark where the viewer asks.</summary>
    /// <param name="used">Classes that the drawing uses.</param>
    public static string ForFile(IReadOnlySet<string> used)
    {
        var css = new StringBuilder(Common());
        var there = Styles.All.Where(entry => used.Contains(entry.Class)).ToList();
        foreach (var (name, style) in there)
            Rule(css, name, Geometry(style) + Colours(style, ink => Palette.Of(ink).Light));
        css.Append("@media (prefers-color-scheme:dark){\n");
        foreach (var (name, style) in there)
            Rule(css, name, Colours(style, ink => Palette.Of(ink).Dark));
        return css.Append("}\n").ToString();
    }

    private static string Common() =>
        $".drawing text{{{Letters};font-size:{Number(Styles.UsualSize)}px;stroke:none}}\n"
        + ".drawing a{text-decoration:none;cursor:pointer}\n"
        + ".drawing a:focus-visible{outline:3px solid currentColor;outline-offset:2px}\n"
        + ".drawing path,.drawing polyline{stroke-linejoin:round}\n";

    private static string Properties(bool dark) => string.Concat(Enum.GetValues<Ink>().Where(ink => ink != Ink.None)
        .Select(ink => $"--d-{Name(ink)}:{(dark ? Palette.Of(ink).Dark : Palette.Of(ink).Light)};"));

    private static string Name(Ink ink) => string.Concat(ink.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? $"-{char.ToLowerInvariant(c)}" : $"{char.ToLowerInvariant(c)}"));

    private static void Rule(StringBuilder css, string name, string body)
    {
        if (body.Length > 0)
            css.Append(".drawing .").Append(name).Append('{').Append(body).Append("}\n");
    }

    private static string Colours(Style style, Func<Ink, string> shade) =>
        (style.Fill is { } fill ? $"fill:{shade(fill)};" : "") + (style.Stroke is { } stroke ? $"stroke:{shade(stroke)};" : "");

    private static string Geometry(Style style)
    {
        var css = new StringBuilder();
        if (style.Width is { } width)
            css.Append("stroke-width:").Append(Number(width)).Append(';');
        if (style.Dash is { } dash)
            css.Append("stroke-dasharray:").Append(dash).Append(';');
        if (style.Round)
            css.Append("stroke-linecap:round;");
        if (style.Size is { } size)
            css.Append("font-size:").Append(Number(size)).Append("px;");
        if (style.Bold)
            css.Append("font-weight:650;");
        if (style.Opacity is { } opacity)
            css.Append("opacity:").Append(Number(opacity)).Append(';');
        return css.ToString();
    }

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
