using Seamwright.Files.Trees;

namespace Seamwright.Files.Values;

/// <summary>A value of a file with everything needed to tell what is wrong with it.</summary>
/// <param name="Node">The value.</param>
/// <param name="Path">Where in the file, for messages.</param>
/// <param name="File">The file.</param>
internal readonly record struct Field(Node Node, string Path, SourceFile File)
{
    /// <summary>Longest single value. [characters]</summary>
    public const int LongestText = 2000;

    /// <summary>Tells what is wrong.</summary>
    public void Problem(string key, params string[] args) => File.Problem(Node.Mark, Path, key, args);

    /// <summary>Tells what was assumed.</summary>
    public void Note(string key, params string[] args) =>
        File.Problems.Note(new(File.Shown, Node.Mark.Line, Node.Mark.Column, Path, key, [.. args]));

    /// <summary>The single value as text; null where it is none or empty, which has been told.</summary>
    public string? Scalar()
    {
        if (Node is not ScalarNode scalar)
        {
            Problem(Node is ListNode ? "value.list-not-one" : "value.map-not-one");
            return null;
        }

        if (scalar.IsNothing || string.IsNullOrWhiteSpace(scalar.Text))
        {
            Problem("value.nothing");
            return null;
        }

        if (scalar.Text.Length > LongestText)
        {
            Problem("value.too-long", Words.Number(LongestText));
            return null;
        }

        return scalar.Text.Trim();
    }

    /// <summary>The values of a list; a single value counts as a list of one.</summary>
    public IEnumerable<Field> Items()
    {
        if (Node is not ListNode list)
        {
            yield return this;
            yield break;
        }

        for (int i = 0; i < list.Items.Length; i++)
            yield return this with { Node = list.Items[i], Path = $"{Path}[{Name(list.Items[i], i)}]" };
    }

    // People know their joints by name, not by number.
    private static string Name(Node item, int index)
    {
        if (item is MapNode map)
        {
            foreach (var entry in map.Entries)
            {
                if (entry.Key == "id" && entry.Value is ScalarNode { Text.Length: > 0 } id)
                    return Words.Quote(id.Text);
            }
        }

        return Words.Number(index + 1);
    }
}
