using Microsoft.AspNetCore.Components.Endpoints;
using Seamwright.Program.Web.Pages;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;

namespace Seamwright.Program.Web.Access;

/// <summary>While nobody has an account every page leads to the first one; afterwards that page is gone.</summary>
internal sealed class FirstRun(ShopStore store)
{
    public const string Page = "/begin";

    private volatile bool _over;

    /// <summary>Whether somebody has an account.</summary>
    public async Task<bool> IsOver(CancellationToken stop) => _over || (_over = await store.HasAccounts(stop));

    public static void Use(IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var firstRun = context.RequestServices.GetRequiredService<FirstRun>();
        var page = context.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>()?.Type;
        bool isPage = page is not null && page != typeof(Fault) && page != typeof(NotHere);
        bool here = context.Request.Path.StartsWithSegments(Page, StringComparison.Ordinal);
        if (here && await firstRun.IsOver(context.RequestAborted))
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }
        if (isPage && !here && !await firstRun.IsOver(context.RequestAborted))
        {
            context.Response.Redirect(Page);
            return;
        }
        await next(context);
    });
}
