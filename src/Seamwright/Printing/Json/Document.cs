using System.Collections.Immutable;
using System.Text.Json;
using Seamwright.Work;

namespace Seamwright.Program.Printing.Json;

/// <summary>What the documents have in common: one object, readable letters, a newline at the end.</summary>
internal static class Document
{
    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        NewLine = "\n",
        // Readable letters instead of \u escapes; the document is never embedded in a page.
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>One object, UTF-8.</summary>
    public static byte[] Of(Action<Utf8JsonWriter> write)
    {
        using var memory = new MemoryStream();
        using (var json = new Utf8JsonWriter(memory, Options))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }
        memory.WriteByte((byte)'\n');
        return memory.ToArray();
    }

    /// <summary>Facts that clash, conflict by conflict.</summary>
    public static void Conflicts(Utf8JsonWriter json, JsonTo to, ImmutableArray<Conflict> conflicts)
    {
        json.WriteStartArray("conflicts");
        foreach (var conflict in conflicts)
        {
            json.WriteStartArray();
            foreach (var fact in conflict.Facts)
            {
                json.WriteStartObject();
                json.WriteString("id", fact.Id);
                to.Text("place", fact.Place?.Value);
                to.Reason("reason", fact.Reason);
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        json.WriteEndArray();
    }
}
