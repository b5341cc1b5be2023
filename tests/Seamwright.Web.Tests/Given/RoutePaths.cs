using Microsoft.AspNetCore.Routing;

namespace Seamwright.Web.Tests.Given;

/// <summary>A path to try for every route: names in it are taken from the invented shop.</summary>
internal static class RoutePaths
{
    /// <summary>False for what the framework adds to the route table by itself.</summary>
    public static bool IsOwn(RouteEndpoint endpoint) => endpoint.RoutePattern.RawText is not ("{**path:file}" or "/_framework/opaque-redirect");

    public static string Of(RouteEndpoint endpoint, string repair)
    {
        string route = "/" + endpoint.RoutePattern.RawText!.TrimStart('/');
        string path = route
            .Replace("/repairs/{Id}", $"/repairs/{repair}", StringComparison.Ordinal)
            .Replace("/materials/{Id}", "/materials/MS1", StringComparison.Ordinal)
            .Replace("/start/{Which}", "/start/quarter-panel", StringComparison.Ordinal);
        return path.Contains('{', StringComparison.Ordinal)
            ? throw new InvalidOperationException($"The route {route} is new: name an example of it here, so that it is tried as every role, looked at by axe and crawled.")
            : path;
    }
}
