using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Program.Web.Desk;
using Seamwright.Quantities;
using Seamwright.Storage.Queries;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Program.Web.Shelf;

/// <summary>What the present plan of a vehicle takes from a pack.</summary>
/// <param name="Vehicle">The vehicle.</param>
/// <param name="From">First use.</param>
/// <param name="To">End of the last use.</param>
/// <param name="Amount">Volume, what nozzles hold back and purge included.</param>
/// <param name="Strip">Strip.</param>
public sealed record PackWish(DeskVehicle Vehicle, Instant From, Instant To, Volume Amount, Length Strip);

/// <summary>A pack as people need to see it: how it stands now, until when, and who wants it.</summary>
/// <param name="Line">What is stored.</param>
/// <param name="Pack">The pack; null where its document cannot be read.</param>
/// <param name="Sheet">Its sheet; null where the shop has none.</param>
/// <param name="State">How it stands.</param>
/// <param name="Usable">Until when it may be used.</param>
/// <param name="Against">Everything that speaks against it now; empty = nothing.</param>
/// <param name="Wishes">What the present plan wants of it, the soonest first.</param>
public sealed record ShelfPack(
    PackLine Line,
    Pack? Pack,
    DataSheet? Sheet,
    PackState State,
    UsableTime Usable,
    ImmutableArray<PackState> Against,
    ImmutableArray<PackWish> Wishes)
{
    /// <summary>Name on the label.</summary>
    public string Id => Line.Document.Id;

    /// <summary>Cannot be used as it stands.</summary>
    public bool IsBarred => State < PackState.EndsInPlan;

    /// <summary>Judges a pack by the same rules as the planner, at one moment.</summary>
    public static ShelfPack Of(PackLine line, Pack? pack, DataSheet? sheet, ImmutableArray<PackWish> wishes, ShelfMoment moment)
    {
        if (pack is null || sheet is null)
        {
            var state = sheet is null ? PackState.NoSheet : PackState.Unreadable;
            return new(line, pack, sheet, state, default, [state], wishes);
        }

        var usable = PackUsability.Window(pack, sheet, moment.Zone);
        ImmutableArray<PackState> against =
        [
            .. PackRules.Judge(pack, sheet, moment.Now, moment.Zone, moment.NozzlesFor(sheet))
                .Where(verdict => verdict.Kind == VerdictKind.Refused).Select(verdict => ByRule[verdict.RuleId]).Order(),
        ];
        var stands = !against.IsEmpty ? against[0]
            : moment.PlanEnds is { } ends && !usable.Covers(ends) ? PackState.EndsInPlan
            : PackState.Fresh;
        return new(line, pack, sheet, stands, usable, against, wishes);
    }

    private static readonly Dictionary<string, PackState> ByRule = new()
    {
        ["pack.hold"] = PackState.SetAside,
        ["pack.expiry"] = PackState.Expired,
        ["pack.opened-life"] = PackState.OpenTooLong,
        ["pack.activated-life"] = PackState.ActivatedTooLong,
        ["pack.single-use"] = PackState.SpentAtOnce,
        ["pack.partner"] = PackState.PartnerMissing,
        ["pack.empty"] = PackState.Empty,
        ["pack.nozzle"] = PackState.NoNozzle,
    };
}

/// <summary>What a pack is judged against.</summary>
/// <param name="Now">The moment.</param>
/// <param name="Zone">The shop's zone.</param>
/// <param name="Nozzles">Loose mixing nozzles.</param>
/// <param name="PlanEnds">When the last vehicle of the present plan is ready for delivery; null = nothing is planned.</param>
public sealed record ShelfMoment(Instant Now, DateTimeZone Zone, ImmutableArray<NozzleStock> Nozzles, Instant? PlanEnds)
{
    /// <summary>Loose nozzles that fit a material. [≥ 0]</summary>
    public int NozzlesFor(DataSheet sheet)
    {
        string? ratio = Quantities.Nozzles.RatioOf(sheet);
        return Nozzles.Where(stock => stock.FitsRatio is null || stock.FitsRatio == ratio).Sum(stock => stock.Count);
    }
}
