using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Scheduling;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>When panel and air are inside a sheet's application limits, looked at on the plan's grid.</summary>
internal sealed class ApplicationTimes
{
    private readonly Cures _cures;
    private readonly int _points;
    private readonly double[] _panel;
    private readonly double[] _margin;
    private readonly double[] _humidity;
    private readonly double[] _water;
    private readonly Dictionary<MaterialId, ImmutableArray<Window>> _known = [];
    private readonly int _now;

    public ApplicationTimes(Cures cures, PlanTime time)
    {
        _cures = cures;
        _now = time.Now;
        _points = time.Horizon / PlanTime.Grid + 1;
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

    /// <summary>Stretches in which the sheet's limits hold, from now on; application must begin and end inside one.</summary>
    public ImmutableArray<Window> For(DataSheet sheet)
    {
        lock (_known)
        {
            if (!_known.TryGetValue(sheet.Id, out var windows))
                _known.Add(sheet.Id, windows = Stretches(i => Allows(sheet, i)));
            return windows;
        }
    }

    /// <summary>Stretches in which only the panel is too cold for the sheet: a lamp would help.</summary>
    public ImmutableArray<Window> TooColdOnly(DataSheet sheet) =>
        sheet.Limits.PanelFrom is { } from
            ? Stretches(i => _panel[i] < from.Kelvin && AllowsAir(sheet.Limits, i))
            : [];

    /// <summary>Panel temperature at a minute of the plan, from the grid point before it.</summary>
    public Temperature PanelAt(int minute) => Temperature.FromKelvin(_panel[Math.Clamp(minute / PlanTime.Grid, 0, _points - 1)]);

    private bool Allows(DataSheet sheet, int i)
    {
        var limits = sheet.Limits;
        return !(_panel[i] < limits.PanelFrom?.Kelvin || _panel[i] > limits.PanelTo?.Kelvin)
            && AllowsAir(limits, i)
            && StaysDry(sheet, i);
    }

    private bool AllowsAir(ApplicationLimits limits, int i) =>
        !(_humidity[i] < limits.HumidityFrom?.Fraction || _humidity[i] > limits.HumidityTo?.Fraction)
        && !(_water[i] < limits.LeastWater?.KilogramsPerKilogram);

    private bool StaysDry(DataSheet sheet, int i)
    {
        double least = sheet.Limits.DewPointMargin.Kelvins;
        if (_margin[i] < least)
            return false;
        var dry = sheet.Milestone(MilestoneKind.TouchDry) ?? sheet.Milestone(MilestoneKind.Skin) ?? sheet.Milestone(MilestoneKind.TackFree);
        if (dry is null)
            return true;
        int until = Math.Min(_points - 1, _cures.Reached(dry).At(i * PlanTime.Grid) / PlanTime.Grid);
        for (int k = i + 1; k <= until; k++)
        {
            if (_margin[k] < least)
                return false;
        }
        return true;
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
