using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files;
using Seamwright.Program.Web.Desk;
using Seamwright.Program.Web.Readings;
using Seamwright.Storage;
using Seamwright.Work;

namespace Seamwright.Program.Web.Api;

/// <summary>Air at a moment.</summary>
/// <param name="At">The moment.</param>
/// <param name="TemperatureCelsius">Temperature. [°C]</param>
/// <param name="HumidityPercent">Relative humidity over water. [0…100]</param>
internal sealed record AirBody(DateTimeOffset At, double TemperatureCelsius, double HumidityPercent)
{
    private const int Decimals = 2;

    public static AirBody Of(DateTimeOffset at, AirState air) => new(at, Math.Round(air.Temperature.Celsius, Decimals), Math.Round(air.Humidity.Fraction * 100, Decimals));
}

/// <summary>What a plan waits for.</summary>
/// <param name="From">Since when.</param>
/// <param name="To">Until when.</param>
/// <param name="Place">Joint, cavity or bare area; left out = the car.</param>
/// <param name="Reason">Why, in words.</param>
internal sealed record HeldUpBody(DateTimeOffset From, DateTimeOffset To, string? Place, string Reason);

/// <summary>An open repair as it is planned beside the others.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Title">Its name for people.</param>
/// <param name="State"><c>ready</c>, <c>tight</c>, <c>moved</c> (to a later slot), <c>late</c> or <c>open</c> (no plan).</param>
/// <param name="ReadyForPaint">When it is ready for paint; left out = there is no plan.</param>
/// <param name="Slot">When it is painted.</param>
/// <param name="ReadyForDelivery">When it can be handed over.</param>
/// <param name="Promise">When it was promised.</param>
/// <param name="ChanceBySlot">How likely it is ready by its slot. [0…1]</param>
/// <param name="HeldUpBy">What it waits for, in order of time.</param>
/// <param name="WhyNoPlan">Why there is no plan; empty = there is one, or it is being made.</param>
/// <param name="CostTotal">What it costs, in the shop's currency; only for keys that see money.</param>
internal sealed record VehicleBody(
    string Id, string Title, string State, DateTimeOffset? ReadyForPaint, DateTimeOffset? Slot, DateTimeOffset? ReadyForDelivery, DateTimeOffset? Promise,
    double? ChanceBySlot, ImmutableArray<HeldUpBody> HeldUpBy, ImmutableArray<string> WhyNoPlan, decimal? CostTotal)
{
    public static VehicleBody Of(DeskVehicle vehicle, DateTimeZone zone, Words words, bool seesMoney)
    {
        var plan = vehicle.Plan;
        return new(
            vehicle.Id, vehicle.Title, vehicle.Manner, plan?.ReadyForPaint.In(zone), plan?.Slot.In(zone), plan?.ReadyForDelivery.In(zone), vehicle.Input?.Repair.Promise.In(zone),
            vehicle.Chance is { } chance ? Math.Round(chance.BySlot.Value, 3) : null,
            [.. (plan?.HeldUpBy ?? []).Select(one => new HeldUpBody(one.From.In(zone), one.To.In(zone), one.Place?.Value, words.Sentence(one.Reason)))],
            WhyNot(vehicle, words),
            seesMoney ? plan?.Cost.Total.Rounded.Amount : null);
    }

    private static ImmutableArray<string> WhyNot(DeskVehicle vehicle, Words words) =>
    [
        .. vehicle.Problems.Select(problem => $"{problem.Field}: {words.Say(problem.Key, [.. problem.Args])}"),
        .. vehicle.Conflicts.IsDefault ? [] : vehicle.Conflicts.SelectMany(conflict => conflict.Facts).Select(fact => words.Sentence(fact.Reason)).Distinct(),
    ];
}

/// <summary>The shop as its first page shows it.</summary>
/// <param name="AsOf">Moment that was planned from.</param>
/// <param name="IsPlanning">True while a newer plan is being made.</param>
/// <param name="Zone">Time zone of the shop.</param>
/// <param name="Currency">Currency of all amounts; only for keys that see money.</param>
/// <param name="Vehicles">Open repairs, the first ready for paint first.</param>
/// <param name="Air">Air of the shop at that moment; left out = not known.</param>
internal sealed record ShopBody(DateTimeOffset AsOf, bool IsPlanning, string Zone, string? Currency, ImmutableArray<VehicleBody> Vehicles, AirBody? Air);

/// <summary>The shop now.</summary>
internal static class ShopApi
{
    public static void Map(RouteGroupBuilder api) => api.MapGet("/shop", Now).Needs(Scope.Read, "see-shop").Tells<ShopBody>();

    private static async Task<IResult> Now(HttpContext context, ShopStore store, ShopDesk desk, Words words, CancellationToken stop)
    {
        var state = desk.State;
        var zone = await AirShown.Zone(store, stop);
        bool seesMoney = Scope.SeesMoney(context);
        var at = AirShown.NowOf(store, state);
        return Told.Of(new ShopBody(
            at.In(zone), state.IsPlanning, zone.Id, seesMoney ? state.Shop?.Currency : null,
            [.. state.InOrder.Select(vehicle => VehicleBody.Of(vehicle, zone, words, seesMoney))],
            state.Climate is { } climate ? AirBody.Of(at.In(zone), climate.At(at)) : null));
    }
}
