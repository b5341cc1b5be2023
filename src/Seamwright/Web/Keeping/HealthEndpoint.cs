using System.Text.Json;
using NodaTime.Text;
using Seamwright.Storage;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Health;

namespace Seamwright.Program.Web.Keeping;

/// <summary>Signs of life for machines that watch: no names, versions or paths, as anybody may ask.</summary>
internal static class HealthEndpoint
{
    public const string Ready = "/health/ready";

    public const string Live = "/health/live";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Live, () => "live").AllowAnonymous();
        app.MapGet(Ready, Answer).AllowAnonymous();
    }

    private static async Task<IResult> Answer(ShopStore store, CancellationToken stop)
    {
        var lines = await store.Glance(stop);
        // What is to be mended but does not keep anybody from working must not take the app from them.
        if (lines.Any(line => line.Key is "doctor.unreadable" or "doctor.schema-older" or "doctor.schema-newer"))
            return Results.Json(new Readiness("not-ready", null, []), JsonSerializerOptions.Web, statusCode: StatusCodes.Status503ServiceUnavailable);
        var copies = await store.CopiesNow(stop);
        return Results.Json(new Readiness(
            "ready",
            copies.LastGood is { } last ? InstantPattern.General.Format(last) : null,
            [.. lines.Where(line => !line.IsGood).Select(line => line.Key[(line.Key.IndexOf('.', StringComparison.Ordinal) + 1)..])]), JsonSerializerOptions.Web);
    }

    /// <summary>The answer.</summary>
    /// <param name="Status"><c>ready</c>, <c>not-ready</c> or <c>starting</c>.</param>
    /// <param name="LastGoodBackup">When the last backup was written that is known to restore; null = never.</param>
    /// <param name="ToMend">What is not as it should be, a word each.</param>
    internal sealed record Readiness(string Status, string? LastGoodBackup, string[] ToMend);
}
