using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.Net.Http.Headers;

namespace Seamwright.Program.Web.Api;

/// <summary>An answer to another program: JSON, or nothing but its status.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Text">The body; empty = none.</param>
/// <param name="Tag">Version of what is told, as an entity tag (RFC 9110, 8.8.3); null = it has none.</param>
/// <param name="Location">Where what was made can be found; null = nothing was made.</param>
internal sealed record Told(int Status, string Text, string? Tag = null, string? Location = null) : IResult
{
    public const string Json = "application/json";

    public const string Problem = "application/problem+json";

    /// <summary>How answers are written: names like those in our files, letters as they are.</summary>
    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Web)
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>What was asked for.</summary>
    public static Told Of<T>(T body, string? tag = null) => new(StatusCodes.Status200OK, JsonSerializer.Serialize(body, Options), tag);

    /// <summary>Something new.</summary>
    public static Told Made<T>(T body, string location, string? tag = null) => new(StatusCodes.Status201Created, JsonSerializer.Serialize(body, Options), tag, location);

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.StatusCode = Status;
        if (Location is not null)
            response.Headers.Location = Location;
        if (Tag is not null)
        {
            response.Headers.ETag = Tag;
            response.Headers.CacheControl = "private, no-cache";
            response.Headers.Vary = HeaderNames.Authorization;
        }
        if (Text.Length == 0)
            return;
        response.ContentType = Status >= StatusCodes.Status400BadRequest ? Problem : Json;
        await response.WriteAsync(Text, httpContext.RequestAborted);
    }
}
