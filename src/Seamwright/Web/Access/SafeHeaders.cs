namespace Seamwright.Program.Web.Access;

/// <summary>
/// What browsers are told about every answer: own scripts and styles only, no frames, nothing guessed, nothing leaked to other sites
/// (OWASP ASVS 5.0.0, 3.4); personal pages are not kept (14.3.2).
/// </summary>
internal static class SafeHeaders
{
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
        + "form-action 'self'; base-uri 'none'; object-src 'none'; frame-ancestors 'none'";

    public static void Use(IApplicationBuilder app) => app.Use((context, next) =>
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = Policy;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=()";
            if (!headers.ContainsKey("Cache-Control"))
                headers.CacheControl = "no-store";
            return Task.CompletedTask;
        });
        return next(context);
    });
}
