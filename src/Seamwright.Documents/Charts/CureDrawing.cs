using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Documents.Drawing;
using Seamwright.Documents.SeamMap;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Documents.Charts;

/// <summary>What a cure curve is drawn from.</summary>
/// <param name="Sheet">Data sheet.</param>
/// <param name="Panel">What the bead feels.</param>
/// <param name="Start">When it is applied.</param>
/// <param name="Depth">Depth from the open face, for a moisture cure; null = not asked.</param>
/// <param name="ForecastFrom">From here on the air is foretold, not measured; null = nothing is.</param>
/// <param name="For">Joints it is for, in words; empty = none in particular.</param>
/// <param name="Gaps">Stretches in which the air is not known; the curve stays open there.</param>
public sealed record CureCase(DataSheet Sheet, PanelClimate Panel, Instant Start, Length? Depth, Instant? ForecastFrom, string For, ImmutableArray<Interval> Gaps);

/// <summary>One milestone's way.</summary>
/// <param name="Name">Milestone in words.</param>
/// <param name="IsLimit">True where it ends something (work time, skin).</param>
/// <param name="Reached">When it is reached.</param>
/// <param name="Pieces">The curve from 0 to 100 %, open in gaps.</param>
/// <param name="SheetPoints">What the sheet says at its own air: moment and words; only those that the chart holds.</param>
public sealed record CureWay(string Name, bool IsLimit, Instant Reached, ImmutableArray<ImmutableArray<Spot>> Pieces, ImmutableArray<(Instant At, string Text)> SheetPoints);

/// <summary>The cure of a material over time: each milestone's way from nothing to reached, beside what the sheet says.</summary>
public sealed class CureDrawing : IDrawing
{
    // After this nobody waits for a seam any more.
    private static readonly Duration Longest = Duration.FromDays(60);

    private static readonly MilestoneKind[] MainFirst = [MilestoneKind.Paint, MilestoneKind.NextLayer, MilestoneKind.Handling, MilestoneKind.Full, MilestoneKind.TouchDry, MilestoneKind.TackFree];

    private readonly CureCase _case;
    private readonly IWords _words;
    private readonly ImmutableArray<PlacedText> _texts;
    private readonly ImmutableArray<(PlacedText Text, double X, int Row)> _names;
    private readonly Box _plot;
    private readonly TimeScale _time;
    private readonly ValueScale _share;
    private readonly double _names0;

    /// <summary>A cure chart.</summary>
    /// <param name="cure">What it is drawn from.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    public CureDrawing(CureCase cure, IWords words, double width = 720)
    {
        ArgumentNullException.ThrowIfNull(cure);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 320);
        (_case, _words, Width) = (cure, words, width);
        Title = words.Say("draw.cure.title", cure.Sheet.Id, cure.Sheet.Name);

        var goals = Goals().Where(goal => goal.Needed > ReferenceTime.Zero).Select(goal => (Goal: goal, Clock: CureClock.For(goal.Law, cure.Panel, cure.Start, cure.Start + Longest)))
            .Select(goal => (goal.Goal, goal.Clock, Reached: goal.Clock.Finish(cure.Start, goal.Goal.Needed))).ToList();
        var main = MainFirst.Select(kind => goals.FirstOrDefault(goal => goal.Goal.Kind == kind)).FirstOrDefault(goal => goal.Clock is not null && goal.Reached is not null);
        var end = main.Reached ?? goals.Select(goal => goal.Reached).Max() ?? cure.Start + Duration.FromHours(1);
        if (cure.Depth is not null && goals.FirstOrDefault(goal => goal.Goal.Kind is null).Reached is { } through && (through - cure.Start) < (end - cure.Start) * 4)
            end = Instant.Max(end, through);
        end = cure.Start + Clamp((end - cure.Start) * 1.2);

        var shown = goals.Where(goal => goal.Reached is { } at && at <= end).ToList();
        var later = goals.Where(goal => goal.Reached is not { } at || at > end)
            .Select(goal => goal.Reached is { } at ? words.Say("draw.cure.later", goal.Goal.Name, ToMinute(at, goal.Goal.IsLimit)) : words.Say("draw.cure.never", goal.Goal.Name, Longest.TotalDays)).ToList();
        var air = words.Say("draw.cure.air", cure.Start, cure.Panel.AirAt(cure.Start), cure.Panel.TemperatureAt(cure.Start));
        _texts = ChartParts.Heading(width, cure.For.Length == 0 ? words.Say("draw.cure.heading", cure.Sheet.Id) : words.Say("draw.cure.heading-for", cure.Sheet.Id, cure.For), [cure.Sheet.Name, air, .. later], out double top);

        double left = 12 + Lettering.Width("100 %", ChartParts.Faint) + 8;
        _names0 = top + 10;
        _names = ChartParts.Over(shown.Select(goal => (XOf(goal.Reached!.Value), words.Say("draw.cure.at", goal.Goal.Name, ToMinute(goal.Reached!.Value, goal.Goal.IsLimit)), "text text--small")), left, width - 12);
        int rows = _names.IsEmpty ? 0 : _names.Max(name => name.Row) + 1;
        _plot = new Box(left, _names0 + rows * 18 + 10, width - left - 14, width < 560 ? 170 : 220);
        _time = TimeScale.Even(cure.Start, end, _plot.Left, _plot.Width);
        _share = new ValueScale(0, 1, _plot.Top + 4, _plot.Bottom);
        Ways = [.. shown.Select(goal => Way(goal.Goal, goal.Clock, goal.Reached!.Value, end))];

