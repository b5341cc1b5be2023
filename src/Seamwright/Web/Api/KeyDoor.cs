using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;
using Seamwright.Program.Web.Access;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Programs;

namespace Seamwright.Program.Web.Api;

/// <summary>Lets other programs in by their key (<c>Authorization: Bearer …</c>, RFC 6750, 2.1), and by nothing else.</summary>
internal sealed class KeyDoor(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logs, UrlEncoder encoder, ShopStore store, Paces paces, Words words)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logs, encoder)
{
    /// <summary>Name of the scheme.</summary>
    public const string SchemeName = "key";

    /// <summary>Claim: which key.</summary>
    public const string KeyClaim = "program-key";

    private const string Begin = "Bearer ";

    /// <summary>The key of a request that came in by this door.</summary>
    public static Guid KeyOf(HttpContext context) => Guid.Parse(context.User.FindFirstValue(KeyClaim)!);

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        string header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Begin, StringComparison.OrdinalIgnoreCase))
            return AuthenticateResult.NoResult();
        string address = Context.Connection.RemoteIpAddress?.ToString() ?? "";
        if (paces.HasGuessedTooOften(address))
            return AuthenticateResult.Fail("guessed too often");
        string text = header[Begin.Length..].Trim();
        var stop = Context.RequestAborted;
        if (!KeyText.CouldBe(text) || await store.ProgramKeyOf(KeyText.Hash(text), stop) is not { } key || !key.IsGood(store.Now)
            || await store.AccountOf(key.Account, stop) is not { Closed: false } account)
        {
            paces.CountGuess(address);
            return AuthenticateResult.Fail("no key that opens");
        }

        await store.NoteUse(key, stop);
        // Asked at each request: whoever made the key may have lost the right meanwhile.
        var claims = key.Scopes.Where(scope => Scope.IsOpenTo(scope, account.Roles)).Select(scope => new Claim(Scope.Claim, scope))
            .Append(new(KeyClaim, key.Id.ToString())).Append(new(ClaimTypes.Name, words.Say("api.by-key", key.Name)));
        return AuthenticateResult.Success(new(new(new ClaimsIdentity(claims, SchemeName)), SchemeName));
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        if (paces.HasGuessedTooOften(Context.Connection.RemoteIpAddress?.ToString() ?? ""))
        {
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            Response.Headers[HeaderNames.RetryAfter] = "60";
            return Task.CompletedTask;
        }
        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.WWWAuthenticate = Request.Headers.Authorization.Count > 0 ? "Bearer realm=\"seamwright\", error=\"invalid_token\"" : "Bearer realm=\"seamwright\"";
        return Task.CompletedTask;
    }

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status403Forbidden;
        var missing = Context.GetEndpoint()?.Metadata.GetOrderedMetadata<Microsoft.AspNetCore.Authorization.IAuthorizeData>().Select(rule => Scope.Of(rule.Policy)).OfType<string>();
        Response.Headers.WWWAuthenticate = $"Bearer realm=\"seamwright\", error=\"insufficient_scope\", scope=\"{string.Join(' ', missing ?? [])}\"";
        return Task.CompletedTask;
    }
}
