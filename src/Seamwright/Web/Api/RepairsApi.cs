using System.Collections.Immutable;
using System.Text.Json.Nodes;
using NodaTime;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Program.Printing.Json;
using Seamwright.Program.Texts;
using Seamwright.Program.Web.Desk;
using Seamwright.Program.Web.Readings;
using Seamwright.Storage;
using Seamwright.Storage.Queries;
using Seamwright.Work;

namespace Seamwright.Program.Web.Api;

/// <summary>A repair in a list.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">Its name for people.</param>
/// <param name="State"><c>open</c>, <c>delivered</c> or <c>closed</c>.</param>
/// <param name="Arrives">When the car comes in; left out = it is here.</param>
/// <param name="Promised">When it was promised.</param>
/// <param name="Slot">The slot it has taken; left out = none.</param>
/// <param name="Version">Version of its document.</param>
internal sealed record RepairLineBody(string Id, string Title, string State, DateTimeOffset? Arrives, DateTimeOffset? Promised, DateTimeOffset? Slot, long Version)
{
    public static RepairLineBody Of(RepairLine line, DateTimeZone zone) =>
        new(line.Id, line.Title, StateWord(line.State), line.Arrives.In(zone), line.Promised.In(zone), line.Slot.In(zone), line.Version);

    /// <summary>A state as programs read it.</summary>
    public static string StateWord(RepairState state) => state.ToString().ToLowerInvariant();
}

/// <summary>A stored document.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Version">Raised at each change; also in the header <c>ETag</c>.</param>
/// <param name="Changed">When it was changed last.</param>
/// <param name="ChangedBy">Who changed it last.</param>
/// <param name="Document">The document, as files of its kind have it.</param>
/// <param name="State">State, where it has one: of a repair <c>open</c>, <c>delivered</c> or <c>closed</c>.</param>
internal sealed record DocumentBody(string Id, long Version, DateTimeOffset Changed, string ChangedBy, JsonNode? Document, string? State = null)
{
    public static DocumentBody Of(StoredDocument stored, DateTimeZone zone, JsonNode? document, string? state = null) =>
        new(stored.Id, stored.Version, stored.Changed.In(zone), stored.ChangedBy, document, state);
}

/// <summary>The plan of a repair beside the others.</summary>
/// <param name="AsOf">Moment that was planned from.</param>
/// <param name="IsPlanning">True while a newer plan is being made.</param>
/// <param name="Now">How it stands, as on the shop's first page; left out = it is not open, or came in a moment ago.</param>
/// <param name="Plan">The plan as <c>plan --json</c> writes it (plan/1); left out = there is none. Amounts only for keys that see money.</param>
internal sealed record PlanBody(DateTimeOffset AsOf, bool IsPlanning, VehicleBody? Now, JsonNode? Plan);

/// <summary>Repairs: listed, one by one, and as planned.</summary>
internal static class RepairsApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/repairs", List).Needs(Scope.Read, "list-repairs").Tells<Part<RepairLineBody>>();
        api.MapGet("/repairs/{id}", One).Needs(Scope.Read, "see-repair").Tells<DocumentBody>();
        api.MapGet("/repairs/{id}/plan", Plan).Needs(Scope.Read, "see-plan").Tells<PlanBody>();
    }

    private static async Task<IResult> List(HttpContext context, ShopStore store, string? state, string? search, string? after, string? limit, CancellationToken stop)
    {
        if (Asked.Count(limit) is not { } count)
            return Asked.NoCount(context);
        RepairState? wanted = null;
        if (state is not null)
        {
            if (!TryState(state, out var known))
                return Asked.Refused(context, "state", "api.state", Files.Words.Quote(state));
            wanted = known;
        }
        var zone = await AirShown.Zone(store, stop);
        if (await store.RepairsAfter(new RepairFilter { State = wanted, Search = search }, after, count + 1, stop) is not { } lines)
            return Asked.Refused(context, "after", "api.after");
        return Told.Of(Part<RepairLineBody>.Of([.. lines.Select(line => RepairLineBody.Of(line, zone))], count, line => line.Id));
    }

    private static async Task<IResult> One(string id, HttpContext context, ShopStore store, CancellationToken stop)
    {
        if (await store.RepairDocument(id, stop) is not { } stored || await store.RepairLineOf(id, stop) is not { } line)
            return Refusal.Of(context, RefusalKind.NotThere);
        var zone = await AirShown.Zone(store, stop);
        return Tags.Tell(context, DocumentBody.Of(stored, zone, JsonNode.Parse(stored.Json), RepairLineBody.StateWord(line.State)), Tags.Of(stored.Version));
    }

    private static async Task<IResult> Plan(string id, HttpContext context, ShopStore store, ShopDesk desk, Words words, CancellationToken stop)
    {
        if (await store.RepairLineOf(id, stop) is not { } line)
            return Refusal.Of(context, RefusalKind.NotThere);
        var zone = await AirShown.Zone(store, stop);
        var state = desk.State;
        var vehicle = line.State == RepairState.Open ? state.Vehicle(id) : null;
        bool seesMoney = Scope.SeesMoney(context);
        return Told.Of(new PlanBody(
            AirShown.NowOf(store, state).In(zone), state.IsPlanning, vehicle is null ? null : VehicleBody.Of(vehicle, zone, words, seesMoney),
            vehicle is { Input: { } input, Plan: { } plan } ? JsonNode.Parse(PlanJson.Write(input, new PlanAnswer { Recommended = plan }, words.Format, seesMoney)) : null));
    }

    /// <summary>A state from its word.</summary>
    public static bool TryState(string? word, out RepairState state)
    {
        foreach (var one in Enum.GetValues<RepairState>())
        {
            if (RepairLineBody.StateWord(one) == word)
            {
                state = one;
                return true;
            }
        }
        state = default;
        return false;
    }
}
