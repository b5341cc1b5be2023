using Microsoft.AspNetCore.Routing;

namespace Seamwright.Program.Web.Api;

/// <summary>
/// The outermost of the doors for programs: takes away cookies, and gives what failed or was refused on its way the form that every refusal has.
/// </summary>
internal static partial class ApiFaults
{
    public static void Use(IApplicationBuilder app) => app.UseWhen(IsApi, api => api.Use(async (context, next) =>
    {
        // A cookie opens nothing here, so that a foreign site that has a browser send it gets nothing; only the description is for people too.
        if (!context.Request.Path.Equals(ApiHost.Description, StringComparison.Ordinal))
            context.Request.Headers.Remove("Cookie");
        try
        {
            await next(context);
        }
        catch (BadHttpRequestException e) when (!context.Response.HasStarted)
        {
            context.Response.Clear();
            context.Response.StatusCode = e.StatusCode;
        }
        catch (Exception e) when (!context.Response.HasStarted && !context.RequestAborted.IsCancellationRequested)
        {
            Failed(context.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(ApiFaults)), context.Request.Method, context.GetEndpoint()?.DisplayName, e);
            context.Response.Clear();
            context.Response.StatusCode = StatusCodes.Status500InternalServerError;
        }
        if (context.Response is { HasStarted: false, StatusCode: >= 400, ContentLength: null, ContentType: null or "" } response)
            await Refusal.Of(context, Refusal.ByStatus(response.StatusCode)).ExecuteAsync(context);
    }));

    /// <summary>Answers that routing itself gives (no such address, another method, another type) are given before anybody asks for a key.</summary>
    public static void UseRouted(IApplicationBuilder app) => app.UseWhen(IsApi, api => api.Use((context, next) =>
    {
        switch (context.GetEndpoint())
        {
            case RouteEndpoint:
                return next(context);
            case { RequestDelegate: { } answer }:
                return answer(context);
            default:
                context.Response.StatusCode = StatusCodes.Status404NotFound;
                return Task.CompletedTask;
        }
    }));

    private static bool IsApi(HttpContext context) => context.Request.Path.StartsWithSegments(ApiHost.Root, StringComparison.Ordinal);

    [LoggerMessage(Level = LogLevel.Error, Message = "A request of another program failed: {Method} {Endpoint}")]
    private static partial void Failed(ILogger log, string method, string? endpoint, Exception cause);
}
