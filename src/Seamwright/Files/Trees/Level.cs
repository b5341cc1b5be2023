using System.Collections.Immutable;

namespace Seamwright.Files.Trees;

/// <summary>A list or map that is still open while its file is read.</summary>
internal sealed class Level
{
    private readonly Mark _mark;
    private readonly bool _isMap;
    private readonly ImmutableArray<Node>.Builder _items = ImmutableArray.CreateBuilder<Node>();
    private readonly ImmutableArray<MapEntry>.Builder _entries = ImmutableArray.CreateBuilder<MapEntry>();
    private readonly Dictionary<string, Mark> _keys = [];
    private bool _expectsKey;
    private string? _key;
    private Mark _keyMark;

    public Level(Mark mark, bool isMap)
    {
        _mark = mark;
        _isMap = isMap;
        _expectsKey = isMap;
    }

    /// <summary>Takes the next value, or the next key of a map.</summary>
    public void Add(Node node, Mark at, SourceFile file)
    {
        if (!_isMap)
        {
            _items.Add(node);
        }
        else if (_expectsKey)
        {
            _expectsKey = false;
            _keyMark = at;
            _key = (node as ScalarNode)?.Text;
            if (_key is null)
                file.Problem(node.Mark, "", "file.key-not-text");
        }
        else
        {
            _expectsKey = true;
            if (_key is null)
                return;
            if (_keys.TryGetValue(_key, out var first))
                file.Problem(_keyMark, "", "file.duplicate-key", Words.Quote(_key), Words.Number(first.Line));
            else
                _entries.Add(new(_key, _keyMark, node));
            _keys.TryAdd(_key, _keyMark);
        }
    }

    public Node Close() => _isMap ? new MapNode(_mark, _entries.ToImmutable()) : new ListNode(_mark, _items.ToImmutable());
}
