using System.Text;
using System.Text.Json;

namespace Seamwright.Files.Trees;

/// <summary>Reads JSON into the same tree as YAML, with marks.</summary>
internal static class JsonTree
{
    /// <summary>The tree, or null where the text could not be read; the problem has been told.</summary>
    public static Node? Read(string text, SourceFile file)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        var lines = new LineCount(bytes);
        var open = new Stack<Level>();
        Node? root = null;
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = YamlTree.DeepestNesting + 1 });
        try
        {
            while (reader.Read())
            {
                var mark = lines.MarkAt((int)reader.TokenStartIndex);
                Node? done = null;
                switch (reader.TokenType)
                {
                    case JsonTokenType.StartArray or JsonTokenType.StartObject when open.Count >= YamlTree.DeepestNesting:
                        file.Problem(mark, "", "file.too-deep", Words.Number(YamlTree.DeepestNesting));
                        return null;
                    case JsonTokenType.StartArray:
                    case JsonTokenType.StartObject:
                        open.Push(new Level(mark, reader.TokenType == JsonTokenType.StartObject));
                        break;
                    case JsonTokenType.EndArray:
                    case JsonTokenType.EndObject:
                        done = open.Pop().Close();
                        break;
                    case JsonTokenType.String:
                    case JsonTokenType.PropertyName:
                        done = new ScalarNode(mark, reader.GetString()!, false);
                        break;
                    default:
                        done = new ScalarNode(mark, Encoding.UTF8.GetString(reader.ValueSpan), true);
                        break;
                }

                if (done is null)
                    continue;
                if (open.Count == 0)
                    root = done;
                else
                    open.Peek().Add(done, mark, file);
            }
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            // The reader stops at the byte that it cannot take; depth is told by the same exception, hence the stack is asked first.
            var mark = lines.MarkAt((int)Math.Min(reader.BytesConsumed, bytes.Length));
            if (open.Count >= YamlTree.DeepestNesting)
                file.Problem(mark, "", "file.too-deep", Words.Number(YamlTree.DeepestNesting));
            else
                file.Problem(mark, "", "file.json");
            return null;
        }

        return root;
    }

    /// <summary>Turns ascending byte offsets into lines and columns in one pass.</summary>
    private sealed class LineCount(byte[] bytes)
    {
        private int _line = 1;
        private int _column = 1;
        private int _at;

        public Mark MarkAt(int offset)
        {
            for (; _at < offset; _at++)
            {
                if (bytes[_at] == (byte)'\n')
                {
                    _line++;
                    _column = 1;
                }
                else if ((bytes[_at] & 0xC0) != 0x80)   // a character's later bytes do not count
                {
                    _column++;
                }
            }

            return new(_line, _column);
        }
    }
}
