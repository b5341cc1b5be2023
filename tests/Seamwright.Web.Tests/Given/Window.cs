using System.Collections.Concurrent;
using Microsoft.Playwright;
using Xunit;

namespace Seamwright.Web.Tests.Given;

/// <summary>A browser window that keeps account of what must never happen: broken rules of the content policy, faults of scripts, requests to elsewhere.</summary>
internal sealed class Window : IAsyncDisposable
{
    private static int _addresses;

    private readonly WebShop _shop;
    private readonly ConcurrentQueue<string> _never = new();

    private Window(WebShop shop, IPage page)
    {
        _shop = shop;
        Page = page;
        page.PageError += (_, fault) => _never.Enqueue($"fault of a script: {fault}");
        page.Console += (_, line) =>
        {
            // An answer that is no page, and a connection that the test cuts, are told here too; they are the business of the tests.
            if (line.Type == "error" && !line.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
                _never.Enqueue($"{line.Text} at {page.Url}");
        };
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(shop.Address.AbsoluteUri, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal) && !request.Url.StartsWith("blob:", StringComparison.Ordinal))
                _never.Enqueue($"request to {request.Url}");
        };
    }

    public IPage Page { get; }

    public ILocator Alert => Page.Locator(".wrongs");

    public static async Task<Window> Open(IBrowser browser, WebShop shop, Screen screen, string? state)
    {
        var context = await browser.NewContextAsync(new()
        {
            BaseURL = shop.Address.AbsoluteUri,
            ViewportSize = new() { Width = screen.Width, Height = screen.Height },
            ColorScheme = screen.Scheme,
            StorageState = state,
            ReducedMotion = ReducedMotion.Reduce,
            Locale = "en-GB",
            ExtraHTTPHeaders = [new(Visitor.AddressHeader, $"10.1.0.{Interlocked.Increment(ref _addresses)}")],
        });
        context.SetDefaultTimeout(30_000);
        return new(shop, await context.NewPageAsync());
    }

    public async Task<int> Go(string path) => (await Page.GotoAsync(path))?.Status ?? 0;

    public async Task SignIn(string name, string password = WebShop.Password)
    {
        await Go("/sign-in");
        await Page.GetByLabel("Name").FillAsync(name);
        await Page.GetByLabel("Password").FillAsync(password);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).WaitForAsync();
    }

    public async Task Show(Screen screen)
    {
        await Page.SetViewportSizeAsync(screen.Width, screen.Height);
        await Page.EmulateMediaAsync(new() { ColorScheme = screen.Scheme });
    }

    /// <summary>Keeps a picture of the whole page to be looked at.</summary>
    public Task Keep(string name) => Page.ScreenshotAsync(new() { Path = Path.Combine(Chromium.Screens, name + ".png"), FullPage = true });

    /// <summary>Clicks and waits until the page it leads to is there.</summary>
    public async Task Follow(ILocator what, string to)
    {
        await what.ClickAsync();
        await Page.WaitForURLAsync($"{_shop.Address.GetLeftPart(UriPartial.Authority)}{to}");
    }

    public async ValueTask DisposeAsync()
    {
        await Page.Context.CloseAsync();
        Assert.Empty(_never);
    }
}
