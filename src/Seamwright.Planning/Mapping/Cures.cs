using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Scheduling;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>Cure times of this repair's panel in this shop's air: one clock a law, built when first asked for. Safe from several threads.</summary>
internal sealed class Cures
{
    private readonly PlanTime _time;
    private readonly Instant _from;
    private readonly Instant _to;
    private readonly double _offset;
    private readonly SharedAir? _shared;
    private readonly Dictionary<CureLaw, CureClock> _clocks = [];
    private readonly Dictionary<object, TimeFunction> _functions = [];

    /// <param name="panel">What the joints feel.</param>
    /// <param name="time">The plan's minutes.</param>
    /// <param name="earliest">Earliest past application that is asked about.</param>
    /// <param name="shared">Clocks of the same panel that reach at least as far both ways; null = its own.</param>
    public Cures(PanelClimate panel, PlanTime time, Instant earliest, SharedAir? shared = null)
    {
        Panel = panel;
        _time = time;
        _shared = shared;
        _from = shared?.From ?? Instant.Min(earliest, time.Origin);
        _to = shared?.To ?? EndOf(time);
        _offset = (time.Origin - _from).TotalMinutes;
    }

    /// <summary>What the joints feel.</summary>
    public PanelClimate Panel { get; }

    /// <summary>Minute at which a milestone is reached by what was applied until a minute.</summary>
    public TimeFunction Reached(Milestone milestone) => Reached(milestone.Law, milestone.Needed);

    /// <summary>Minute at which a bead is cured through by what was applied until a minute.</summary>
    public TimeFunction CuredThrough(DepthCure cure, Length depth) => Reached(cure.Law, cure.Needed(depth), throughDepth: true);

    /// <summary>Minute at which an amount of work is done from a minute on.</summary>
    public TimeFunction Reached(CureLaw law, ReferenceTime needed) => Reached(law, needed, throughDepth: false);

    /// <summary>Minutes from the start of every clock to minute 0 of the plan.</summary>
    public double Offset => _offset;

    private TimeFunction Reached(CureLaw law, ReferenceTime needed, bool throughDepth)
    {
        object key = (law, needed, throughDepth);
        lock (_functions)
        {
            if (!_functions.TryGetValue(key, out var function))
                _functions.Add(key, function = new CureFunction(Clock(law), needed.Hours, throughDepth, _offset));
            return function;
        }
    }

    /// <summary>Last minute at which the next layer may go on without abrading: the earlier of clock hours and reference hours.</summary>
    public TimeFunction Latest(MaximumWindow window)
    {
        lock (_functions)
        {
            if (!_functions.TryGetValue(window, out var function))
            {
                int clock = (int)Math.Floor(window.Clock.TotalMinutes + 1e-6);
                function = window.Law is { } law
                    ? new Window(Clock(law), window.Clock.TotalHours, _offset, clock)
                    : TimeFunction.Shift(clock);
                _functions.Add(window, function);
            }
            return function;
        }
    }

    /// <summary>When a milestone is reached by what was applied at an instant; null beyond two weeks after the plan.</summary>
    public Instant? Finish(CureLaw law, ReferenceTime needed, Instant start) => Clock(law).Finish(start, needed);

    /// <summary>Last moment of the next layer for what was applied at an instant, possibly before the plan.</summary>
    public Instant LatestNextLayer(MaximumWindow window, Instant applied)
    {
        var clock = applied + window.Clock;
        return window.Law is { } law && Clock(law).Finish(applied, ReferenceTime.FromHours(window.Clock.TotalHours)) is { } reference
            ? Instant.Min(clock, reference)
            : clock;
    }

    /// <summary>A thick bead in dry air takes more than a week: the clocks reach beyond the plan so that the answer can say how long.</summary>
    public static Instant EndOf(PlanTime time) => time.At(time.Horizon) + Duration.FromDays(14);

    public CureClock Clock(CureLaw law)
    {
        if (_shared is not null)
            return _shared.Clock(law);
        lock (_clocks)
        {
            if (!_clocks.TryGetValue(law, out var clock))
                _clocks.Add(law, clock = CureClock.For(law, Panel, _from, _to));
            return clock;
        }
    }

    private sealed class Window(CureClock clock, double hours, double offset, int clockMinutes) : TimeFunction
    {
        public override int At(int t)
        {
            double finish = clock.FinishMinutes(t + offset, hours) - offset;
            return finish < 1e7 ? Math.Min(t + clockMinutes, (int)Math.Floor(finish + 1e-6)) : t + clockMinutes;
        }
    }
}

/// <summary>When an amount of cure work is done by what was applied until a minute.</summary>
/// <param name="clock">Clock of the law.</param>
/// <param name="hours">Work needed. [reference h]</param>
/// <param name="throughDepth">True where the work goes by the depth of the bead.</param>
/// <param name="offset">Minute of the clock at minute 0 of the plan.</param>
internal sealed class CureFunction(CureClock clock, double hours, bool throughDepth, double offset) : TimeFunction
{
    public CureLaw Law => clock.Law;

    public double Hours => hours;

    public bool ThroughDepth => throughDepth;

    public override int At(int t)
    {
        double finish = clock.FinishMinutes(t + offset, hours) - offset;
        return finish < 1e7 ? (int)Math.Ceiling(finish - 1e-6) : int.MaxValue;
    }

    public override int LatestFor(int finish, int horizon)
    {
        double start = clock.LatestStartMinutes(finish + offset, hours) - offset;
        int latest = start >= 0 ? Math.Min(horizon, (int)Math.Floor(start + 1e-6)) : -1;

        // The inverse and the function round by themselves: at a whole minute they may differ by one, and the function is what counts.
        while (latest >= 0 && At(latest) > finish)
            latest--;
        while (latest < horizon && At(latest + 1) <= finish)
            latest++;
        return latest;
    }
}

/// <summary>The later of two time functions.</summary>
internal sealed class LaterFunction(TimeFunction a, TimeFunction b) : TimeFunction
{
    public TimeFunction First => a;

    public TimeFunction Second => b;

    public override int At(int t) => Math.Max(a.At(t), b.At(t));

    public override int LatestFor(int finish, int horizon) => Math.Min(a.LatestFor(finish, horizon), b.LatestFor(finish, horizon));
}

/// <summary>Combinations of time functions.</summary>
internal static class TimeFunctions
{
    /// <summary>The later of several: ready when all are ready. Null for none.</summary>
    public static TimeFunction? Latest(params ReadOnlySpan<TimeFunction?> functions)
    {
        TimeFunction? all = null;
        foreach (var function in functions)
        {
            if (function is not null)
                all = all is null ? function : new LaterFunction(all, function);
        }
        return all;
    }
}
