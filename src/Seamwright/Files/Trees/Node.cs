using System.Collections.Immutable;

namespace Seamwright.Files.Trees;

/// <summary>A place in a file, counted from 1.</summary>
internal readonly record struct Mark(int Line, int Column);

/// <summary>A value of a file with the place where it stands. YAML and JSON give the same tree.</summary>
internal abstract record Node(Mark Mark);

/// <summary>A single value.</summary>
/// <param name="Mark">Where it stands.</param>
/// <param name="Text">The text, without quotes.</param>
/// <param name="Plain">True where it stands without quotes.</param>
internal sealed record ScalarNode(Mark Mark, string Text, bool Plain) : Node(Mark)
{
    /// <summary>Nothing was written after the key, or an explicit null.</summary>
    public bool IsNothing => Plain && (Text is "" or "~" or "null" or "Null" or "NULL");
}

/// <summary>A list.</summary>
internal sealed record ListNode(Mark Mark, ImmutableArray<Node> Items) : Node(Mark);

/// <summary>Keys with values, each key once.</summary>
internal sealed record MapNode(Mark Mark, ImmutableArray<MapEntry> Entries) : Node(Mark);

/// <summary>A key with its value.</summary>
internal readonly record struct MapEntry(string Key, Mark KeyMark, Node Value);
