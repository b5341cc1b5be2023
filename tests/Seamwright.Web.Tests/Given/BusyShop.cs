using Seamwright.Storage.Actions;
using Seamwright.Web.Tests.Given;
using Xunit;

[assembly: AssemblyFixture(typeof(BusyShop))]

namespace Seamwright.Web.Tests.Given;

/// <summary>The invented shop with planned repairs, for all tests that only look or are refused; tests that change a repair begin one of their own.</summary>
public sealed class BusyShop : IAsyncLifetime
{
    private static readonly Guid Look = Guid.Parse("0198f6a0-0000-7000-8000-000000000001");

    /// <summary>A photo of the factory look of J1 of the first repair.</summary>
    internal static Guid Photo => RecordingLooks.PhotoId(Look, 0);

    internal WebShop Shop { get; private set; } = null!;

    internal string AnyRepair => Shop.Desk.State.Vehicles[0].Id;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        Shop = await WebShop.Open(isDemo: true);
        await Shop.Known(isPlanned: true);
        var photo = new LookPhoto(Picture.Jpeg(640, 480), new string('0', 64));
        await Shop.Store.RecordLook(new(Look, AnyRepair, "J1", "brushed to the edge, left open for 5 mm at the rear", NodaTime.Offset.FromHours(1), [photo]), "technician");
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Shop.DisposeAsync();
}
