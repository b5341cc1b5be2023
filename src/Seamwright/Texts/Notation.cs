using System.Globalization;
using NodaTime;
using Seamwright.Shops;

namespace Seamwright.Program.Texts;

/// <summary>How a reader wants numbers, units and times written.</summary>
/// <param name="Culture">Decimal sign and minus of numbers.</param>
/// <param name="Zone">Zone in which clock times are given.</param>
/// <param name="Units">Units of lengths, volumes, temperatures and masses.</param>
/// <param name="Today">The date on which a clock time needs no date; null = every time carries its date.</param>
public sealed record Notation(CultureInfo Culture, DateTimeZone Zone, UnitSystem Units, LocalDate? Today)
{
    /// <summary>Invariant numbers, UTC, metric: for messages before anything of the shop is known.</summary>
    public static Notation Plain { get; } = new(CultureInfo.InvariantCulture, DateTimeZone.Utc, UnitSystem.Metric, null);

    /// <summary>The shop's own way, seen from a moment.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="now">The moment whose date is today.</param>
    /// <param name="units">Other units than the shop's; null = the shop's.</param>
    public static Notation Of(Shop shop, Instant now, UnitSystem? units = null) =>
        new(CultureOf(shop.Culture), shop.Zone, units ?? shop.Units, now.InZone(shop.Zone).Date);

    /// <summary>A culture by name; the invariant one where this machine does not know it.</summary>
    public static CultureInfo CultureOf(string name)
    {
        try
        {
            return CultureInfo.GetCultureInfo(name, predefinedOnly: true);
        }
        catch (CultureNotFoundException)
        {
            return CultureInfo.InvariantCulture;
        }
    }
}
