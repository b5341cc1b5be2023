using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Desk;

/// <summary>What a new store is filled with: an invented demonstration, or an invented shop to be made one's own.</summary>
internal sealed class FirstShop(ShopStore store)
{
    /// <summary>The folder beside the program with the invented shop.</summary>
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "demo", "busy-week");

    /// <summary>Fills an empty store.</summary>
    /// <param name="isDemo">With repairs, at the moment they are made for; otherwise shop, sheets and air only.</param>
    /// <param name="by">Who began.</param>
    /// <param name="stop">Ends the waiting.</param>
    public async Task Fill(bool isDemo, string by, CancellationToken stop)
    {
        var load = ShopImport.Read(Folder).Draft
            ?? throw new InvalidOperationException("The demonstration that comes with the program cannot be read.");
        if (!isDemo)
            load = load with { Repairs = [], Packs = [] };
        await store.FillShop(load, replace: false, by, stop);
        if (isDemo)
            await store.ChangeSetting(ShopDesk.DemoSetting, "yes", by, stop);
    }
}
