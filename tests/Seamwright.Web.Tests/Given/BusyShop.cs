using Seamwright.Web.Tests.Given;
using Xunit;

[assembly: AssemblyFixture(typeof(BusyShop))]

namespace Seamwright.Web.Tests.Given;

/// <summary>The invented shop with planned repairs, for all tests that only look or are refused; tests that change a repair begin one of their own.</summary>
public sealed class BusyShop : IAsyncLifetime
{
    internal WebShop Shop { get; private set; } = null!;

    internal string AnyRepair => Shop.Desk.State.Vehicles[0].Id;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        Shop = await WebShop.Open(isDemo: true);
        await Shop.Known(isPlanned: true);
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Shop.DisposeAsync();
}
