using NodaTime;
using Seamwright.Materials;

namespace Seamwright.Quantities;

/// <summary>What ends the time in which a pack may be used.</summary>
public enum PackLimit
{
    /// <summary>Nothing: no date and no opened life.</summary>
    None,

    /// <summary>The date on the pack; usable through that day in the shop's zone.</summary>
    Expiry,

    /// <summary>Days after opening.</summary>
    OpenedLife,

    /// <summary>The clock since activation of a two-part aerosol.</summary>
    ActivatedLife,
}

/// <summary>The end of a pack's usable time.</summary>
/// <param name="Until">First moment at which it may no longer be used; null = no end.</param>
/// <param name="Limit">What sets the end.</param>
public readonly record struct UsableTime(Instant? Until, PackLimit Limit)
{
    /// <summary>Whether a moment lies inside.</summary>
    public bool Covers(Instant moment) => Until is not { } end || moment < end;

    /// <summary>Last day on which it may be used, in the shop's zone; null = no end.</summary>
    public LocalDate? LastDay(DateTimeZone zone) => Until is { } end ? (end - Duration.Epsilon).InZone(zone).Date : null;

    /// <summary>The earlier of two.</summary>
    internal UsableTime Earlier(UsableTime other) =>
        other.Until is { } theirs && (Until is not { } ours || theirs < ours) ? other : this;
}

/// <summary>Until when a pack may be used. A date counts through its day; days after opening do not count the opening day; activation runs by the clock.</summary>
public static class PackUsability
{
    /// <summary>Usable time of a pack as it stands on the shelf.</summary>
    /// <param name="pack">Pack.</param>
    /// <param name="sheet">Its sheet.</param>
    /// <param name="zone">The shop's zone.</param>
    public static UsableTime Window(Pack pack, DataSheet sheet, DateTimeZone zone)
    {
        var window = new UsableTime(null, PackLimit.None);
        if (pack.Expires is { } expires)
            window = window.Earlier(new UsableTime(EndOf(expires, zone), PackLimit.Expiry));
        if (pack.Opened is { } opened && sheet.Pack.OpenedLifeDays is { } days)
            window = window.Earlier(new UsableTime(EndOf(opened.PlusDays(days), zone), PackLimit.OpenedLife));
        if (pack.Activated is { } activated && sheet.Pack.ActivatedLife is { } life)
            window = window.Earlier(new UsableTime(activated + life, PackLimit.ActivatedLife));
        return window;
    }

    /// <summary>Usable time of a pack once it is used at a moment: a sealed one is opened then, a two-part aerosol activated.</summary>
    /// <param name="pack">Pack.</param>
    /// <param name="sheet">Its sheet.</param>
    /// <param name="zone">The shop's zone.</param>
    /// <param name="firstUse">First planned use.</param>
    public static UsableTime WindowOnceUsed(Pack pack, DataSheet sheet, DateTimeZone zone, Instant firstUse) =>
        Window(Begun(pack, sheet, zone, firstUse), sheet, zone);

    /// <summary>The pack as opened (and activated, where the sheet gives an activated life) at a moment; a pack already begun stays as it is.</summary>
    public static Pack Begun(Pack pack, DataSheet sheet, DateTimeZone zone, Instant firstUse) => pack with
    {
        Opened = pack.Opened ?? firstUse.InZone(zone).Date,
        Activated = pack.Activated ?? (sheet.Pack.ActivatedLife is null ? null : firstUse),
    };

    /// <summary>True where a pack has been opened or activated.</summary>
    public static bool IsBegun(Pack pack) => pack.Opened is not null || pack.Activated is not null;

    /// <summary>Nozzles that lie with a pack: as stated, else those a new pack brings while it is sealed.</summary>
    public static int NozzlesWith(Pack pack, DataSheet sheet) => pack.Nozzles ?? (IsBegun(pack) ? 0 : sheet.Pack.NozzlesIncluded);

    /// <summary>
    /// Whether a pack may be used at a moment: of this sheet, not on hold, complete, not empty, inside its usable time, and not the opened
    /// rest of a single-use pack.
    /// </summary>
    public static bool MayBeUsed(Pack pack, DataSheet sheet, Instant moment, DateTimeZone zone) =>
        pack.Material == sheet.Id
        && pack.OnHold is null
        && !pack.PartnerMissing
        && (pack.Left > Units.Volume.Zero || pack.StripLeft > Units.Length.Zero)
        && !(sheet.Pack.SingleUse && IsBegun(pack))
        && Window(pack, sheet, zone).Covers(moment);

    private static Instant EndOf(LocalDate day, DateTimeZone zone) => zone.AtStartOfDay(day.PlusDays(1)).ToInstant();
}
