using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Scheduling;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>When panel and air are inside a sheet's application limits, looked at on the plan's grid. Safe from several threads.</summary>
internal sealed class ApplicationTimes
{
    private readonly Cures _cures;
    private readonly int _points;
    private readonly double[] _panel;
    private readonly double[] _margin;
    private readonly double[] _humidity;
    private readonly double[] _water;
    private readonly ConcurrentDictionary<MaterialId, Lazy<ImmutableArray<Window>>> _known = new();
    private readonly int _now;

    public ApplicationTimes(Cures cures, PlanTime time)
    {
        _cures = cures;
        _now = time.Now;
        _points = PointsOf(time);
        (_panel, _margin, _humidity, _water) = (new double[_points], new double[_points], new double[_points], new double[_points]);
        for (int i = 0; i < _points; i++)
        {
            var at = time.At(i * PlanTime.Grid);
            var air = cures.Panel.AirAt(at);
            _panel[i] = cures.Panel.TemperatureAt(at).Kelvin;
            _margin[i] = cures.Panel.DewPointMargin(at).Kelvins;
            _humidity[i] = air.Humidity.Fraction;
            _water[i] = MoistAir.HumidityRatio(air).KilogramsPerKilogram;
        }
    }

    /// <summary>The first part of what is known about a longer time: vehicles in the same air look at it once.</summary>
    /// <param name="longer">Times with the same origin and the same now, to the same horizon or beyond.</param>
    /// <param name="time">The shorter time.</param>
    public ApplicationTimes(ApplicationTimes longer, PlanTime time)
    {
        _cures = longer._cures;
        _now = longer._now;
        _points = PointsOf(time);
        (_panel, _margin, _humidity, _water) = (longer._panel, longer._margin, longer._humidity, longer._water);
        Longer = longer;
    }

    private ApplicationTimes? Longer { get; }

    /// <summary>Stretches in which the sheet's limits hold, from now on; application must begin and end inside one.</summary>
    public ImmutableArray<Window> For(DataSheet sheet) =>
        _known.GetOrAdd(sheet.Id, _ => new(() => Longer is { } longer ? UpToHere(longer.For(sheet)) : Stretches(Allowed(sheet)))).Value;

    /// <summary>Stretches in which only the panel is too cold for the sheet: a lamp would help.</summary>
    public ImmutableArray<Window> TooColdOnly(DataSheet sheet) =>
        sheet.Limits.PanelFrom is { } from
            ? Stretches(i => _panel[i] < from.Kelvin && AllowsAir(sheet.Limits, i))
            : [];

    /// <summary>Panel temperature at a minute of the plan, from the grid point before it.</summary>
    public Temperature PanelAt(int minute) => Temperature.FromKelvin(_panel[Math.Clamp(minute / PlanTime.Grid, 0, _points - 1)]);

    private static int PointsOf(PlanTime time) => time.Horizon / PlanTime.Grid + 1;

    private ImmutableArray<Window> UpToHere(ImmutableArray<Window> windows)
    {
        int end = (_points - 1) * PlanTime.Grid + 1;
        return [.. windows.Where(window => window.From < end).Select(window => window with { To = Math.Min(window.To, end) })];
    }

    private Func<int, bool> Allowed(DataSheet sheet)
    {
        var limits = sheet.Limits;
        var staysDry = StaysDry(sheet);
        return i => !(_panel[i] < limits.PanelFrom?.Kelvin || _panel[i] > limits.PanelTo?.Kelvin)
            && AllowsAir(limits, i)
            && staysDry(i);
    }

    private bool AllowsAir(ApplicationLimits limits, int i) =>
        !(_humidity[i] < limits.HumidityFrom?.Fraction || _humidity[i] > limits.HumidityTo?.Fraction)
        && !(_water[i] < limits.LeastWater?.KilogramsPerKilogram);

    /// <summary>Whether no dew falls on what is applied at a grid point before it is dry.</summary>
    private Func<int, bool> StaysDry(DataSheet sheet)
    {
        double least = sheet.Limits.DewPointMargin.Kelvins;
        var nextDew = new int[_points + 1];
        nextDew[_points] = int.MaxValue;
        for (int i = _points - 1; i >= 0; i--)
            nextDew[i] = _margin[i] < least ? i : nextDew[i + 1];
        var dry = sheet.Milestone(MilestoneKind.TouchDry) ?? sheet.Milestone(MilestoneKind.Skin) ?? sheet.Milestone(MilestoneKind.TackFree);
        if (dry is null)
            return i => nextDew[i] > i;
        var reached = _cures.Reached(dry);
        // Where dew never falls again, when it is dry need not be asked.
        return i => nextDew[i] == int.MaxValue || (nextDew[i] > i && nextDew[i] > reached.At(i * PlanTime.Grid) / PlanTime.Grid);
    }

    private ImmutableArray<Window> Stretches(Func<int, bool> allowed)
    {
        var windows = new List<Window>();
        int start = -1;
        for (int i = _now / PlanTime.Grid; i <= _points; i++)
        {
            bool yes = i < _points && allowed(i);
            if (yes && start < 0)
                start = i;
            if (!yes && start >= 0)
            {
                // A stretch that ends with the grid point before now holds no start.
                int from = Math.Max(_now, start * PlanTime.Grid), to = (i - 1) * PlanTime.Grid + 1;
                if (from < to)
                    windows.Add(new Window(from, to));
                start = -1;
            }
        }
        return [.. windows];
    }
}
