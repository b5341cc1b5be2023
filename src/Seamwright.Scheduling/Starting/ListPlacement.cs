using System.Collections.Immutable;

namespace Seamwright.Scheduling;

/// <summary>One round of placing every unit at its earliest time.</summary>
internal sealed class ListPlacement(Project project, ListUnits units, IReadOnlyDictionary<ResourceId, ImmutableArray<Window>> taken, int[] floors, int patience)
{
    private readonly int[] _start = new int[units.Count];
    private readonly ListWay[] _way = new ListWay[units.Count];
    private readonly List<(int From, int To, int Units)>[] _own = [.. project.Resources.Select(_ => new List<(int, int, int)>())];
    private readonly ImmutableArray<Window>[] _taken = [.. project.Resources.Select(resource => taken.TryGetValue(resource.Id, out var windows) ? windows : [])];

    public int Start(int unit) => _start[unit];

    public int End(int unit) => _start[unit] + _way[unit].Minutes;

    public ListWay Way(int unit) => _way[unit];

    /// <summary>True where everything found a place.</summary>
    public bool Run()
    {
        foreach (int unit in units.Order)
        {
            (int Start, ListWay Way)? best = null;
            int soonest = project.Horizon;
            foreach (ListWay way in units.Ways[unit])
            {
                int from = Math.Max(floors[unit], Earliest(unit, way));
                if (Find(way, from, units.LatestEnds[unit], Math.Min(project.Horizon, soonest + patience)) is not { } start)
                    continue;
                soonest = Math.Min(soonest, start + way.Minutes);
                if (best is null || best.Value.Start + best.Value.Way.Minutes > soonest + patience || way.Cost < best.Value.Way.Cost)
                    best = (start, way);
            }
            if (best is not { } found)
                return false;
            var (at, chosen) = found;
            (_start[unit], _way[unit]) = (at, chosen);
            foreach (var (resource, count) in chosen.Demands)
            {
                if (chosen.Minutes > 0)
                    _own[resource].Add((at, at + chosen.Minutes, count));
            }
            if (!KeepsToItself(unit))
                return false;
        }
        return true;
    }

    /// <summary>Raises the floors of units that began too early for what must follow them soon. True where some had to be.</summary>
    public bool HoldBack(int[] floors)
    {
        bool held = false;
        foreach (ListLag lag in units.Maximum)
        {
            int from = Minute(lag.From, lag.FromEdge);
            int to = Minute(lag.To, lag.ToEdge);
            int latest = lag.At(from, project.Horizon);
            if (to <= latest)
                continue;
            // The earlier one moves by what is missing; a delay that depends on time may need another round.
            int floor = _start[lag.From] + (to - latest);
            floors[lag.From] = Math.Max(floors[lag.From], floor);
            held = true;
        }
        return held;
    }

    /// <summary>Lags between members of one batch: no other time would change them.</summary>
    private bool KeepsToItself(int unit)
    {
        foreach (ListLag lag in units.Minimum[unit])
        {
            if (lag.From == unit && Minute(unit, lag.ToEdge) < lag.At(Minute(unit, lag.FromEdge), project.Horizon))
                return false;
        }
        return true;
    }

    private int Minute(int unit, Edge edge) => edge == Edge.Start ? Start(unit) : End(unit);

    private int Earliest(int unit, ListWay way)
    {
        int earliest = 0;
        foreach (ListLag lag in units.Minimum[unit])
        {
            if (lag.From == unit)
                continue;
            int bound = lag.At(Minute(lag.From, lag.FromEdge), project.Horizon);
            earliest = Math.Max(earliest, lag.ToEdge == Edge.Start ? bound : bound - way.Minutes);
        }
        return earliest;
    }

    /// <summary>The first start on the grid from which everything is free; null where it would not end by a minute.</summary>
    private int? Find(ListWay way, int from, TimeFunction? latestEnd, int endBy)
    {
        int at = from;
        while (true)
        {
            at = (at + project.StartStep - 1) / project.StartStep * project.StartStep;
            if (at + way.Minutes > Math.Min(endBy, project.Horizon))
                return null;
            int next = at;
            foreach (var windows in way.Starts)
                next = Math.Max(next, NextStart(windows, next));
            foreach (var (resource, count) in way.Demands)
                next = Math.Max(next, NextFree(resource, count, next, way.Minutes));
            if (next == int.MaxValue)
                return null;
            if (next > at)
            {
                at = next;
                continue;
            }
            if (latestEnd is null || at + way.Minutes <= latestEnd.At(at))
                return at;
            at += project.StartStep;
        }
    }

    private static int NextStart(ImmutableArray<Window> windows, int at)
    {
        foreach (Window window in windows)
        {
            if (at < window.To)
                return Math.Max(at, window.From);
        }
        return int.MaxValue;
    }

    private int NextFree(int resource, int count, int at, int minutes)
    {
        if (at == int.MaxValue)
            return at;
        foreach (Window open in project.Resources[resource].Open)
        {
            int start = Math.Max(at, open.From);
            while (start + minutes <= open.To)
            {
                int free = Clash(resource, count, start, start + minutes);
                if (free <= start)
                    return start;
                start = (free + project.StartStep - 1) / project.StartStep * project.StartStep;
            }
        }
        return int.MaxValue;
    }

    /// <summary>The minute up to which too much is in use somewhere in a stretch; its start where nothing is.</summary>
    private int Clash(int resource, int count, int from, int to)
    {
        int capacity = project.Resources[resource].Capacity;
        int until = from;
        int used = count;
        foreach (Window window in _taken[resource])
        {
            if (window.From < to && from < window.To)
                (used, until) = (used + 1, until == from ? window.To : Math.Min(until, window.To));
        }
        foreach (var (start, end, own) in _own[resource])
        {
            if (start < to && from < end)
                (used, until) = (used + own, until == from ? end : Math.Min(until, end));
        }
        // Runs that only touch the stretch one after the other are counted as if they were at once: never too many, seldom too few.
        return used <= capacity ? from : until;
    }
}
