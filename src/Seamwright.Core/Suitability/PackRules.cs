using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Units;

namespace Seamwright.Suitability;

/// <summary>A pack thought of for a use.</summary>
/// <param name="Pack">Pack.</param>
/// <param name="Sheet">Sheet of the material that is to be used.</param>
/// <param name="PlannedUse">When.</param>
/// <param name="Zone">The shop's zone.</param>
/// <param name="LooseNozzles">Nozzles in the drawer that fit it. [≥ 0]</param>
public sealed record PackCase(Pack Pack, DataSheet Sheet, Instant PlannedUse, DateTimeZone Zone, int LooseNozzles);

/// <summary>May this very pack be used then?</summary>
public static class PackRules
{
    /// <summary>Every rule on packs.</summary>
    public static ImmutableArray<Rule<PackCase>> All { get; } =
    [
        new("pack.material", Sources.CommonPractice, Material),
        new("pack.hold", "set aside by the shop", Hold),
        new("pack.expiry", "date on the pack", Expiry),
        new("pack.opened-life", "data sheet", OpenedLife),
        new("pack.activated-life", "data sheet", ActivatedLife),
        new("pack.single-use", "data sheet", SingleUse),
        new("pack.partner", Sources.CommonPractice, Partner),
        new("pack.empty", "stock", Empty),
        new("pack.nozzle", Sources.CommonPractice, Nozzle),
    ];

    /// <summary>The full list of verdicts, one a rule in the order of <see cref="All"/>.</summary>
    /// <param name="pack">Pack.</param>
    /// <param name="sheet">Sheet of the material that is to be used.</param>
    /// <param name="plannedUse">When.</param>
    /// <param name="zone">The shop's zone: a date counts through its day there.</param>
    /// <param name="looseNozzles">Nozzles in the drawer that fit it. [≥ 0]</param>
    public static ImmutableArray<Verdict> Judge(Pack pack, DataSheet sheet, Instant plannedUse, DateTimeZone zone, int looseNozzles = 0)
    {
        var subject = new PackCase(pack, sheet, plannedUse, zone, looseNozzles);
        return [.. All.Select(rule => rule.Judge(subject))];
    }

    private static Finding Material(PackCase subject) =>
        subject.Pack.Material == subject.Sheet.Id
            ? Finding.Fine("pack-is-the-material", subject.Pack.Id, subject.Sheet.Id)
            : Finding.Refused("pack-is-other-material", subject.Pack.Id, subject.Pack.Material, subject.Sheet.Id);

    private static Finding Hold(PackCase subject) =>
        subject.Pack.OnHold is { } why ? Finding.Refused("pack-on-hold", subject.Pack.Id, why) : Finding.Fine("pack-not-on-hold", subject.Pack.Id);

    private static Finding Expiry(PackCase subject)
    {
        if (subject.Pack.Expires is not { } day)
            return Finding.Fine("pack-has-no-date", subject.Pack.Id);

        return Day(subject) <= day
            ? Finding.Fine("pack-in-date", subject.Pack.Id, day)
            : Finding.Refused("pack-expired", subject.Pack.Id, day);
    }

    private static Finding OpenedLife(PackCase subject)
    {
        if (subject.Pack.Opened is not { } opened || subject.Sheet.Pack.OpenedLifeDays is not { } days)
            return Finding.NotConcerned;

        int open = Period.DaysBetween(opened, Day(subject));
        return (open <= days
            ? Finding.Fine("pack-opened-in-life", subject.Pack.Id, open, days)
            : Finding.Refused("pack-open-too-long", subject.Pack.Id, open, days)).From(subject.Sheet.Source);
    }

    private static Finding ActivatedLife(PackCase subject)
    {
        if (subject.Pack.Activated is not { } activated || subject.Sheet.Pack.ActivatedLife is not { } life)
            return Finding.NotConcerned;

        return (subject.PlannedUse < activated + life
            ? Finding.Fine("pack-activated-in-life", subject.Pack.Id, activated + life)
            : Finding.Refused("pack-activated-too-long-ago", subject.Pack.Id, activated + life, life)).From(subject.Sheet.Source);
    }

    private static Finding SingleUse(PackCase subject) =>
        !subject.Sheet.Pack.SingleUse ? Finding.NotConcerned
        : (PackUsability.IsBegun(subject.Pack)
            ? Finding.Refused("single-use-pack-was-opened", subject.Pack.Id)
            : Finding.Advice("single-use-pack", subject.Pack.Id)).From(subject.Sheet.Source);

    private static Finding Partner(PackCase subject) =>
        subject.Sheet.Pack.Ratio is null && !subject.Sheet.IsTwoPart ? Finding.NotConcerned
        : subject.Pack.PartnerMissing ? Finding.Refused("pack-partner-missing", subject.Pack.Id, subject.Sheet.Id)
        : Finding.Fine("pack-complete", subject.Pack.Id);

    private static Finding Empty(PackCase subject)
    {
        if (subject.Pack.Left > Volume.Zero)
            return Finding.Fine("pack-holds", subject.Pack.Id, subject.Pack.Left);

        return subject.Pack.StripLeft > Length.Zero
            ? Finding.Fine("roll-holds", subject.Pack.Id, subject.Pack.StripLeft)
            : Finding.Refused("pack-empty", subject.Pack.Id);
    }

    private static Finding Nozzle(PackCase subject)
    {
        if (!Nozzles.Takes(subject.Sheet))
            return Finding.NotConcerned;

        int own = PackUsability.NozzlesWith(subject.Pack, subject.Sheet);
        return own > 0 ? Finding.Fine("pack-has-nozzle", subject.Pack.Id, own)
            : subject.LooseNozzles > 0 ? Finding.Advice("nozzle-from-drawer", subject.Pack.Id, subject.LooseNozzles)
            : Finding.Refused("no-nozzle", subject.Pack.Id);
    }

    private static LocalDate Day(PackCase subject) => subject.PlannedUse.InZone(subject.Zone).Date;
}
