using System.Collections.Immutable;
using NodaTime;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>Air and panel minute by minute, worked out as far as asked for. A panel that was read follows the air by explicit Euler steps of a minute.</summary>
internal sealed class MinuteAir
{
    private readonly RepairInput _input;
    private readonly List<double> _air = [];
    private readonly List<double> _humidity = [];
    private readonly List<double> _panel = [];

    public MinuteAir(RepairInput input)
    {
        _input = input;
        var repair = input.Repair;
        var facts = repair.Joints.Select(joint => joint.Surface.Applied)
            .Concat(repair.BareAreas.Select(area => area.Surface.Applied))
            .Concat(repair.Bonds.Select(bond => bond.Closed))
            .Concat(repair.Done.Select(step => (Instant?)step.Start))
            .Append(repair.Panel?.At)
            .OfType<Instant>();
        var first = facts.Append(repair.Now).Min();
        Origin = Instant.FromUnixTimeSeconds(first.ToUnixTimeSeconds() / 60 * 60);
    }

    /// <summary>Minute 0.</summary>
    public Instant Origin { get; }

    /// <summary>
    /// Saturation pressure over water by Sonntag's formula (1990), within 0.02 % of the one the planner uses from −20 to 60 °C. [Pa]
    /// </summary>
    public static double Saturation(double kelvin) =>
        Math.Exp(-6096.9385 / kelvin + 21.2409642 - 2.711193e-2 * kelvin + 1.673952e-5 * kelvin * kelvin + 2.433502 * Math.Log(kelvin));

    public double MinuteOf(Instant at) => (at - Origin).TotalMinutes;

    public Instant At(double minute) => Origin + Duration.FromMinutes(minute);

    /// <summary>Air temperature. [K]</summary>
    public double Air(int minute) => Known(_air, minute);

    /// <summary>Relative humidity. [0…1]</summary>
    public double Humidity(int minute) => Known(_humidity, minute);

    /// <summary>Vapour pressure of the air. [Pa]</summary>
    public double Vapour(int minute) => Humidity(minute) * Saturation(Air(minute));

    /// <summary>Water in the air at sea level. [g/kg]</summary>
    public double Water(int minute)
    {
        double vapour = Vapour(minute);
        return 621.98 * vapour / (101_325 - vapour);
    }

    /// <summary>Panel temperature with whatever lamps stand before it. [K]</summary>
    public double Panel(int minute, ImmutableArray<LampHeat> heats)
    {
        double own = Known(_panel, minute);
        foreach (var heat in heats)
        {
            double start = MinuteOf(heat.Start), ramp = heat.Ramp.TotalMinutes, off = MinuteOf(heat.Off), cool = heat.Cooling.TotalMinutes;
            if (minute < start || minute >= off + cool || Known(_panel, (int)start) >= heat.Kelvin)
                continue;
            double before = Known(_panel, (int)start), after = Known(_panel, (int)Math.Ceiling(off + cool));
            return minute < start + ramp ? before + (heat.Kelvin - before) * (minute - start) / ramp
                : minute <= off ? heat.Kelvin
                : heat.Kelvin + (after - heat.Kelvin) * (minute - off) / cool;
        }
        return own;
    }

    private double Known(List<double> values, int minute)
    {
        while (_panel.Count <= minute)
            Add(_panel.Count);
        return values[Math.Max(0, minute)];
    }

    private void Add(int minute)
    {
        var air = _input.Climate.At(At(minute));
        double kelvin = air.Temperature.Kelvin;
        _panel.Add(_input.Repair.Panel is not { } reading ? kelvin
            : minute <= MinuteOf(reading.At) ? reading.Temperature.Kelvin
            : _panel[minute - 1] + (_air[minute - 1] - _panel[minute - 1]) / _input.Shop.PanelTimeConstant.TotalMinutes);
        _air.Add(kelvin);
        _humidity.Add(air.Humidity.Fraction);
    }
}
