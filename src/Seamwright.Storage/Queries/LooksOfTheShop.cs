using System.Collections.Immutable;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Seamwright.Storage.Actions;

namespace Seamwright.Storage.Queries;

/// <summary>A factory look as it was recorded.</summary>
/// <param name="At">When.</param>
/// <param name="Who">Who saw it.</param>
/// <param name="Place">Joint, cavity or bare area; null = the car.</param>
/// <param name="Note">In words; empty = none.</param>
/// <param name="Photos">Its photos.</param>
public sealed record LookEntry(Instant At, string Who, string? Place, string Note, ImmutableArray<Guid> Photos);

/// <summary>Asks for recorded factory looks.</summary>
public static class LooksOfTheShop
{
    /// <summary>The looks recorded for a repair, the oldest first, at most <see cref="Page{T}.MostItems"/>.</summary>
    /// <param name="store">The store.</param>
    /// <param name="repair">The repair.</param>
    /// <param name="stop">Ends the waiting.</param>
    public static Task<ImmutableArray<LookEntry>> LooksOf(this ShopStore store, string repair, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.Ask(async db => (await db.WorkLog.Where(row => row.Repair == repair && row.Kind == RecordingLooks.Entry).OrderBy(row => row.Sequence)
            .Take(Page<LookEntry>.MostItems).Select(row => new { row.At, row.Who, row.Facts }).ToListAsync(stop)).Select(row => Read(row.At, row.Who, row.Facts)).ToImmutableArray());
    }

    private static LookEntry Read(Instant at, string who, string facts)
    {
        using var document = JsonDocument.Parse(facts);
        var map = document.RootElement;
        return new(
            at, who, Text(map, "place"), Text(map, "note") ?? "",
            map.TryGetProperty("photos", out var photos) && photos.ValueKind == JsonValueKind.Array
                ? [.. photos.EnumerateArray().Select(photo => Guid.TryParse(Text(photo, "id"), out var id) ? id : Guid.Empty).Where(id => id != Guid.Empty)]
                : []);
    }

    private static string? Text(JsonElement map, string name) =>
        map.ValueKind == JsonValueKind.Object && map.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
