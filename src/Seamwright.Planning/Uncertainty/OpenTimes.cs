using System.Collections.Immutable;
using Seamwright.Planning.Mapping;
using Seamwright.Scheduling;

namespace Seamwright.Planning.Uncertainty;

/// <summary>When one work may begin, and until when it may go on without a pause.</summary>
/// <remarks>
/// Nobody knows beforehand how long a work will take: it begins where its planned minutes fit, as in the plan. Work that takes longer runs over a
/// break or the end of a shift by a little; what is left after that is finished in the next shift.
/// </remarks>
internal sealed class OpenTimes
{
    private readonly double[] _first;        // allowed starts, on the plan's five minutes: closed stretches, ascending
    private readonly double[] _last;
    private readonly double[] _from;         // open windows
    private readonly double[] _to;
    private readonly double _runsOver;

    /// <param name="planned">Planned minutes.</param>
    /// <param name="starts">Allowed starts; empty = any.</param>
    /// <param name="open">Windows inside which the work lies; empty = always.</param>
    /// <param name="runsOver">Minutes by which work that has begun may leave its window.</param>
    public OpenTimes(int planned, ImmutableArray<Window> starts, ImmutableArray<Window> open, double runsOver)
    {
        _runsOver = runsOver;
        var always = ImmutableArray.Create(new Window(0, int.MaxValue));
        var windows = open.IsDefaultOrEmpty ? always : open;
        _from = [.. windows.Select(window => (double)window.From)];
        _to = [.. windows.Select(window => (double)window.To)];
        var allowed = new List<(double First, double Last)>();
        foreach (var start in starts.IsDefaultOrEmpty ? always : starts)
        {
            foreach (var window in windows)
            {
                double first = OnGrid(Math.Max(start.From, window.From));
                double last = Math.Floor(Math.Min((double)start.To - 1, (double)window.To - planned) / PlanTime.Grid) * PlanTime.Grid;
                if (first <= last)
                    allowed.Add((first, last));
            }
        }
        allowed.Sort();
        _first = [.. allowed.Select(stretch => stretch.First)];
        _last = [.. allowed.Select(stretch => stretch.Last)];
    }

    /// <summary>First allowed start not before a minute; +∞ where there is none.</summary>
    public double Start(double earliest)
    {
        double wanted = OnGrid(earliest);
        for (int i = 0; i < _last.Length; i++)
        {
            if (_last[i] >= wanted)
                return Math.Max(wanted, _first[i]);
        }
        return double.PositiveInfinity;
    }

    /// <summary>End of work of some minutes.</summary>
    public double End(double start, double minutes)
    {
        double end = start + minutes;
        int i = 0;
        while (i < _to.Length && _to[i] <= start)
            i++;
        if (i == _to.Length || end <= _to[i] + _runsOver)
            return end;
        double left = minutes - Math.Max(0, _to[i] - start);
        for (i++; i < _to.Length; i++)
        {
            if (_from[i] + left <= _to[i] + _runsOver)
                return _from[i] + left;
            left -= _to[i] - _from[i];
        }
        return double.PositiveInfinity;
    }

    private static double OnGrid(double minute) => Math.Ceiling((minute - 1e-9) / PlanTime.Grid) * PlanTime.Grid;
}
