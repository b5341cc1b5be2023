using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.Net.Http.Headers;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web.Access;

/// <summary>Signing in and out.</summary>
internal static class SignedIn
{
    public const string StampClaim = "stamp";

    public static async Task In(HttpContext context, Account account)
    {
        var claims = new List<Claim>
        {
            new(ClaimTypes.NameIdentifier, account.Id.ToString()),
            new(ClaimTypes.Name, account.Name),
            new(StampClaim, account.Stamp),
        };
        claims.AddRange(account.Roles.Select(role => new Claim(ClaimTypes.Role, role)));
        var identity = new ClaimsIdentity(claims, CookieAuthenticationDefaults.AuthenticationScheme);
        await WithNewKey(context, new ClaimsPrincipal(identity));
    }

    public static Task Out(HttpContext context) => context.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);

    /// <summary>A place on this site to go back to; the first page where it is none.</summary>
    public static string Back(string? asked) =>
        asked is { Length: > 0 } path && path[0] == '/' && !path.StartsWith("//", StringComparison.Ordinal) && !path.Contains('\\', StringComparison.Ordinal) && !path.Any(char.IsControl) ? path : "/";

    /// <summary>
    /// A sign-in never goes on under the key of the one before (OWASP ASVS 5.0.0, 7.2.4): the handler that has read the old cookie would only
    /// renew what lies under its key, so the old one ends and a handler that has not seen it makes the new one.
    /// </summary>
    private static async Task WithNewKey(HttpContext context, ClaimsPrincipal principal)
    {
        var services = context.RequestServices;
        var scheme = await services.GetRequiredService<IAuthenticationSchemeProvider>().GetSchemeAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        if (context.User.Identity?.IsAuthenticated == true)
            await Out(context);
        var before = context.Request.Headers.Cookie;
        context.Request.Headers.Remove(HeaderNames.Cookie);
        var handler = services.GetRequiredService<CookieAuthenticationHandler>();
        await handler.InitializeAsync(scheme!, context);
        await handler.SignInAsync(principal, new AuthenticationProperties { IsPersistent = false });
        context.Request.Headers.Cookie = before;
    }
}
