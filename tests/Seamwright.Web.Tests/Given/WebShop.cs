using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Routing;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using Seamwright.Program.Web;
using Seamwright.Program.Web.Access;
using Seamwright.Program.Web.Api;
using Seamwright.Program.Web.Desk;
using Seamwright.Storage;
using Seamwright.Storage.Accounts;
using Seamwright.Storage.Programs;
using Xunit;

namespace Seamwright.Web.Tests.Given;

/// <summary>The web app on a data folder of its own and a free port; gone after the test.</summary>
internal sealed class WebShop : IAsyncDisposable
{
    /// <summary>The password of everybody in a test shop.</summary>
    public const string Password = "seven brass rivets";

    private static int _visitors;

    private readonly DirectoryInfo _folder;

    private WebShop(DirectoryInfo folder, ShopStore store, WebApplication app)
    {
        _folder = folder;
        Store = store;
        App = app;
        string bound = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();
        Address = new Uri($"http://localhost:{new Uri(bound).Port.ToString(CultureInfo.InvariantCulture)}");
    }

    public ShopStore Store { get; }

    public WebApplication App { get; }

    public Uri Address { get; }

    /// <summary>The code that stands on the console.</summary>
    public string SetupCode => App.Services.GetRequiredService<SetupCode>().Shown;

    public ShopDesk Desk => App.Services.GetRequiredService<ShopDesk>();

    public IEnumerable<RouteEndpoint> Endpoints => ((IEndpointRouteBuilder)App).DataSources.SelectMany(source => source.Endpoints).OfType<RouteEndpoint>();

    /// <summary>Plans are real but small: less is searched and fewer cases are drawn, so that tests do not wait.</summary>
    private static readonly DeskLimits SmallPlans = new() { LongestSearch = Duration.FromSeconds(2), Samples = 1_000 };

    /// <summary>A shop in which nobody has an account yet.</summary>
    public static async Task<WebShop> Fresh(Action<IServiceCollection>? services = null, IClock? clock = null)
    {
        var folder = Directory.CreateTempSubdirectory("seamwright-web-");
        var store = await ShopStore.Open(new DataFolder(Path.Combine(folder.FullName, "data")), null, clock ?? SystemClock.Instance);
        var app = WebHost.Build(store, "http://127.0.0.1:0", clock ?? SystemClock.Instance, builder =>
        {
            builder.Services.AddSingleton<IStartupFilter, NamedAddress>();
            builder.Services.AddSingleton(SmallPlans);
            services?.Invoke(builder.Services);
        });
        await app.StartAsync();
        return new(folder, store, app);
    }

    /// <summary>A shop with an account for each role, named like it; without repairs where it is no demonstration.</summary>
    public static async Task<WebShop> Open(bool isDemo = false, Action<IServiceCollection>? services = null, IClock? clock = null)
    {
        var shop = await Fresh(services, clock);
        foreach (string role in Role.All)
            await shop.LetIn(role, role);
        await new FirstShop(shop.Store).Fill(isDemo, Role.Owner, CancellationToken.None);
        shop.Desk.Changed();
        // Pages tell times in the shop's zone as soon as the desk has looked at the shop; on a busy machine that takes a moment.
        while (shop.Desk.State.Shop is null)
            await Task.Delay(20, TestContext.Current.CancellationToken);
        return shop;
    }

    public async Task<Account> LetIn(string name, params string[] roles)
    {
        using var scope = App.Services.CreateScope();
        var account = new Account { Id = Store.NewId(), Name = name, Roles = [.. roles] };
        var result = await scope.ServiceProvider.GetRequiredService<UserManager<Account>>().CreateAsync(account, Password);
        return result.Succeeded ? account : throw new InvalidOperationException(string.Join(", ", result.Errors.Select(error => error.Code)));
    }

    public async Task<IReadOnlyList<Account>> Accounts() => await Store.AllAccounts();

    public async Task<Account> AccountOf(string name) => (await Accounts()).Single(account => account.Name == name);

    /// <summary>Somebody who is not signed in, at an address of their own: tries at the doors are counted by address.</summary>
    public Visitor Anybody() => new(Address, string.Create(CultureInfo.InvariantCulture, $"10.0.0.{Interlocked.Increment(ref _visitors)}"));

    /// <summary>Another program with a key, made by somebody of that name.</summary>
    public async Task<Caller> Calling(string maker, params string[] scopes)
    {
        string key = KeyText.New();
        var now = Store.Now;
        var made = new ProgramKey(Store.NewId(), KeyText.Hash(key), KeyText.Beginning(key), $"test of {maker}", [.. scopes], (await AccountOf(maker)).Id, now, now + Duration.FromDays(30), null, null);
        await Store.AddProgramKey(made);
        return new(Anybody(), key, made.Id);
    }

    public async Task<Visitor> Signed(string name, string password = Password)
    {
        var visitor = Anybody();
        var answer = await visitor.SignIn(name, password);
        return answer.Code == 302 ? visitor : throw new InvalidOperationException($"{name} could not sign in: {answer.Code}");
    }

    /// <summary>Waits until the open repairs are there, planned where that is asked for.</summary>
    public async Task Known(bool isPlanned = false)
    {
        while (Desk.State.Vehicles.IsEmpty || (isPlanned && (Desk.State.IsPlanning || Desk.State.Vehicles.All(vehicle => vehicle.Plan is null))))
            await Task.Delay(50);
    }

    /// <summary>Breaks the store: a table is there no longer under its name.</summary>
    /// <param name="table">The table.</param>
    public async Task TakeAway(string table)
    {
        await using var file = new SqliteConnection($"Data Source={Path.Combine(_folder.FullName, "data", "shop.db")};Pooling=False");
        await file.OpenAsync();
        await using var command = file.CreateCommand();
        command.CommandText = $"ALTER TABLE \"{table}\" RENAME TO \"{table}_taken_away\"";
        await command.ExecuteNonQueryAsync();
    }

    public async ValueTask DisposeAsync()
    {
        Desk.StopSearch();
        await App.StopAsync();
        await App.DisposeAsync();
        Store.Dispose();
        _folder.Delete(recursive: true);
    }

    /// <summary>Gives a request the address that it names, so that tests do not share one count of tries.</summary>
    private sealed class NamedAddress : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Use((context, go) =>
            {
                if (System.Net.IPAddress.TryParse(context.Request.Headers[Visitor.AddressHeader], out var address))
                    context.Connection.RemoteIpAddress = address;
                return go(context);
            });
            next(app);
        };
    }
}
