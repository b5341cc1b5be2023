using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;

namespace Seamwright.Web.Tests.Given;

/// <summary>A path to try for every route: names in it are taken from the invented shop.</summary>
internal static class RoutePaths
{
    /// <summary>False for what the framework adds to the route table by itself.</summary>
    public static bool IsOwn(RouteEndpoint endpoint) => endpoint.RoutePattern.RawText is not ("{**path:file}" or "/_framework/opaque-redirect");

    /// <summary>True for the doors of other programs, which a key opens and no sign-in.</summary>
    public static bool IsForPrograms(RouteEndpoint endpoint) => endpoint.RoutePattern.RawText!.StartsWith("/api/v1", StringComparison.Ordinal);

    /// <summary>True for what people open in a browser.</summary>
    public static bool IsPage(RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null;

    /// <summary>The route as a name for a picture.</summary>
    public static string Named(RouteEndpoint endpoint) =>
        endpoint.RoutePattern.RawText!.Trim('/').Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal).Replace('/', '-') is { Length: > 0 } name ? name.ToLowerInvariant() : "today";

    public static string Of(RouteEndpoint endpoint, string repair)
    {
        string route = "/" + endpoint.RoutePattern.RawText!.TrimStart('/');
        string path = route
            .Replace("/repairs/{Id}", $"/repairs/{repair}", StringComparison.Ordinal)
            .Replace("/repairs/{id}", $"/repairs/{repair}", StringComparison.Ordinal)
            .Replace("/materials/{id}", "/materials/MS1", StringComparison.Ordinal)
            .Replace("/packs/{id}", "/packs/B1", StringComparison.Ordinal)
            .Replace("/materials/{Id}", "/materials/MS1", StringComparison.Ordinal)
            .Replace("/photos/{id}", $"/photos/{BusyShop.Photo}", StringComparison.Ordinal)
            .Replace("/shelf/{Id}", "/shelf/B1", StringComparison.Ordinal)
            .Replace("/start/{Which}", "/start/quarter-panel", StringComparison.Ordinal);
        return path.Contains('{', StringComparison.Ordinal)
            ? throw new InvalidOperationException($"The route {route} is new: name an example of it here, so that it is tried as every role, looked at by axe and crawled.")
            : path;
    }
}
