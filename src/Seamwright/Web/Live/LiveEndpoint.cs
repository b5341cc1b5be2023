using System.Globalization;
using Seamwright.Program.Web.Access;

namespace Seamwright.Program.Web.Live;

/// <summary>Server-sent events (HTML standard, 9.2) for open pages, and the same number to be asked for where they do not get through.</summary>
internal static class LiveEndpoint
{
    /// <summary>Where all of it is: nothing that a person opens.</summary>
    public const string Path = "/live";

    /// <summary>A sign of life, so that a page notices a lost connection.</summary>
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(10);

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, Stream).RequireAuthorization(Right.SeeShop);
        app.MapGet(Path + "/number", (Changes changes) => changes.Number.ToString(CultureInfo.InvariantCulture)).RequireAuthorization(Right.SeeShop);
    }

    private static async Task Stream(HttpContext context, Changes changes, IHostApplicationLifetime life)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, life.ApplicationStopping);
        context.Response.ContentType = "text/event-stream";
        var events = changes.Listen(stop.Token).GetAsyncEnumerator(stop.Token);
        try
        {
            var next = events.MoveNextAsync().AsTask();
            while (true)
            {
                string message = await Task.WhenAny(next, Task.Delay(Beat, stop.Token)) == next
                    ? await next ? $"data: {events.Current.ToString(CultureInfo.InvariantCulture)}\n\n" : ""
                    : ": here\n\n";
                if (message.Length == 0)
                    return;
                if (next.IsCompleted)
                    next = events.MoveNextAsync().AsTask();
                await context.Response.WriteAsync(message, stop.Token);
                await context.Response.Body.FlushAsync(stop.Token);
            }
        }
        catch (OperationCanceledException)
        {
            // The page was closed or the program ends.
        }
        finally
        {
            stop.Cancel();
        }
    }
}
