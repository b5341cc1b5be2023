using System.Buffers;
using System.IO.Pipelines;
using System.Runtime.CompilerServices;

namespace Seamwright.Storage.Copies;

/// <summary>Lines of a table in a backup, as bytes; one without an end is refused before it fills the memory.</summary>
internal static class RowLines
{
    /// <summary>The lines one after the other; each counts only until the next is asked for.</summary>
    /// <exception cref="FormatException">A line is longer than any row can be.</exception>
    public static async IAsyncEnumerable<ReadOnlyMemory<byte>> Of(Stream stream, int longest, [EnumeratorCancellation] CancellationToken stop)
    {
        var reader = PipeReader.Create(stream, new StreamPipeReaderOptions(bufferSize: 64 * 1024, leaveOpen: true));
        try
        {
            // So much of the rest was looked through already and has no end in it.
            long seen = 0;
            while (true)
            {
                var read = await reader.ReadAsync(stop);
                var rest = read.Buffer;
                while (rest.Slice(seen).PositionOf((byte)'\n') is { } end)
                {
                    seen = 0;
                    var line = rest.Slice(0, end);
                    rest = rest.Slice(rest.GetPosition(1, end));
                    if (line.Length > longest)
                        throw new FormatException("A row is too long.");
                    yield return line.IsSingleSegment ? line.First : line.ToArray();
                }

                if (rest.Length > longest)
                    throw new FormatException("A row is too long.");
                if (read.IsCompleted && !rest.IsEmpty)
                    yield return rest.IsSingleSegment ? rest.First : rest.ToArray();
                seen = rest.Length;
                reader.AdvanceTo(read.IsCompleted ? rest.End : rest.Start, rest.End);
                if (read.IsCompleted)
                    yield break;
            }
        }
        finally
        {
            await reader.CompleteAsync();
        }
    }
}
