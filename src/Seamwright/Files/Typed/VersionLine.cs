using Seamwright.Files.Trees;

namespace Seamwright.Files.Typed;

/// <summary>Tells the kind of a file before it is read in earnest.</summary>
internal static class VersionLine
{
    /// <summary>The version line, or null where none can be found.</summary>
    public static string? Of(string path) => KeyOf(path, "seamwright");

    /// <summary>The text of a key at the top of a file, or null where none can be found.</summary>
    public static string? KeyOf(string path, string key)
    {
        var file = new SourceFile(path, new ProblemList());
        if (file.Text(SourceFile.Limit) is not { } text)
            return null;
        var root = file.IsJson ? JsonTree.Read(text, file) : YamlTree.Read(text, file);
        if (root is not MapNode map)
            return null;
        foreach (var entry in map.Entries)
        {
            if (entry.Key == key)
                return (entry.Value as ScalarNode)?.Text.Trim();
        }

        return null;
    }
}
