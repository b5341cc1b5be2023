using NodaTime;
using Seamwright.Air;
using Seamwright.Documents.Charts;

namespace Seamwright.Program.Drawings;

/// <summary>How the air is known from a moment on, for charts.</summary>
internal static class Outlooks
{
    /// <summary>The part that nobody has measured; null where all of it comes from a log.</summary>
    /// <param name="air">The air.</param>
    /// <param name="from">The moment.</param>
    public static Outlook? Of(Climate air, Instant from) => air switch
    {
        LoggedClimate => null,
        ConstantClimate => new(from, OutlookKind.Constant),
        HeatedDayClimate => new(from, OutlookKind.Patterned),
        _ => new(from, OutlookKind.Foretold),
    };
}
