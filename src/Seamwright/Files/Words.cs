using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Seamwright.Materials;
using Seamwright.Shops;

namespace Seamwright.Files;

/// <summary>How names of the code are written in files, and how file text is quoted in messages.</summary>
internal static class Words
{
    private static readonly ConcurrentDictionary<Type, ImmutableArray<(string Word, object Value)>> Known = new();

    /// <summary>Words of a closed set in its own order, for example <c>half-round</c> of <c>HalfRound</c>.</summary>
    public static ImmutableArray<(string Word, object Value)> Of(Type set) =>
        Known.GetOrAdd(set, static set => [.. Enum.GetValues(set).Cast<object>().Select(value => (Word(value), value))]);

    /// <summary>The word of a value.</summary>
    public static string Word(object value) => value switch
    {
        SurfaceKind.ElectroCoat => "electrocoat",   // one word in the trade
        UnitSystem.UsCustomary => "us",
        _ => Kebab(value.ToString()!),
    };

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Number(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>Text of a file for use in a message: one line, not long, no control characters.</summary>
    public static string Quote(string text)
    {
        var quoted = new StringBuilder();
        foreach (char c in text)
        {
            if (quoted.Length >= 60)
                return quoted.Append('…').ToString();
            quoted.Append(char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c);
        }

        return quoted.ToString().Trim();
    }

    /// <summary>Several words as <c>a, b or c</c>.</summary>
    public static string OneOf(IEnumerable<string> words)
    {
        var all = words.ToArray();
        return all.Length < 2 ? string.Concat(all) : $"{string.Join(", ", all[..^1])} or {all[^1]}";
    }

    /// <summary>The nearest known word, or null where none is near.</summary>
    public static string? Nearest(string word, IEnumerable<string> known)
    {
        if (word.Length is 0 or > 40)
            return null;
        string plain = word.ToLowerInvariant().Replace('_', '-').Replace(' ', '-');
        string? best = null;
        int least = Math.Max(1, Math.Min(3, word.Length / 3)) + 1;
        foreach (string candidate in known)
        {
            int distance = Distance(plain, candidate.Replace('_', '-'));
            if (distance < least)
                (best, least) = (candidate, distance);
        }

        return best;
    }

    // Edit distance with swapped neighbours counted once: the usual slips of the pen.
    private static int Distance(string a, string b)
    {
        var rows = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
            rows[i, 0] = i;
        for (int j = 0; j <= b.Length; j++)
            rows[0, j] = j;
        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int change = rows[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                rows[i, j] = Math.Min(change, Math.Min(rows[i - 1, j], rows[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    rows[i, j] = Math.Min(rows[i, j], rows[i - 2, j - 2] + 1);
            }
        }

        return rows[a.Length, b.Length];
    }

    private static string Kebab(string name)
    {
        var kebab = new StringBuilder();
        foreach (char c in name)
        {
            if (char.IsUpper(c) && kebab.Length > 0)
                kebab.Append('-');
            kebab.Append(char.ToLowerInvariant(c));
        }

        return kebab.ToString();
    }
}
