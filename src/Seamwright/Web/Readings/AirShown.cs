using NodaTime;
using Seamwright.Air;
using Seamwright.Documents.Charts;
using Seamwright.Program.Drawings;
using Seamwright.Program.Web.Desk;
using Seamwright.Storage;
using Seamwright.Storage.Actions;
using Seamwright.Storage.Queries;
using Seamwright.Stored;

namespace Seamwright.Program.Web.Readings;

/// <summary>The air around now as the page of the air shows it: what was measured, then what is expected.</summary>
/// <param name="Air">The air.</param>
/// <param name="From">Where the chart begins.</param>
/// <param name="Now">The moment that is planned from.</param>
/// <param name="To">Where the chart ends.</param>
/// <param name="Outlook">From when on nothing was measured; null where all of it comes from a log.</param>
public sealed record AirShown(Climate Air, Instant From, Instant Now, Instant To, Outlook? Outlook)
{
    private static readonly Duration Past = Duration.FromHours(24);
    private static readonly Duration Ahead = Duration.FromHours(36);

    /// <summary>Zone of the shop, also while it has no repair.</summary>
    public static async Task<DateTimeZone> Zone(ShopStore store, CancellationToken stop) =>
        StoredShop.ZoneOf((await store.ShopDocumentOf(ShopDocument.Shop, stop))?.Json);

    /// <summary>The moment that the shop lives at.</summary>
    internal static Instant NowOf(ShopStore store, DeskState state) => state.AsOf == Instant.MinValue ? store.Now : state.AsOf;

    /// <summary>Puts it together; null where nothing is known.</summary>
    internal static async Task<AirShown?> Of(ShopStore store, DeskState state, CancellationToken stop)
    {
        var now = NowOf(store, state);
        bool isDemo = (await store.Settings(stop)).ContainsKey(ShopDesk.DemoSetting);
        if (await StoredAir.Load(store, await Zone(store, stop), isDemo ? null : now, now, stop) is not { } expected)
            return null;
        var outlook = Outlooks.Of(expected, now);
        var measured = new List<ClimateReading>();
        foreach (string source in (await store.AirSources(stop)).Keys.Where(source => source != AddingReadings.Forecast))
            measured.AddRange(await store.ReadingsBetween(source, now - Past - LoggedClimate.LongestUnmarkedGap, now, stop));
        if (measured.All(reading => reading.Time < now - Past))
            return new(expected, now, now, now + Ahead, outlook);
        // The curve goes on from the last reading where that is no older than any two readings may be apart.
        var last = measured.Max(reading => reading.Time);
        if (last < now && now - last <= LoggedClimate.LongestUnmarkedGap)
            measured.Add(new(now, expected.At(now)));
        var before = new LoggedClimate(measured.OrderBy(reading => reading.Time).DistinctBy(reading => reading.Time));
        return new(new SplicedClimate(before, now, expected), now - Past, now, now + Ahead, outlook);
    }
}
