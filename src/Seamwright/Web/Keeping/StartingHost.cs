using System.Net;
using System.Net.Sockets;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Access;
using Seamwright.Storage.Databases;

namespace Seamwright.Program.Web.Keeping;

/// <summary>
/// Answers in the app's place while its data is brought up to date: that it is starting. Whoever watches the program must not take it for
/// dead and end it in the middle. Begins with the first step; does nothing where there is none.
/// </summary>
internal sealed class StartingHost(string url, Formatter words) : IProgress<UpgradeStep>, IAsyncDisposable
{
    private const int AgainInSeconds = 3;

    private WebApplication? _app;
    // Steps name files of the machine and stand on the console; here, for everybody on the network, only that it goes on.
    public void Report(UpgradeStep value) => _app ??= Begin();

    public async ValueTask DisposeAsync()
    {
        if (_app is null)
            return;
        await _app.StopAsync();
        await _app.DisposeAsync();
        _app = null;
    }

    private WebApplication? Begin()
    {
        try
        {
            var builder = WebApplication.CreateSlimBuilder();
            builder.WebHost.UseUrls(url);
            builder.WebHost.ConfigureKestrel(options => options.AddServerHeader = false);
            builder.Logging.ClearProviders();
            var app = builder.Build();
            SafeHeaders.Use(app);
            app.Run(Answer);
            app.Start();
            return app;
        }
        catch (Exception e) when (e is IOException or SocketException or InvalidOperationException or NotSupportedException or FormatException)
        {
            // An address that cannot be listened on is told when the app itself wants it; the data is brought up to date all the same.
            return null;
        }
    }

    private Task Answer(HttpContext context)
    {
        if (context.Request.Path == HealthEndpoint.Live)
            return context.Response.WriteAsync("live");
        context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
        context.Response.Headers.RetryAfter = AgainInSeconds.ToString(System.Globalization.CultureInfo.InvariantCulture);
        if (context.Request.Path == HealthEndpoint.Ready)
            return context.Response.WriteAsJsonAsync(new HealthEndpoint.Readiness("starting", null, []));
        context.Response.ContentType = "text/html; charset=utf-8";
        string title = WebUtility.HtmlEncode(words.Say("upgrade.page"));
        return context.Response.WriteAsync($"""
            <!doctype html>
            <html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark">
            <meta http-equiv="refresh" content="{AgainInSeconds}"><title>{title}</title></head>
            <body><main><h1>{title}</h1><p>{WebUtility.HtmlEncode(words.Say("upgrade.page.wait"))}</p></main></body></html>
            """);
    }
}
