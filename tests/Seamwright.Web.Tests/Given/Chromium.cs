using System.Collections.Concurrent;
using Microsoft.Playwright;
using Seamwright.Web.Tests.Given;
using Xunit;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace Seamwright.Web.Tests.Given;

/// <summary>A real browser for all tests that look at pages; started by the first of them.</summary>
public sealed class Chromium : IAsyncDisposable
{
    private static readonly string[] Names = ["chromium", "chromium-browser"];

    private readonly ConcurrentDictionary<(Uri, string), Lazy<Task<string>>> _signedIn = new();
    private readonly Lazy<Task<IBrowser>> _browser;
    private IPlaywright? _driver;

    public Chromium() => _browser = new(Start);

    /// <summary>Pictures of what was seen, to be looked at by people; not kept in the repository.</summary>
    internal static string Screens { get; } = Directory.CreateDirectory(Path.Combine(Root(), "artifacts", "screens")).FullName;

    /// <summary>A window of its own in which nobody is signed in.</summary>
    internal async Task<Window> Open(WebShop shop, Screen? screen = null) => await Window.Open(await Browser(), shop, screen ?? Screen.Desk, null);

    /// <summary>A window in which somebody is signed in already.</summary>
    internal async Task<Window> Open(WebShop shop, string name, Screen? screen = null)
    {
        var browser = await Browser();
        string state = await _signedIn.GetOrAdd((shop.Address, name), _ => new(() => SignIn(browser, shop, name))).Value;
        return await Window.Open(browser, shop, screen ?? Screen.Desk, state);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_browser.IsValueCreated && _browser.Value.IsCompletedSuccessfully)
            await (await _browser.Value).DisposeAsync();
        _driver?.Dispose();
    }

    private static async Task<string> SignIn(IBrowser browser, WebShop shop, string name)
    {
        await using var window = await Window.Open(browser, shop, Screen.Desk, null);
        await window.SignIn(name);
        return await window.Page.Context.StorageStateAsync();
    }

    private async Task<IBrowser> Browser()
    {
        Assert.SkipWhen(Program() is null, "No Chromium here: what a browser shows was not looked at. Install it (Debian: apt-get install chromium) or name it in CHROMIUM_PATH.");
        return await _browser.Value;
    }

    private async Task<IBrowser> Start()
    {
        _driver = await Playwright.CreateAsync();
        return await _driver.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Program(),
            // The sandbox does not work for the user of a container; only this program's own pages are opened.
            ChromiumSandbox = Environment.UserName != "root",
            Args = ["--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    private static string? Program() =>
        Environment.GetEnvironmentVariable("CHROMIUM_PATH") is { Length: > 0 } named && File.Exists(named)
            ? named
            : (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).SelectMany(folder => Names.Select(name => Path.Combine(folder, name))).FirstOrDefault(File.Exists);

    private static string Root()
    {
        string at = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(at, "Seamwright.slnx")))
            at = Path.GetDirectoryName(at) ?? throw new InvalidOperationException("The folder of the repository was not found above the tests.");
        return at;
    }
}
