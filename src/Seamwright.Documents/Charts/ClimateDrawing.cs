using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Shops;
using Seamwright.Units;

namespace Seamwright.Documents.Charts;

/// <summary>Air and panel over time: temperatures with the dew point above, humidity below; what is not known stays open.</summary>
public sealed class ClimateDrawing : IDrawing
{
    private readonly PanelClimate _panel;
    private readonly IWords _words;
    private readonly Outlook? _outlook;
    private readonly ImmutableArray<PlacedText> _texts;
    private readonly Box _warm;
    private readonly Box _damp;
    private readonly TimeScale _time;
    private readonly ValueScale _degrees;
    private readonly ValueScale _percent;

    /// <summary>A climate chart.</summary>
    /// <param name="panel">Air and panel.</param>
    /// <param name="from">Start.</param>
    /// <param name="to">End, after the start.</param>
    /// <param name="outlook">From when on the air is not measured but foretold, patterned or constant; null = all of it was measured.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public ClimateDrawing(PanelClimate panel, Instant from, Instant to, Outlook? outlook, IWords words, double width = 720)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 320);
        (_panel, _words, _outlook, Width) = (panel, words, outlook, width);
        FollowsAir = ChartParts.Moments(from, to, 96).All(at => Math.Abs((panel.TemperatureAt(at) - panel.AirAt(at).Temperature).Kelvins) < 0.01);
        Gaps = Unknown(panel.Air, from, to);
        Figures = [.. Hours(from, to, outlook, words.Zone).Select(FigureAt)];
        Title = words.Say(FollowsAir ? "draw.air.title-air" : "draw.air.title");
        var last = ChartParts.Moments(from, to, 48).MinBy(at => panel.DewPointMargin(at).Kelvins);
        string[] facts = [words.Say("draw.air.margin", panel.DewPointMargin(last), last), .. Gaps.IsEmpty ? Array.Empty<string>() : [words.Say("draw.air.gaps")]];
        _texts = ChartParts.Heading(width, Title, facts, out double top);

        bool us = words.Units == UnitSystem.UsCustomary;
        double left = 12 + Lettering.Width(us ? "100 °F" : "100 %", ChartParts.Faint) + 8;
        bool narrow = width < 560;
        _warm = new Box(left, top + 30, width - left - 14, narrow ? 140 : 180);
        _damp = new Box(left, _warm.Bottom + 34, width - left - 14, narrow ? 70 : 90);
        _time = TimeScale.Even(from, to, left, _warm.Width);
        var moments = ChartParts.Moments(from, to, 96).ToList();
        _degrees = ValueScale.Over(moments.SelectMany(at => new[] { Degrees(panel.TemperatureAt(at)), Degrees(panel.AirAt(at).Temperature), Degrees(DewPoint(at)) }), _warm.Top, _warm.Bottom);
        _percent = new ValueScale(0, 100, _damp.Top, _damp.Bottom);
        Air = Curve(at => new(_time.X(at), _degrees.Y(Degrees(panel.AirAt(at).Temperature))));
        Panel = Curve(at => new(_time.X(at), _degrees.Y(Degrees(panel.TemperatureAt(at)))));
        Dew = Curve(at => new(_time.X(at), _degrees.Y(Degrees(DewPoint(at)))));
        Humidity = Curve(at => new(_time.X(at), _percent.Y(panel.HumidityAt(at).Percent)));

