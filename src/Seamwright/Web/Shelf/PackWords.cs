using NodaTime;
using Seamwright.Quantities;
using Seamwright.Units;

namespace Seamwright.Program.Web.Shelf;

/// <summary>What is said of packs.</summary>
internal static class PackWords
{
    /// <summary>One sentence for a state of a pack, with the numbers.</summary>
    public static string Why(ShelfPack pack, PackState state, DateTimeZone zone, Words words) => state switch
    {
        PackState.Expired => words.Say("web.pack.why.expired", pack.Pack!.Expires!.Value),
        PackState.OpenTooLong => words.Say("web.pack.why.open-too-long", pack.Pack!.Opened!.Value, pack.Sheet!.Pack.OpenedLifeDays!.Value),
        PackState.ActivatedTooLong => words.Say("web.pack.why.activated-too-long", pack.Pack!.Activated!.Value, pack.Sheet!.Pack.ActivatedLife!.Value),
        PackState.SpentAtOnce => words["web.pack.why.spent-at-once"],
        PackState.PartnerMissing => words["web.pack.why.partner-missing"],
        PackState.Empty => words["web.pack.why.empty"],
        PackState.SetAside => words.Say("web.pack.why.set-aside", pack.Pack!.OnHold!),
        PackState.NoNozzle => words["web.pack.why.no-nozzle"],
        PackState.NoSheet => words.Say("web.pack.why.no-sheet", pack.Line.Material),
        PackState.Unreadable => words["web.pack.why.unreadable"],
        PackState.EndsInPlan => words.Say("web.pack.why.ends-in-plan", Until(pack.Usable, zone, words)),
        _ => pack.Usable.Until is null ? words["web.pack.why.no-end"] : words.Say("web.pack.why.fresh", Until(pack.Usable, zone, words)),
    };

    /// <summary>What is left, in the shop's units.</summary>
    public static string Left(ShelfPack pack, Words words) => pack.Pack is not { } read ? words["web.none"]
        : read.StripLeft > Length.Zero ? words.Format.Word(read.StripLeft)
        : words.Format.Word(read.Left);

    /// <summary>What the plan wants, in the shop's units.</summary>
    public static string Amount(PackWish wish, Words words) => words.Format.Word(wish.Strip > Length.Zero ? wish.Strip : wish.Amount);

    /// <summary>The last day; the clock counts only where it was activated.</summary>
    private static string Until(UsableTime usable, DateTimeZone zone, Words words) =>
        usable.Limit == PackLimit.ActivatedLife ? words.Format.DateAndClock(usable.Until!.Value) : words.Format.Text(usable.LastDay(zone)!.Value);
}
