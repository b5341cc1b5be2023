using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>
/// What a joint feels: the panel's temperature, and vapour pressure and humidity of the air around it, over time. Immutable. Application
/// limits, two-part cure and drying go by the panel's temperature, moisture cure by the vapour pressure of the air (docs/formulas.md).
/// </summary>
public abstract class PanelClimate
{
    private readonly TrackCache _tracks;

    private protected PanelClimate(Climate air)
    {
        Air = air;
        _tracks = new(BuildTrack);
    }

    /// <summary>The air around the panel.</summary>
    public Climate Air { get; }

    /// <summary>A whole car's usual time constant behind the air. [3 h, common practice]</summary>
    public static Duration DefaultTimeConstant { get; } = Duration.FromHours(3);

    /// <summary>A panel at air temperature.</summary>
    public static PanelClimate FollowingAir(Climate air)
    {
        ArgumentNullException.ThrowIfNull(air);
        return new AtAirTemperature(air);
    }

    /// <summary>A panel that was measured and from then on follows the moving air temperature with a time constant (first order, exact).</summary>
    /// <param name="air">The air.</param>
    /// <param name="at">Moment of the reading. Before it the reading is taken to have held.</param>
    /// <param name="reading">Panel temperature. [−80…200 °C]</param>
    /// <param name="timeConstant">Time constant; null = <see cref="DefaultTimeConstant"/>. [&gt; 0]</param>
    /// <exception cref="OutsideValidityException"><paramref name="reading"/> is out of range or not a number.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The time constant is not above zero.</exception>
    public static PanelClimate FromReading(Climate air, Instant at, Temperature reading, Duration? timeConstant = null)
    {
        ArgumentNullException.ThrowIfNull(air);
        MoistAir.RequireWater(reading);
        var tau = timeConstant ?? DefaultTimeConstant;
        if (tau <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(timeConstant), tau, "A time constant must be above zero.");

        return new BehindAir(air, at, reading, tau);
    }

    /// <summary>A panel with heat put on it: same vapour pressure, higher temperature.</summary>
    /// <param name="panel">The panel without this heat. It may itself be heated at another time.</param>
    /// <param name="heat">The heat.</param>
    /// <exception cref="OutsideValidityException">The target is out of range or not a number.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A duration is negative, or all three are zero.</exception>
    public static PanelClimate Heated(PanelClimate panel, HeatProfile heat)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(heat);
        MoistAir.RequireWater(heat.Target);
        if (heat.Ramp < Duration.Zero || heat.Hold < Duration.Zero || heat.Cooling < Duration.Zero || heat.End == heat.Start)
            throw new ArgumentOutOfRangeException(nameof(heat), heat, "Ramp, hold and cooling must not be negative, and not all zero.");

