using System.Collections.Immutable;

namespace Seamwright.Documents.Drawing;

/// <summary>
/// How much room letters take. The reader's own typeface is not known, so the widths are those of a wide one: with another the text is
/// shorter, never longer.
/// </summary>
/// <remarks>Widths in parts of the size, rounded up from the advance widths of DejaVu Sans, one of the widest faces in use.</remarks>
public static class Lettering
{
    /// <summary>Height of a line with its gap, in parts of the size.</summary>
    public const double LineHeight = 1.35;

    /// <summary>Width of a line. [drawing units]</summary>
    public static double Width(string text, string look)
    {
        ArgumentNullException.ThrowIfNull(text);
        double width = 0;
        foreach (char c in text)
            width += Letter(c);
        return width * Styles.SizeOf(look) * (Styles.IsBold(look) ? 1.09 : 1);
    }

    /// <summary>The box of a line put on a canvas.</summary>
    public static Box BoxOf(string look, Spot at, string text, Align align)
    {
        double width = Width(text, look);
        double size = Styles.SizeOf(look);
        double left = align switch { Align.Start => at.X, Align.Middle => at.X - width / 2, _ => at.X - width };
        return new Box(left, at.Y - 0.76 * size, width, size);
    }

    /// <summary>Lines not wider than asked, at most so many; what does not fit ends in an ellipsis.</summary>
    public static ImmutableArray<string> Wrap(string text, string look, double width, int most)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = ImmutableArray.CreateBuilder<string>();
        string line = "";
        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (int i = 0; i < words.Length; i++)
        {
            string longer = line.Length == 0 ? words[i] : $"{line} {words[i]}";
            if (line.Length == 0 || Width(longer, look) <= width)
            {
                line = longer;
                continue;
            }
            if (lines.Count == most - 1)
            {
                line = $"{line} {string.Join(' ', words[i..])}";
                break;
            }
            lines.Add(Cut(line, look, width));
            line = words[i];
        }
        if (line.Length > 0)
            lines.Add(Cut(line, look, width));
        return lines.ToImmutable();
    }

    /// <summary>The text, or as much of it as fits with an ellipsis.</summary>
    public static string Cut(string text, string look, double width)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (Width(text, look) <= width)
            return text;
        for (int kept = text.Length - 1; kept > 0; kept--)
        {
            // Half a letter outside the basic plane is no letter.
            if (char.IsHighSurrogate(text[kept - 1]))
                continue;
            string cut = text[..kept].TrimEnd() + "…";
            if (Width(cut, look) <= width)
                return cut;
        }
        return "…";
    }

    private static double Letter(char c) => c switch
    {
        'i' or 'j' or 'l' or '\'' or '|' or ' ' or '.' or ',' or ':' or ';' or '·' or 'I' => 0.34,
        'f' or 't' or 'r' or '(' or ')' or '[' or ']' or '-' or '/' or '!' or '°' => 0.42,
        'm' or 'M' or 'W' or '%' or '@' or '…' => 1.0,
        'w' or '−' or '+' or '=' or '×' or '–' or '→' or '<' or '>' => 0.84,
        >= 'A' and <= 'Z' => 0.76,
        >= '0' and <= '9' => 0.64,
        < '\u0250' => 0.64,
        _ => 1.0,
    };
}
