using Seamwright.Program.Web.Access;
using Xunit;

namespace Seamwright.Web.Tests.Given;

/// <summary>A shop with one repair that was begun from a template; for forms that are filled in.</summary>
public sealed class FormShop : IAsyncLifetime
{
    internal WebShop Shop { get; private set; } = null!;

    internal string Repair { get; private set; } = "";

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        Shop = await WebShop.Open();
        using var owner = await Shop.Signed(Role.Owner);
        var begun = await owner.Fill("/start/rear-panel", "start-repair", ("name", "Grey van"));
        Repair = begun.Code == 302 ? new Uri(Shop.Address, begun.To).Segments[^1] : throw new InvalidOperationException(string.Join('\n', begun.Wrongs));
        await Shop.Known();
        Shop.Desk.StopSearch();
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Shop.DisposeAsync();
}
