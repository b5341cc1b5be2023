using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Scheduling;

namespace Seamwright.Planning.Mapping;

/// <summary>What the other vehicles of the shop take, while one vehicle is planned with theirs fixed. Minutes of the plan.</summary>
internal sealed record Others
{
    /// <summary>Minutes at which somebody works on another vehicle, ascending, by name of the person.</summary>
    public required ImmutableDictionary<string, ImmutableArray<Window>> People { get; init; }

    /// <summary>Runs of lamps on other vehicles.</summary>
    public required ImmutableArray<Window> Lamps { get; init; }

    /// <summary>Minutes at which the booth is taken, ascending.</summary>
    public required ImmutableArray<Window> Booth { get; init; }

    /// <summary>Minutes at which no bay is free, ascending.</summary>
    public required ImmutableArray<Window> FullBays { get; init; }

    /// <summary>What the others leave of packs and nozzles.</summary>
    public Stock Stock => LazyStock.Value;

    /// <summary>The same, worked out when first asked for.</summary>
    public required Lazy<Stock> LazyStock { get; init; }

    /// <summary>Busy minutes of a person, ascending.</summary>
    public ImmutableArray<Window> Of(string person) => People.GetValueOrDefault(person, []);
}

/// <summary>Sets of minutes as ascending windows that do not overlap.</summary>
internal static class Windows
{
    /// <summary>The minutes of any of the windows.</summary>
    public static ImmutableArray<Window> Union(IEnumerable<Window> windows)
    {
        var union = ImmutableArray.CreateBuilder<Window>();
        foreach (var next in windows.Where(window => window.From < window.To).OrderBy(window => window.From))
        {
            if (union.Count > 0 && next.From <= union[^1].To)
                union[^1] = new Window(union[^1].From, Math.Max(union[^1].To, next.To));
            else
                union.Add(next);
        }
        return union.ToImmutable();
    }

    /// <summary>The minutes of <paramref name="windows"/> without those of <paramref name="taken"/>; both ascending and not overlapping.</summary>
    public static ImmutableArray<Window> Without(this ImmutableArray<Window> windows, ImmutableArray<Window> taken)
    {
        if (taken.IsDefaultOrEmpty)
            return windows;
        var free = ImmutableArray.CreateBuilder<Window>();
        foreach (var window in windows)
        {
            int from = window.From;
            foreach (var busy in taken)
            {
                if (busy.To <= from)
                    continue;
                if (busy.From >= window.To)
                    break;
                if (busy.From > from)
                    free.Add(new Window(from, busy.From));
                from = busy.To;
            }
            if (from < window.To)
                free.Add(new Window(from, window.To));
        }
        return free.ToImmutable();
    }

    /// <summary>Whether some minute belongs to both.</summary>
    public static bool Meets(this ImmutableArray<Window> windows, int from, int to) => windows.Any(window => window.From < to && from < window.To);

    /// <summary>The minutes covered by at least so many of the windows, which may overlap.</summary>
    public static ImmutableArray<Window> CoveredBy(int count, IEnumerable<Window> windows)
    {
        var covered = new List<Window>();
        int depth = 0, since = 0;
        foreach (var (at, step) in windows.SelectMany(window => new[] { (At: window.From, Step: 1), (At: window.To, Step: -1) }).OrderBy(edge => edge.At).ThenBy(edge => edge.Step))
        {
            if (depth >= count && depth + step < count)
                covered.Add(new Window(since, at));
            if (depth < count && depth + step >= count)
                since = at;
            depth += step;
        }
        return Union(covered);
    }
}
