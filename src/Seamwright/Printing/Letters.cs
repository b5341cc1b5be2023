using System.Globalization;
using System.Text;

namespace Seamwright.Program.Printing;

/// <summary>What a letter needs on a terminal: columns, a harmless form, an ASCII form.</summary>
public static class Letters
{
    /// <summary>Columns that a text takes.</summary>
    public static int Width(string text)
    {
        int width = 0;
        foreach (var rune in text.EnumerateRunes())
            width += rune.Value < 0x300 ? 1 : Width(rune);
        return width;
    }

    /// <summary>One line without control characters: a name in a file must not steer the terminal.</summary>
    public static string Harmless(string text)
    {
        foreach (char c in text)
        {
            if (char.IsControl(c) || c is '\u2028' or '\u2029')
                return string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));
        }
        return text;
    }

    /// <summary>The nearest ASCII writing.</summary>
    public static string Ascii(string text)
    {
        if (System.Text.Ascii.IsValid(text))
            return text;
        var ascii = new StringBuilder(text.Length);
        foreach (var rune in text.Replace(" °", " deg ", StringComparison.Ordinal).Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (rune.IsAscii)
                ascii.Append((char)rune.Value);
            else if (Rune.GetUnicodeCategory(rune) != UnicodeCategory.NonSpacingMark)
                ascii.Append(Ascii(rune));
        }
        return ascii.ToString();
    }

    /// <summary>Lines of at most some columns, broken at spaces, inside a word only where it is longer than a line.</summary>
    /// <param name="text">One paragraph.</param>
    /// <param name="width">Columns. [≥ 1]</param>
    public static IReadOnlyList<string> Wrap(string text, int width)
    {
        if (Width(text) <= width)
            return [text];
        var lines = new List<string>();
        var line = new StringBuilder();
        int used = 0;
        foreach (string word in text.Split(' '))
        {
            string rest = word;
            int needed = Width(rest);
            if (used > 0 && used + 1 + needed > width)
            {
                lines.Add(line.ToString());
                line.Clear();
                used = 0;
            }
            while (needed > width)
            {
                string head = Head(rest, width);
                lines.Add(head);
                rest = rest[head.Length..];
                needed = Width(rest);
            }
            if (used > 0)
                line.Append(' ');
            line.Append(rest);
            used += needed + (used > 0 ? 1 : 0);
        }
        if (line.Length > 0)
            lines.Add(line.ToString());
        return lines;
    }

    /// <summary>The first columns of a text.</summary>
    public static string Head(string text, int width)
    {
        int used = 0;
        int length = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            int needed = rune.Value < 0x300 ? 1 : Width(rune);
            if (used + needed > width && length > 0)
                break;
            used += needed;
            length += rune.Utf16SequenceLength;
        }
        return text[..length];
    }

    private static int Width(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format => 0,
        // Wide forms of Unicode Standard Annex 11, in rough ranges.
        _ => rune.Value is (>= 0x1100 and <= 0x115F) or (>= 0x2E80 and <= 0xA4CF) or (>= 0xAC00 and <= 0xD7A3)
            or (>= 0xF900 and <= 0xFAFF) or (>= 0xFE30 and <= 0xFE6F) or (>= 0xFF00 and <= 0xFF60) or (>= 0xFFE0 and <= 0xFFE6)
            or (>= 0x1F300 and <= 0x1FAFF) or (>= 0x20000 and <= 0x3FFFD) ? 2 : 1,
    };

    private static string Ascii(Rune rune) => rune.Value switch
    {
        '–' or '−' or '‑' or '─' or '━' => "-",
        '—' => "--",
        '×' => "x",
        '·' or '•' => ".",
        '…' => "...",
        '→' => "->",
        '≥' => ">=",
        '≤' => "<=",
        '±' => "+/-",
        'µ' or 'μ' => "u",
        '°' => " deg",
        '²' => "2",
        '³' => "3",
        '“' or '”' or '„' => "\"",
        '‘' or '’' => "'",
        '\u00A0' or '\u202F' => " ",
        'ß' => "ss",
        'ø' => "o",
        'Ø' => "O",
        'æ' => "ae",
        'ł' => "l",
        '€' => "EUR",
        '£' => "GBP",
        _ => "?",
    };
}
