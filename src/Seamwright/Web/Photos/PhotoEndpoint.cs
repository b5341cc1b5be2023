using Seamwright.Program.Web.Access;
using Seamwright.Storage;
using Seamwright.Storage.Queries;

namespace Seamwright.Program.Web.Photos;

/// <summary>
/// Shows kept photos to those who may see the shop, by their id and never by a path, as nothing else than pictures (OWASP ASVS 5.0.0, 5.3.2, 5.4.1); the headers of every answer forbid
/// to guess another type.
/// </summary>
internal static class PhotoEndpoint
{
    // Taken as text: what is no id at all is as little there as an id of nothing.
    private const string Path = "/photos/{id}";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, Whole).RequireAuthorization(Right.SeeShop);
        app.MapGet(Path + "/small", Small).RequireAuthorization(Right.SeeShop);
    }

    private static async Task<IResult> Whole(string id, ShopStore store, PhotoDesk desk, CancellationToken stop) =>
        await Find(id, store, stop) is { } photo && await desk.Read(photo, stop) is { } bytes
            ? Results.Bytes(bytes, photo.Type)
            : Results.NotFound();

    private static async Task<IResult> Small(string id, ShopStore store, PhotoDesk desk, CancellationToken stop) =>
        await Find(id, store, stop) is { } photo && await desk.Small(photo, stop) is { } bytes
            ? Results.Bytes(bytes, "image/jpeg")
            : Results.NotFound();

    private static async Task<PhotoLine?> Find(string id, ShopStore store, CancellationToken stop) =>
        Guid.TryParse(id, out var known) && await store.Photo(known, stop) is { Type: "image/jpeg" or "image/png" or "image/webp" } photo ? photo : null;
}
