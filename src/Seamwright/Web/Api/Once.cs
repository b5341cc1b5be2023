using System.Security.Cryptography;
using System.Text;
using Microsoft.Net.Http.Headers;
using Seamwright.Storage;
using Seamwright.Storage.Programs;

namespace Seamwright.Program.Web.Api;

/// <summary>
/// Lets a request that makes something be sent again without harm: it has a name of its own, and what was answered under that name is answered
/// again (draft-ietf-httpapi-idempotency-key-header). Kept in the store, so that it holds over a restart.
/// </summary>
internal sealed class Once(ShopStore store) : IEndpointFilter
{
    /// <summary>Header with the name.</summary>
    public const string Header = "Idempotency-Key";

    private const int Shortest = 8;
    private const int Longest = 100;

    private readonly Guid _run = store.NewId();

    /// <summary>An id that is the same whenever the request is sent again.</summary>
    public static Guid IdOf(HttpContext context) =>
        new(SHA256.HashData(Encoding.UTF8.GetBytes($"{KeyDoor.KeyOf(context)} {NameOf(context)}")).AsSpan(0, 16));

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        if (NameOf(http) is not { } name)
            return Refusal.Of(http, RefusalKind.Unnamed, Shortest, Longest);
        var request = new NamedRequest(KeyDoor.KeyOf(http), name, await Fingerprint(http), _run);
        switch (await store.BeginAnswer(request, stop: http.RequestAborted))
        {
            case AnswerKnown.Before(var kept):
                return new Told(kept.Status, kept.Body, kept.Tag, kept.Location);
            case AnswerKnown.OtherRequest:
                return Refusal.Of(http, RefusalKind.OtherRequest, name);
            case AnswerKnown.StillRunning:
                http.Response.Headers[HeaderNames.RetryAfter] = "1";
                return Refusal.Of(http, RefusalKind.StillRunning, name);
            case AnswerKnown.TooMany:
                return Refusal.Of(http, RefusalKind.TooMany, KeepingAnswers.MostKept);
        }

        Told? answer = null;
        try
        {
            answer = await next(context) as Told;
            return answer;
        }
        finally
        {
            // Whoever hung up meanwhile may ask again, so neither is broken off.
            if (answer is { Status: < StatusCodes.Status500InternalServerError })
                await store.KeepAnswer(request, new(answer.Status, answer.Text, answer.Tag, answer.Location), CancellationToken.None);
            else
                await store.ForgetAnswer(request, CancellationToken.None);
        }
    }

    // The draft writes it as a quoted string; many programs leave the quotes out.
    private static string? NameOf(HttpContext context)
    {
        string name = context.Request.Headers[Header].ToString().Trim();
        if (name.Length > 1 && name[0] == '"' && name[^1] == '"')
            name = name[1..^1];
        return name.Length is >= Shortest and <= Longest && name.All(c => c is > ' ' and <= '~') ? name : null;
    }

    private static async Task<string> Fingerprint(HttpContext context)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{context.Request.Method} {context.Request.Path}{context.Request.QueryString}\n"));
        hash.AppendData(await Bodies.Bytes(context));
        return Convert.ToHexString(hash.GetHashAndReset());
    }
}
