using Microsoft.AspNetCore.Mvc;
using Seamwright.Program.Web.Access;
using Seamwright.Storage;

namespace Seamwright.Program.Web.Desk;

/// <summary>Ends the search that runs and keeps the best plan found. A door of its own: the page it is asked from may have changed since, and one that has ended already is no mistake.</summary>
internal static class StopEndpoint
{
    public const string Path = "/stop-search";

    public static void Map(IEndpointRouteBuilder app) => app.MapPost(Path, Stop).RequireAuthorization(Right.ChangeRepairs);

    private static async Task<IResult> Stop([FromForm] string? back, HttpContext context, ShopDesk desk, ShopStore store)
    {
        desk.StopSearch();
        await Audited.Tell(store, context, context.User.Identity!.Name!, "search-stopped");
        return Results.LocalRedirect(SignedIn.Back(back));
    }
}
