using System.Collections.Immutable;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Seamwright.Files.Trees;

/// <summary>Reads YAML into a tree with marks. Anchors, aliases, tags, several documents and deep nesting are refused.</summary>
/// <remarks>Built on parser events and an explicit stack: no file can use up the call stack or make itself larger than it is.</remarks>
internal sealed class YamlTree
{
    /// <summary>Deepest nesting of lists and maps.</summary>
    public const int DeepestNesting = 20;

    private readonly SourceFile _file;
    private readonly Stack<Level> _open = new();
    private Node? _root;
    private int _documents;

    private YamlTree(SourceFile file) => _file = file;

    /// <summary>The tree, or null where the text could not be read; the problem has been told.</summary>
    public static Node? Read(string text, SourceFile file) => new YamlTree(file).Read(text);

    private Node? Read(string text)
    {
        var mark = new Mark(1, 1);
        try
        {
            var parser = new Parser(new StringReader(text));
            while (parser.MoveNext())
            {
                mark = MarkOf(parser.Current!.Start);
                if (!Take(parser.Current!, mark))
                    return null;
            }
        }
        catch (YamlException e)
        {
            _file.Problem(MarkOf(e.Start), "", "file.yaml", Words.Quote(e.Message));
            return null;
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or FormatException or IndexOutOfRangeException)
        {
            _file.Problem(mark, "", "file.yaml", Words.Quote(e.Message));
            return null;
        }

        if (_root is null)
            _file.WholeProblem("file.empty");
        return _root;
    }

    private bool Take(ParsingEvent current, Mark mark)
    {
        switch (current)
        {
            case DocumentStart when ++_documents > 1:
                _file.Problem(mark, "", "file.several-documents");
                return false;
            case AnchorAlias alias:
                _file.Problem(mark, "", "file.alias", Words.Quote(alias.Value.Value));
                Add(new ScalarNode(mark, "", true), mark);
                return true;
            case Scalar scalar:
                RefuseDecoration(scalar, mark);
                Add(new ScalarNode(mark, scalar.Value, scalar.Style == ScalarStyle.Plain), mark);
                return true;
            case SequenceStart or MappingStart:
                RefuseDecoration((NodeEvent)current, mark);
                if (_open.Count >= DeepestNesting)
                {
                    _file.Problem(mark, "", "file.too-deep", Words.Number(DeepestNesting));
                    return false;
                }

                _open.Push(new Level(mark, current is MappingStart));
                return true;
            case SequenceEnd or MappingEnd:
                Add(_open.Pop().Close(), mark);
                return true;
            default:
                return true;
        }
    }

    private void RefuseDecoration(NodeEvent node, Mark mark)
    {
        if (!node.Anchor.IsEmpty)
            _file.Problem(mark, "", "file.anchor", Words.Quote(node.Anchor.Value));
        if (!node.Tag.IsEmpty)
            _file.Problem(mark, "", "file.tag", Words.Quote(node.Tag.ToString()));
    }

    private void Add(Node node, Mark mark)
    {
        if (_open.Count == 0)
            _root = node;
        else
            _open.Peek().Add(node, mark, _file);
    }

    private static Mark MarkOf(YamlDotNet.Core.Mark mark) =>
        new((int)Math.Clamp(mark.Line, 1, int.MaxValue), (int)Math.Clamp(mark.Column, 1, int.MaxValue));
}