        double XOf(Instant at) => TimeScale.Even(cure.Start, end, left, width - left - 14).X(at);
    }

    /// <summary>Milestones within the chart, in the sheet's order.</summary>
    public ImmutableArray<CureWay> Ways { get; }

    /// <inheritdoc/>
    public double Width { get; }

    /// <inheritdoc/>
    public double Height => _plot.Bottom + 74;

    /// <inheritdoc/>
    public string Title { get; }

    /// <inheritdoc/>
    public string Description => string.Join(". ", _texts.Skip(1).Select(text => text.Text).Concat(Ways.Select(way => _words.Say("draw.cure.at", way.Name, ToMinute(way.Reached, way.IsLimit)))));

    /// <inheritdoc/>
    public void Draw(ICanvas canvas)
    {
        ArgumentNullException.ThrowIfNull(canvas);
        foreach (var text in _texts)
            text.Draw(canvas);
        if (_case.ForecastFrom is { } from && from < _time.Stretches[^1].To)
            new Outlook(from, OutlookKind.Foretold).DrawGround(canvas, _time, _plot, _words, named: true);
        ChartParts.Clock(canvas, _time, _plot, _plot.Bottom, _words, Width);
        ChartParts.Values(canvas, _share, _plot, 4, share => _words.Say("draw.percent", (int)Math.Round(100 * share)));
        foreach (var (text, x, row) in _names)
        {
            double y = _names0 + (_names.Max(name => name.Row) - row) * 18 + 12;
            canvas.Line("axis", new(x, y - 10), new(x, _share.Y(1)));
            (text with { At = text.At with { Y = y } }).Draw(canvas);
        }
        int plain = 0;
        foreach (var way in Ways)
            Draw(canvas, way, way.IsLimit ? "curve curve--limit" : plain++ switch { 0 => "curve", 1 => "curve curve--second", _ => "curve curve--third" });
        Legend(canvas);
    }

    private void Draw(ICanvas canvas, CureWay way, string look)
    {
        canvas.Open(new Mark("milestone", _words.Say("draw.cure.at", way.Name, ToMinute(way.Reached, way.IsLimit))));
        foreach (var piece in way.Pieces)
            canvas.Line(look, piece.AsSpan());
        canvas.Disc(way.IsLimit ? "point point--limit" : "point", new(_time.X(way.Reached), _share.Y(1)), 4.5);
        canvas.Close();
        foreach (var (at, text) in way.SheetPoints)
        {
            canvas.Open(new Mark("sheet-point", text));
            canvas.Disc("point point--sheet", new(_time.X(at), _share.Y(1)), 4);
            canvas.Close();
        }
    }

    private void Legend(ICanvas canvas)
    {
        if (Ways.All(way => way.SheetPoints.IsEmpty))
            return;
        canvas.Disc("point point--sheet", new(18, _plot.Bottom + 54), 4);
        canvas.Text(ChartParts.Small, new(30, _plot.Bottom + 58), Lettering.Cut(_words.Say("draw.cure.sheet-points"), ChartParts.Small, Width - 42));
    }

    // Never ready before it is, never workable longer than it is: what ends work is rounded down, everything else up.
    private static Instant ToMinute(Instant at, bool early)
    {
        var down = Instant.FromUnixTimeSeconds(at.ToUnixTimeSeconds() / 60 * 60);
        return early || down == at ? down : down + Duration.FromMinutes(1);
    }

    private static Duration Clamp(Duration span) => span < Duration.FromMinutes(10) ? Duration.FromMinutes(10) : span > Longest ? Longest : span;

    private CureWay Way(Goal goal, CureClock clock, Instant reached, Instant end)
    {
        var pieces = ChartParts.Curve(_case.Start, reached, _case.Gaps, at => new Spot(_time.X(at), _share.Y(Math.Clamp(Share(goal, clock.Progress(_case.Start, at)), 0, 1))));
        var points = goal.Evidence?.Points.Where(point => _case.Start + point.Time <= end)
            .Select(point => (_case.Start + point.Time, _words.Say("draw.cure.sheet-point", goal.Name, point.Time, point.Climate))) ?? [];
        return new CureWay(goal.Name, goal.IsLimit, reached, pieces, [.. points]);
    }

    // Depth grows with the root of the work, everything else is drawn as the work itself.
    private double Share(Goal goal, ReferenceTime progress) => goal.Kind is null && _case.Sheet.DepthCure is { } cure
        ? cure.Depth(progress) / cure.Depth(goal.Needed)
        : progress / goal.Needed;

    private IEnumerable<Goal> Goals()
    {
        foreach (var milestone in _case.Sheet.Milestones)
            yield return new(milestone.Kind, _words.Word(milestone.Kind), milestone.Law, milestone.Needed, milestone.Evidence, milestone.Kind is MilestoneKind.WorkEnd or MilestoneKind.Skin);
        if (_case.Sheet.DepthCure is { } cure && _case.Depth is { } deep)
            yield return new(null, _words.Say("cure.through", deep), cure.Law, cure.Needed(deep), null, false);
    }

    private sealed record Goal(MilestoneKind? Kind, string Name, CureLaw Law, ReferenceTime Needed, MilestoneEvidence? Evidence, bool IsLimit);
}
