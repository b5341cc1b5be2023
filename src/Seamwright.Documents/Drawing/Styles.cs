using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace Seamwright.Documents.Drawing;

/// <summary>How a class looks. Null = as a class named before it, or as nothing.</summary>
/// <param name="Fill">Colour inside.</param>
/// <param name="Stroke">Colour of the line.</param>
/// <param name="Width">Width of the line. [drawing units]</param>
/// <param name="Dash">Lengths of dashes and gaps.</param>
/// <param name="Round">Round ends.</param>
/// <param name="Size">Size of letters. [drawing units]</param>
/// <param name="Bold">Heavy letters.</param>
/// <param name="Opacity">Share of the colour that covers. [0…1]</param>
public sealed record Style(
    Ink? Fill = null,
    Ink? Stroke = null,
    double? Width = null,
    string? Dash = null,
    bool Round = false,
    double? Size = null,
    bool Bold = false,
    double? Opacity = null);

/// <summary>Every class a drawing uses and what it looks like: one table for the style sheet of an SVG and for a PDF. Later classes win.</summary>
public static class Styles
{
    /// <summary>Letters where no class says otherwise. [drawing units]</summary>
    public const double UsualSize = 12.5;

    /// <summary>Classes in order of precedence, weakest first.</summary>
    public static ImmutableArray<(string Class, Style Style)> All { get; } =
    [
        ("sheet", new(Fill: Ink.Paper)),
        ("field", new(Fill: Ink.Field)),
        ("hit", new(Fill: Ink.Paper, Opacity: 0)),
        ("frame", new(Fill: Ink.None, Stroke: Ink.Rule, Width: 1)),
        ("rule", new(Fill: Ink.None, Stroke: Ink.Rule, Width: 1)),
        ("axis", new(Fill: Ink.None, Stroke: Ink.Faint, Width: 1)),
        ("mask", new(Fill: Ink.Paper)),

        // letters
        ("text", new(Fill: Ink.Ink, Size: UsualSize)),
        ("text--title", new(Size: 17, Bold: true)),
        ("text--name", new(Bold: true)),
        ("text--faint", new(Fill: Ink.Faint)),
        ("text--small", new(Size: 11.5)),
        ("text--paper", new(Fill: Ink.Paper)),
        ("text--late", new(Fill: Ink.Late, Bold: true)),
        ("text--ready", new(Fill: Ink.Ready, Bold: true)),
        ("text--curing", new(Fill: Ink.Curing, Bold: true)),

        // seam map
        ("opening", new(Fill: Ink.Field, Stroke: Ink.Faint, Width: 1.2, Dash: "9 3 2 3")),
        ("run", new(Fill: Ink.None, Stroke: Ink.Seam, Width: 2)),
        ("run--round", new(Width: 6, Round: true)),
        ("run--half-round", new(Width: 8)),
        ("run--edge", new(Width: 1.8)),
        ("run--grain", new(Width: 1)),
        ("run--spray", new(Width: 2.6, Dash: "0.01 5", Round: true)),
        ("run--fillet", new(Width: 3)),
        ("run--bare", new(Width: 1.6, Dash: "3 4")),
        ("run--curing", new(Stroke: Ink.Curing)),
        ("run--sealed", new(Stroke: Ink.Seam)),
        ("run--ready", new(Stroke: Ink.Ready)),
        ("run--late", new(Stroke: Ink.Late)),
        ("run--shine", new(Stroke: Ink.Paper, Width: 1.4)),
        ("band", new(Fill: Ink.Bead)),
        ("band--curing", new(Fill: Ink.CuringField)),
        ("band--hollow", new(Fill: Ink.Paper, Stroke: Ink.Seam, Width: 1.8)),
        ("dab", new(Fill: Ink.Seam)),
        ("dab--curing", new(Fill: Ink.Curing)),
        ("dab--ready", new(Fill: Ink.Ready)),
        ("dab--late", new(Fill: Ink.Late)),
        ("drain", new(Fill: Ink.Paper, Stroke: Ink.Ink, Width: 1.6)),
        ("badge", new(Fill: Ink.Paper, Stroke: Ink.Ink, Width: 1.2)),
        ("badge--visible", new(Fill: Ink.Ink)),
        ("patch", new(Fill: Ink.Paper, Stroke: Ink.Ink, Width: 1.2)),
        ("patch__hatch", new(Fill: Ink.None, Stroke: Ink.MetalLine, Width: 0.9)),
        ("cell", new(Fill: Ink.Paper, Stroke: Ink.Ink, Width: 1.4)),
        ("cell__fill", new(Fill: Ink.None, Stroke: Ink.Wax, Width: 2)),
        ("state", new(Fill: Ink.None, Stroke: Ink.Ink, Width: 1.6)),
        ("state--curing", new(Stroke: Ink.Curing)),
        ("state--ready", new(Stroke: Ink.Ready, Width: 2)),
        ("state--late", new(Stroke: Ink.Late)),
        ("state__body", new(Fill: Ink.Ink)),
        ("state__body--curing", new(Fill: Ink.Curing)),

        // cross-section
        ("sheet-metal", new(Fill: Ink.Metal, Stroke: Ink.Ink, Width: 1.3)),
        ("sheet-metal__hatch", new(Fill: Ink.None, Stroke: Ink.MetalLine, Width: 0.8)),
        ("layer", new(Fill: Ink.Surfacer, Stroke: Ink.Ink, Width: 0.6)),
        ("layer--weld-through", new(Fill: Ink.Zinc)),
        ("layer--adhesive", new(Fill: Ink.Adhesive)),
        ("layer--etch", new(Fill: Ink.Etch)),
        ("layer--epoxy", new(Fill: Ink.Primer)),
        ("layer--electrocoat", new(Fill: Ink.Zinc)),
        ("layer--old-paint", new(Fill: Ink.Clear)),
        ("layer--bead", new(Fill: Ink.Bead, Stroke: Ink.Seam, Width: 1.4)),
        ("layer--surfacer", new(Fill: Ink.Surfacer)),
        ("layer--colour", new(Fill: Ink.Colour)),
        ("layer--clear", new(Fill: Ink.Clear)),
        ("layer--stone-chip", new(Fill: Ink.StoneChip)),
        ("layer--wax", new(Fill: Ink.Wax)),
        ("leader", new(Fill: Ink.None, Stroke: Ink.Ink, Width: 0.9)),
        ("leader__dot", new(Fill: Ink.Ink, Stroke: Ink.Paper, Width: 1)),
        ("measure", new(Fill: Ink.None, Stroke: Ink.Faint, Width: 1)),

        // timeline and charts
        ("night", new(Fill: Ink.Field)),
        ("fold", new(Fill: Ink.Paper, Stroke: Ink.Rule, Width: 1)),
        ("bar", new(Fill: Ink.Work)),
        ("bar--cure", new(Fill: Ink.CuringField, Stroke: Ink.Curing, Width: 1.2)),
        ("bar--heat", new(Fill: Ink.Heat)),
        ("bar__grain", new(Fill: Ink.None, Stroke: Ink.Curing, Width: 1)),
        ("ready-mark", new(Fill: Ink.Ready)),
        ("slot", new(Fill: Ink.None, Stroke: Ink.Colour, Width: 2)),
        ("slot__flag", new(Fill: Ink.Colour)),
        ("now", new(Fill: Ink.None, Stroke: Ink.Ink, Width: 1.2, Dash: "4 3")),
        ("forecast", new(Fill: Ink.Field)),
        ("forecast__hatch", new(Fill: Ink.None, Stroke: Ink.Rule, Width: 0.8)),
        ("curve", new(Fill: Ink.None, Stroke: Ink.Seam, Width: 2.2)),
        ("curve--limit", new(Stroke: Ink.Late, Dash: "7 3")),
        ("curve--second", new(Stroke: Ink.Curing, Dash: "7 4")),
        ("curve--third", new(Stroke: Ink.Ready, Dash: "2 4", Round: true)),
        ("curve--forecast", new(Width: 1.4)),
        ("gap", new(Fill: Ink.None, Stroke: Ink.Rule, Width: 1, Dash: "2 3")),
        ("point", new(Fill: Ink.Seam, Stroke: Ink.Paper, Width: 1.2)),
        ("point--limit", new(Fill: Ink.Late)),
        ("point--sheet", new(Fill: Ink.Paper, Stroke: Ink.Ink, Width: 1.5)),
        ("point--chosen", new(Fill: Ink.Colour)),
        ("point--behind", new(Fill: Ink.Paper, Stroke: Ink.Faint, Width: 1.5)),
        ("ring", new(Fill: Ink.None, Stroke: Ink.Colour, Width: 1.8)),
    ];

    // Every letter measured asks for these; looks are few.
    private static readonly ConcurrentDictionary<string, (double Size, bool Bold)> Letters = new(StringComparer.Ordinal);

    /// <summary>Size of letters of a look. [drawing units]</summary>
    public static double SizeOf(string look) => LettersOf(look).Size;

    /// <summary>Whether letters of a look are heavy.</summary>
    public static bool IsBold(string look) => LettersOf(look).Bold;

    private static (double Size, bool Bold) LettersOf(string look) => Letters.GetOrAdd(look, static look =>
    {
        string[] classes = look.Split(' ');
        var styles = All.Where(entry => classes.Contains(entry.Class)).Select(entry => entry.Style).ToList();
        return (styles.LastOrDefault(style => style.Size is not null)?.Size ?? UsualSize, styles.Any(style => style.Bold));
    });
}
