using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Api;

/// <summary>Reads what another program sends: JSON in UTF-8, one object, of bounded size.</summary>
internal static class Bodies
{
    /// <summary>Largest body. [bytes]</summary>
    public const int Largest = 1024 * 1024;

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>The bytes; may be read again by whoever comes after.</summary>
    public static async Task<byte[]> Bytes(HttpContext context)
    {
        if (context.Items[typeof(Bodies)] is byte[] read)
            return read;
        using var memory = new MemoryStream();
        await context.Request.Body.CopyToAsync(memory, context.RequestAborted);
        byte[] bytes = memory.ToArray();
        context.Items[typeof(Bodies)] = bytes;
        return bytes;
    }

    /// <summary>The object, or why there is none.</summary>
    public static async Task<(JsonObject? Body, Told? Refused)> Object(HttpContext context)
    {
        byte[] bytes = await Bytes(context);
        try
        {
            string text = Strict.GetString(bytes);
            using var whole = JsonDocument.Parse(text, new JsonDocumentOptions { MaxDepth = 64, AllowDuplicateProperties = false });
            return NodeJson.ObjectOf(text) is { } body ? (body, null) : (null, Refusal.Of(context, "", "api.no-object"));
        }
        catch (JsonException e)
        {
            return (null, Refusal.Of(context, RefusalKind.Unreadable, (e.LineNumber ?? 0) + 1, (e.BytePositionInLine ?? 0) + 1));
        }
        catch (DecoderFallbackException)
        {
            return (null, Refusal.Of(context, RefusalKind.Unreadable, 1, 1));
        }
    }
}
