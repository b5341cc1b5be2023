using NodaTime;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Copies;
using Seamwright.Storage.Queries;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Keeping;

/// <summary>Where a second copy goes. From the environment and not from a page: what a page sets, whoever gets into the app could set too.</summary>
/// <param name="Folder">A folder on another disk; null = none.</param>
/// <param name="Passphrase">What seals the copy; null = it lies open.</param>
internal sealed record CopyPlace(string? Folder, string? Passphrase)
{
    /// <summary>Environment variable with the second folder.</summary>
    public const string FolderVariable = "SEAMWRIGHT_COPIES";

    public static CopyPlace FromEnvironment() => new(
        Environment.GetEnvironmentVariable(FolderVariable) is { Length: > 0 } folder ? Path.GetFullPath(folder) : null, Keeping.Passphrase.FromEnvironment());

    /// <summary>The rule as it stands: time from the settings, zone from the shop.</summary>
    public async Task<CopyRule> Rule(ShopStore store, CancellationToken stop)
    {
        var settings = await store.Settings(stop);
        var shop = await store.ShopDocumentOf(ShopDocument.Shop, stop);
        return new(
            CopyRule.TimeOf(settings.GetValueOrDefault(CopyRule.TimeSetting)?.Value) ?? CopyRule.UsualTime,
            shop is null ? DateTimeZoneProviders.Tzdb.GetSystemDefault() : StoredShop.ZoneOf(shop.Json),
            Folder,
            Passphrase);
    }
}