        ImmutableArray<ImmutableArray<Spot>> Curve(Func<Instant, Spot> spot) => ChartParts.Curve(from, to, Gaps, spot);
    }

    /// <summary>Whether the panel is as warm as the air all the time; it then has no curve of its own.</summary>
    public bool FollowsAir { get; }

    /// <summary>Stretches without readings, ascending; curves stay open there.</summary>
    public ImmutableArray<Interval> Gaps { get; }

    /// <summary>Temperature of the air, in pieces between gaps.</summary>
    public ImmutableArray<ImmutableArray<Spot>> Air { get; }

    /// <summary>Temperature of the panel.</summary>
    public ImmutableArray<ImmutableArray<Spot>> Panel { get; }

    /// <summary>Dew point.</summary>
    public ImmutableArray<ImmutableArray<Spot>> Dew { get; }

    /// <summary>Relative humidity.</summary>
    public ImmutableArray<ImmutableArray<Spot>> Humidity { get; }

    /// <summary>What the curves say every third hour of the clock, ascending; the moment from which nothing was measured is among them.</summary>
    public ImmutableArray<ClimateFigure> Figures { get; }

    /// <summary>Where a moment and a temperature of the upper plot stand. [drawing units]</summary>
    public Spot SpotOf(Instant at, Temperature temperature) => new(_time.X(at), _degrees.Y(Degrees(temperature)));

    /// <inheritdoc/>
    public double Width { get; }

    /// <inheritdoc/>
    public double Height => _damp.Bottom + 44;

    /// <inheritdoc/>
    public string Title { get; }

    /// <inheritdoc/>
    public string Description => string.Join(". ", _texts.Skip(1).Select(text => text.Text));

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        foreach (var text in _texts)
            text.Draw(canvas);
        if (_outlook is { } outlook && outlook.From < _time.Stretches[^1].To)
        {
            outlook.DrawGround(canvas, _time, _warm, _words, named: false);
            outlook.DrawGround(canvas, _time, _damp, _words, named: true);
        }
        ChartParts.Clock(canvas, _time, _warm with { Height = _damp.Bottom - _warm.Top }, _damp.Bottom, _words, Width);
        ChartParts.Values(canvas, _degrees, _warm, 4, value => _words.Word(Temperature(value)));
        ChartParts.Values(canvas, _percent, _damp, 2, value => _words.Say("draw.percent", (int)Math.Round(value)));
        foreach (var gap in Gaps)
            Gap(canvas, gap);
        double x = _warm.Left;
        x = Named(canvas, "curve", "draw.air.air", Air, x, _warm.Top - 12);
        if (!FollowsAir)
            x = Named(canvas, "curve curve--second", "draw.air.panel", Panel, x, _warm.Top - 12);
        Named(canvas, "curve curve--third", "draw.air.dew", Dew, x, _warm.Top - 12);
        Named(canvas, "curve", "draw.air.humidity", Humidity, _damp.Left, _damp.Top - 10);
    }

    private ClimateFigure FigureAt(Instant at)
    {
        var origin = _outlook is { } outlook && at >= outlook.From ? outlook.Kind : OutlookKind.Measured;
        bool isOpen = Gaps.Any(gap => gap.Start < at && at < gap.End);
        return isOpen ? new(at, origin, null) : new(at, origin, new(_panel.AirAt(at).Temperature, _panel.TemperatureAt(at), DewPoint(at), _panel.HumidityAt(at)));
    }

    private static SortedSet<Instant> Hours(Instant from, Instant to, Outlook? outlook, DateTimeZone zone)
    {
        var moments = new SortedSet<Instant>();
        for (var at = from; at <= to; at += Duration.FromMinutes(15))
        {
            var clock = at.InZone(zone).LocalDateTime;
            var whole = clock.Date + new LocalTime(clock.Hour - clock.Hour % 3, 0);
            if (zone.MapLocal(whole) is { Count: > 0 } mapping && mapping.First().ToInstant() is var moment && moment >= from && moment <= to)
                moments.Add(moment);
        }
        if (outlook is not null && outlook.From >= from && outlook.From <= to)
            moments.Add(outlook.From);
        return moments;
    }

    private double Named(ICanvas canvas, string look, string key, ImmutableArray<ImmutableArray<Spot>> pieces, double x, double y)
    {
        string name = _words.Say(key);
        canvas.Line(look, new(x, y - 4), new(x + 24, y - 4));
        canvas.Text(ChartParts.Small, new(x + 30, y), name);
        canvas.Open(new Mark("climate-curve", name));
        foreach (var piece in pieces)
            canvas.Line(look, piece.AsSpan());
        canvas.Close();
        return x + 30 + Lettering.Width(name, ChartParts.Small) + 14;
    }

    private void Gap(ICanvas canvas, Interval gap)
    {
        double left = _time.X(gap.Start);
        double right = _time.X(gap.End);
        canvas.Open(new Mark("gap-mark", _words.Say("draw.air.gap", gap.Start, gap.End)));
        foreach (var plot in new[] { _warm, _damp })
        {
            canvas.Line("gap", new(left, plot.Top), new(left, plot.Bottom));
            canvas.Line("gap", new(right, plot.Top), new(right, plot.Bottom));
        }
        canvas.Close();
    }

    private static ImmutableArray<Interval> Unknown(Climate air, Instant from, Instant to) =>
    [
        .. air.NoticesWithin(from, to)
            .Where(notice => notice.Kind is ClimateNoticeKind.GapBridged or ClimateNoticeKind.HeldBeforeStart or ClimateNoticeKind.HeldAfterEnd)
            .Select(notice => new Interval(Instant.Max(notice.From, from), Instant.Min(notice.To, to)))
            .Where(gap => gap.Duration > Duration.Zero)
            .OrderBy(gap => gap.Start),
    ];

    private Temperature DewPoint(Instant at) => MoistAir.DewPoint(_panel.VapourPressureAt(at));

    private double Degrees(Temperature temperature) => _words.Units == UnitSystem.UsCustomary ? temperature.Fahrenheit : temperature.Celsius;

    private Temperature Temperature(double degrees) => _words.Units == UnitSystem.UsCustomary ? Units.Temperature.FromFahrenheit(degrees) : Units.Temperature.FromCelsius(degrees);
}
