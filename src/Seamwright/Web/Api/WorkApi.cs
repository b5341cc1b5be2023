using System.Globalization;
using System.Text.Json.Nodes;
using Seamwright.Program.Web.Readings;
using Seamwright.Storage;
using Seamwright.Storage.Queries;

namespace Seamwright.Program.Web.Api;

/// <summary>An entry of the work log.</summary>
/// <param name="Place">Its place in the log, from 1.</param>
/// <param name="Id">Its id.</param>
/// <param name="At">When it happened, by the clock and offset of whoever wrote it.</param>
/// <param name="Recorded">When it arrived.</param>
/// <param name="Who">Who did it.</param>
/// <param name="Kind">What kind of thing, for example <c>look-recorded</c>.</param>
/// <param name="Repair">The repair; left out = the shop.</param>
/// <param name="Facts">What happened.</param>
/// <param name="Sha256">Hash over it and everything before it.</param>
internal sealed record WorkBody(long Place, Guid Id, DateTimeOffset At, DateTimeOffset Recorded, string Who, string Kind, string? Repair, JsonNode? Facts, string Sha256);

/// <summary>The work log, which is only ever added to: whoever has read it up to a place asks for what comes after.</summary>
internal static class WorkApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/work", All).Needs(Scope.Read, "list-work").Tells<Part<WorkBody>>();
        api.MapGet("/repairs/{id}/work", Of).Needs(Scope.Read, "list-repair-work").Tells<Part<WorkBody>>();
    }

    private static Task<IResult> All(HttpContext context, ShopStore store, string? after, string? limit, CancellationToken stop) =>
        Tell(context, store, after, limit, (place, most) => store.WorkAfter(place, most, stop), stop);

    private static async Task<IResult> Of(string id, HttpContext context, ShopStore store, string? after, string? limit, CancellationToken stop) =>
        await store.RepairLineOf(id, stop) is null
            ? Refusal.Of(context, RefusalKind.NotThere)
            : await Tell(context, store, after, limit, (place, most) => store.WorkOf(id, place, most, stop), stop);

    private static async Task<IResult> Tell(
        HttpContext context, ShopStore store, string? after, string? limit, Func<long, int, Task<System.Collections.Immutable.ImmutableArray<WorkEntry>>> fetch, CancellationToken stop)
    {
        if (Asked.Count(limit) is not { } count)
            return Asked.NoCount(context);
        if (Asked.Place(after) is not { } place)
            return Asked.Refused(context, "after", "api.after");
        var zone = await AirShown.Zone(store, stop);
        var entries = await fetch(place, count + 1);
        return Told.Of(Part<WorkBody>.Of(
            [.. entries.Select(entry => new WorkBody(
                entry.Sequence, entry.Fact.Id, entry.Fact.At.WithOffset(entry.Fact.Offset).ToDateTimeOffset(), entry.Recorded.In(zone),
                entry.Fact.Who, entry.Fact.Kind, entry.Fact.Repair, JsonNode.Parse(entry.Fact.FactsJson), entry.Hash))],
            count, entry => entry.Place.ToString(CultureInfo.InvariantCulture)));
    }
}
