using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;

namespace Seamwright.Program.Web.Api;

/// <summary>An endpoint for programs.</summary>
/// <param name="Method">HTTP method.</param>
/// <param name="Path">Address with its places in braces.</param>
/// <param name="Name">Name of what it does.</param>
/// <param name="Scope">Scope that a key needs.</param>
internal sealed record ApiDoor(string Method, string Path, string Name, string Scope);

/// <summary>All endpoints for programs, read from the route table, so that no list of them can grow old.</summary>
internal static class ApiDoors
{
    public static IEnumerable<ApiDoor> In(EndpointDataSource routes) =>
        from endpoint in routes.Endpoints.OfType<RouteEndpoint>()
        let name = endpoint.Metadata.GetMetadata<IEndpointNameMetadata>()?.EndpointName
        let scope = endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Select(rule => Scope.Of(rule.Policy)).FirstOrDefault(scope => scope is not null)
        where name is not null && scope is not null && scope != Scope.Describe
        from method in endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? []
        select new ApiDoor(method, endpoint.RoutePattern.RawText!, name, scope);
}
