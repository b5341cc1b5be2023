using System.Globalization;

namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>The lines of an instance file, read one after the other, with the numbers that stand in them.</summary>
internal sealed class NumberLines(string file, string[] lines)
{
    private int next;

    /// <summary>Number of the line read last, from 1.</summary>
    public int Line => next;

    public static NumberLines Of(string file, string text) => new(file, text.Split('\n'));

    /// <summary>Goes on behind the next line that contains a word.</summary>
    public void SkipTo(string word)
    {
        while (next < lines.Length)
        {
            if (lines[next++].Contains(word, StringComparison.OrdinalIgnoreCase))
                return;
        }

        throw new UnreadableInstanceException(file, 0, $"there is no line with \"{word}\".");
    }

    /// <summary>The number behind the colon of the next line that contains a word.</summary>
    public int Labelled(string word)
    {
        SkipTo(word);
        string[] parts = lines[next - 1].Split(':');
        string[] behind = parts[^1].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        return parts.Length > 1 && behind.Length > 0 && int.TryParse(behind[0], NumberStyles.Integer, CultureInfo.InvariantCulture, out int value) && value >= 0
            ? value
            : throw Fault($"a number was expected behind \"{word}\" and a colon.");
    }

    /// <summary>The numbers of the next line that begins with one; headings and rules before it are skipped.</summary>
    /// <param name="what">For the message when the file ends.</param>
    /// <param name="bracketed">Numbers may stand in square brackets.</param>
    public int[] Numbers(string what, bool bracketed = false)
    {
        while (next < lines.Length)
        {
            string line = lines[next++];
            if (bracketed)
                line = line.Replace('[', ' ').Replace(']', ' ');
            string[] words = line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            if (words.Length == 0 || !(char.IsAsciiDigit(words[0][0]) || words[0][0] == '-') || words[0].All(c => c == '-'))
                continue;
            var numbers = new int[words.Length];
            for (int i = 0; i < words.Length; i++)
            {
                if (!int.TryParse(words[i], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out numbers[i]))
                    throw Fault($"\"{words[i]}\" is not a whole number.");
            }

            return numbers;
        }

        throw new UnreadableInstanceException(file, 0, $"the file ends before {what}.");
    }

    public UnreadableInstanceException Fault(string problem) => new(file, next, problem);
}
