using Microsoft.AspNetCore.Components.Endpoints;

namespace Seamwright.Program.Web.Desk;

/// <summary>
/// Pages opened in the first moments after the start wait for the desk's first look at the shop: before it nobody knows the shop's zone,
/// units and money, and a page would tell its times in another zone than a moment later.
/// </summary>
internal static class FirstLook
{
    // A desk that cannot look (a document that cannot be read) keeps nobody out.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(3);

    public static void Use(IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        var looked = context.RequestServices.GetRequiredService<ShopDesk>().Looked;
        bool isPage = context.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>() is not null;
        if (isPage && !looked.IsCompleted && context.User.Identity is { IsAuthenticated: true })
            await Task.WhenAny(looked, Task.Delay(Longest, context.RequestAborted));
        await next(context);
    });
}
