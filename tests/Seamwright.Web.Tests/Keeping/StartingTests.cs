using System.Net;
using System.Text.Json;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Keeping;
using Seamwright.Storage.Databases;
using Xunit;

namespace Seamwright.Web.Tests.Keeping;

/// <summary>What answers while the data is brought up to date.</summary>
public class StartingTests
{
    [Fact]
    public async Task While_data_is_brought_up_to_date_the_program_says_that_it_is_starting_and_lets_the_address_go_afterwards()
    {
        var stop = TestContext.Current.CancellationToken;
        string address = $"http://127.0.0.1:{Free()}";
        var starting = new StartingHost(address, new Formatter(Sentences.Load("en"), Notation.Plain));
        starting.Report(new UpgradeStep("upgrade.copying", ["/somewhere/shop.db"]));
        starting.Report(new UpgradeStep("upgrade.checking", []));
        using var client = new HttpClient { BaseAddress = new(address) };

        var live = await client.GetAsync("/health/live", stop);
        var ready = await client.GetAsync("/health/ready", stop);
        var page = await client.GetAsync("/shelf", stop);

        Assert.Equal(HttpStatusCode.OK, live.StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        Assert.Equal("starting", JsonDocument.Parse(await ready.Content.ReadAsStringAsync(stop)).RootElement.GetProperty("status").GetString());
        Assert.Equal(HttpStatusCode.ServiceUnavailable, page.StatusCode);
        string text = await page.Content.ReadAsStringAsync(stop);
        Assert.Contains("brought up to date", text, StringComparison.Ordinal);
        Assert.DoesNotContain("shop.db", text, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", page.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);

        await starting.DisposeAsync();
        await Assert.ThrowsAsync<HttpRequestException>(() => new HttpClient().GetAsync(new Uri(address), stop));
    }

    [Fact]
    public async Task An_address_that_cannot_be_listened_on_stops_no_upgrade()
    {
        await using var starting = new StartingHost("http://192.0.2.1:1", new Formatter(Sentences.Load("en"), Notation.Plain));       // RFC 5737: nobody's address

        Assert.Null(Record.Exception(() => starting.Report(new UpgradeStep("upgrade.checking", []))));
    }

    private static int Free()
    {
        using var listener = new System.Net.Sockets.TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