        return new WithHeat(panel, heat);
    }

    /// <summary>Panel temperature at a moment.</summary>
    public Temperature TemperatureAt(Instant time)
    {
        var (piece, s) = PieceAt(time);
        return Temperature.FromKelvin(piece.Panel.Value(s));
    }

    /// <summary>Vapour pressure of the air at a moment.</summary>
    public Pressure VapourPressureAt(Instant time)
    {
        var (piece, s) = PieceAt(time);
        return Pressure.FromPascals(piece.VapourPascals(s));
    }

    /// <summary>Relative humidity of the air (not at the panel's temperature) at a moment. [0…1]</summary>
    public RelativeHumidity HumidityAt(Instant time)
    {
        var (piece, s) = PieceAt(time);
        return RelativeHumidity.FromFraction(piece.HumidityFraction(s));
    }

    /// <summary>The air around the panel at a moment.</summary>
    public AirState AirAt(Instant time)
    {
        var (piece, s) = PieceAt(time);
        return new(Temperature.FromKelvin(piece.Air.Value(s)), RelativeHumidity.FromFraction(piece.HumidityFraction(s)));
    }

    /// <summary>How far the panel is above the dew point of the air; negative where dew falls on it. Air drier than −80 °C counts as −80 °C.</summary>
    public TemperatureDifference DewPointMargin(Instant time)
    {
        var (piece, s) = PieceAt(time);
        return Margin(piece, s);
    }

    /// <summary>The least <see cref="DewPointMargin"/> in a span, looked at every five minutes and at every breakpoint.</summary>
    /// <exception cref="ArgumentException">The span has no length.</exception>
    public TemperatureDifference LeastDewPointMargin(Instant from, Instant to)
    {
        double least = double.PositiveInfinity;
        Look(from, to, (piece, s) => least = Math.Min(least, Margin(piece, s).Kelvins));
        return TemperatureDifference.FromKelvins(least);
    }

    /// <summary>Coldest and warmest panel temperature in a span, looked at every five minutes and at every breakpoint.</summary>
    /// <exception cref="ArgumentException">The span has no length.</exception>
    public (Temperature Coldest, Temperature Warmest) Extremes(Instant from, Instant to)
    {
        var (coldest, warmest) = (double.PositiveInfinity, double.NegativeInfinity);
        Look(from, to, (piece, s) =>
        {
            double kelvin = piece.Panel.Value(s);
            (coldest, warmest) = (Math.Min(coldest, kelvin), Math.Max(warmest, kelvin));
        });
        return (Temperature.FromKelvin(coldest), Temperature.FromKelvin(warmest));
    }

    /// <summary>Moments in (<paramref name="from"/>, <paramref name="to"/>) at which panel or air change their slope abruptly. Ascending.</summary>
    /// <exception cref="ArgumentException">The span has no length.</exception>
    public IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => Track(from, to).Breakpoints(from, to);

    /// <summary>Closed-form stretches covering at least the span.</summary>
    internal Track Track(Instant from, Instant to)
    {
        Span.Require(from, to);
        return _tracks.Covering(from, to);
    }

    private protected abstract Track BuildTrack(Instant from, Instant to);

    private (TrackPiece Piece, double S) PieceAt(Instant time)
    {
        var track = _tracks.Around(time);
        double minute = track.Minute(time);
        var piece = track.Pieces[track.IndexAt(minute)];
        return (piece, minute - piece.Start);
    }

    private void Look(Instant from, Instant to, Action<TrackPiece, double> at)
    {
        var track = Track(from, to);
        double last = track.Minute(to);
        double minute = track.Minute(from);
        for (int i = track.IndexAt(minute); i < track.Pieces.Length && minute <= last; i++)
        {
            var piece = track.Pieces[i];
            double end = Math.Min(piece.End, last);
            for (; minute < end; minute += Span.Grid.TotalMinutes)
                at(piece, minute - piece.Start);
            at(piece, end - piece.Start);
            minute = piece.End;
        }
    }

    private static TemperatureDifference Margin(TrackPiece piece, double s) =>
        TemperatureDifference.FromKelvins(piece.Panel.Value(s) - MoistAir.DewPointKelvin(piece.VapourPascals(s)));

    private sealed class AtAirTemperature(Climate air) : PanelClimate(air)
    {
        private protected override Track BuildTrack(Instant from, Instant to) => Air.Track(from, to);
    }

    private sealed class BehindAir(Climate air, Instant at, Temperature reading, Duration timeConstant) : PanelClimate(air)
    {
        private protected override Track BuildTrack(Instant from, Instant to)
        {
            // After 36 time constants the reading is forgotten to 1e-15, and so is whatever the run-up starts with.
            var memory = 36 * timeConstant;
            bool forgotten = from - at > memory;
            var begin = forgotten ? from - memory : Instant.Min(at, from);
            var track = Air.Track(begin, to);
            double first = track.Minute(begin);
            double last = track.Minute(to);
            double readAt = track.Minute(at);
            double wanted = track.Minute(from);
            double rate = 1 / timeConstant.TotalMinutes;
            double kelvin = reading.Kelvin;

            var pieces = new List<TrackPiece>();
            for (int i = track.IndexAt(first); i < track.Pieces.Length && track.Pieces[i].Start < last; i++)
            {
                var piece = track.Pieces[i];
                double start = Math.Max(piece.Start, first);
                double end = i + 1 == track.Pieces.Length ? last : Math.Min(piece.End, last);
                if (start < readAt && !forgotten)
                {
                    double held = Math.Min(end, readAt);
                    pieces.Add(piece.Cut(start, held) with { Panel = Curve.Constant(kelvin) });
                    start = held;
                }

                if (start >= end)
                    continue;
                var part = piece.Cut(start, end);
                var panel = part.Air.Followed(rate, kelvin);
                kelvin = panel.Value(end - start);
                if (end >= wanted)
                    pieces.Add(part with { Panel = panel });
            }

            return new Track(track.Origin, from, to, [.. pieces]);
        }
    }

    private sealed class WithHeat(PanelClimate inner, HeatProfile heat) : PanelClimate(inner.Air)
    {
        private protected override Track BuildTrack(Instant from, Instant to)
        {
            // The way back ends at the temperature that the panel would have had then, so the inner track must reach that far.
            bool touches = heat.Start < to && heat.End > from;
            var track = touches
                ? inner.Track(Instant.Min(from, heat.Start), Instant.Max(to, heat.End + Span.Grid))
                : inner.Track(from, to);
            if (!touches)
                return track;

            double start = track.Minute(heat.Start);
            double holdStart = track.Minute(heat.HoldStart);
            double holdEnd = track.Minute(heat.HoldEnd);
            double end = track.Minute(heat.End);
            double target = heat.Target.Kelvin;
            double before = PanelKelvin(track, start);
            if (before >= target)
                return track;

            double after = PanelKelvin(track, end);
            var pieces = new List<TrackPiece>();
            foreach (var piece in track.Pieces)
            {
                Add(pieces, piece, double.NegativeInfinity, start, null);
                Add(pieces, piece, start, holdStart, Ramp(start, before, holdStart, target));
                Add(pieces, piece, holdStart, holdEnd, Curve.Constant(target));
                Add(pieces, piece, holdEnd, end, Ramp(holdEnd, target, end, after));
                Add(pieces, piece, end, double.PositiveInfinity, null);
            }

            return new Track(track.Origin, track.From, track.To, [.. pieces]);

            static Curve? Ramp(double start, double kelvin, double end, double endKelvin) =>
                end > start ? Curve.Line(kelvin, (endKelvin - kelvin) / (end - start)) : null;

            static void Add(List<TrackPiece> pieces, TrackPiece piece, double from, double to, Curve? panel)
            {
                double start = Math.Max(piece.Start, from);
                double end = Math.Min(piece.End, to);
                if (start >= end)
                    return;
                var part = piece.Cut(start, end);
                pieces.Add(panel is { } curve ? part with { Panel = curve.Shifted(start - from) } : part);
            }
        }

        private static double PanelKelvin(Track track, double minute)
        {
            var piece = track.Pieces[track.IndexAt(minute)];
            return piece.Panel.Value(minute - piece.Start);
        }
    }
}
