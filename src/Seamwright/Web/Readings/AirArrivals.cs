using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Files;

namespace Seamwright.Program.Web.Readings;

/// <summary>What came in with a table of readings.</summary>
/// <param name="By">Who brought it.</param>
/// <param name="From">First reading.</param>
/// <param name="To">Last reading.</param>
/// <param name="Rows">How many readings the table had.</param>
/// <param name="Added">How many of them were not known yet.</param>
/// <param name="Gaps">Stretches of more than two hours without one, ascending.</param>
/// <param name="Notices">What was assumed while it was read.</param>
internal sealed record Arrival(string By, Instant From, Instant To, int Rows, int Added, ImmutableArray<Interval> Gaps, ImmutableArray<FileProblem> Notices)
{
    public static Arrival Of(string by, ClimateTable table, int added)
    {
        var log = new LoggedClimate(table.Rows);
        ImmutableArray<Interval> gaps = [.. log.Notices.Where(notice => notice.Kind == ClimateNoticeKind.GapBridged).Select(notice => new Interval(notice.From, notice.To)).OrderBy(gap => gap.Start)];
        return new(by, log.First, log.Last, table.Rows.Length, added, gaps, table.Notices);
    }
}

/// <summary>The last table of each kind that was brought since the program started; what is stored is in the store.</summary>
internal sealed class AirArrivals
{
    private readonly ConcurrentDictionary<string, Arrival> _last = new(StringComparer.Ordinal);

    public void Tell(string source, Arrival arrival) => _last[source] = arrival;

    public Arrival? Last(string source) => _last.GetValueOrDefault(source);
}
