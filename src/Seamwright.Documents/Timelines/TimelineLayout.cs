using System.Collections.Immutable;
using NodaTime;
using Seamwright.Documents.Drawing;
using Seamwright.Work;

namespace Seamwright.Documents.Timelines;

/// <summary>What a lane is for.</summary>
public enum LaneKind
{
    /// <summary>A person's work.</summary>
    Person,

    /// <summary>Heat of a lamp.</summary>
    Heat,

    /// <summary>Something that cures or dries by itself.</summary>
    Cure,
}

/// <summary>A step in a lane.</summary>
/// <param name="Step">The step.</param>
/// <param name="Box">Where it stands.</param>
/// <param name="Label">Its short name; null where there is no room for it.</param>
/// <param name="LabelInside">True where the name stands in the bar.</param>
/// <param name="Title">In words.</param>
public sealed record TimelineBar(Step Step, Box Box, string? Label, bool LabelInside, string Title);

/// <summary>A lane.</summary>
/// <param name="Name">Name in words.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Box">Room of its bars.</param>
/// <param name="Bars">Bars by start.</param>
public sealed record TimelineLane(string Name, LaneKind Kind, Box Box, ImmutableArray<TimelineBar> Bars);

/// <summary>A row of the table that says the same as the drawing.</summary>
/// <param name="Lane">Person, or what happens by itself.</param>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="What">What happens, in words.</param>
public sealed record TimelineRow(string Lane, Instant From, Instant To, string What);

/// <summary>A plan over time laid out: people first, then heat, then what cures by itself; nights folded.</summary>
public sealed record TimelineLayout
{
    private const double Margin = 12;
    private const double Narrow = 560;
    private const string Label = "text text--small";

    /// <summary>Width of the sheet. [drawing units]</summary>
    public required double Width { get; init; }

    /// <summary>Time along the sheet.</summary>
    public required TimeScale Scale { get; init; }

    /// <summary>Lanes from top to bottom.</summary>
    public required ImmutableArray<TimelineLane> Lanes { get; init; }

    /// <summary>Hours in which the shop is closed, without folds.</summary>
    public required ImmutableArray<Box> Closed { get; init; }

    /// <summary>Marks of the clock.</summary>
    public required ImmutableArray<TimeScale.Tick> Ticks { get; init; }

    /// <summary>The same figures as a table, by start.</summary>
    public required ImmutableArray<TimelineRow> Rows { get; init; }

    /// <summary>Room of the lanes.</summary>
    public required Box Field { get; init; }

    /// <summary>Lays a plan out.</summary>
    /// <param name="input">What it was made from.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="words">Words.</param>
    /// <param name="width">Width of the sheet. [drawing units, at least 320]</param>
    /// <param name="top">Where the lanes begin. [drawing units]</param>
    public static TimelineLayout Of(RepairInput input, Plan plan, IWords words, double width, double top)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 320);

        var lanes = Sorted(plan, words).ToList();
        bool narrow = width < Narrow;
        double left = narrow ? Margin : Margin + Math.Min(180, lanes.Select(lane => Lettering.Width(lane.Name, LookOf(lane.Kind))).DefaultIfEmpty(0).Max()) + 16;
        var from = plan.Steps.Select(step => step.Start).Append(input.Repair.Now).Min();
        var to = plan.Steps.Select(step => step.End).Append(plan.ReadyForDelivery).Append(plan.Slot).Max() + Duration.FromMinutes(20);
        var awake = ShopHours.Within(input.Shop, from, to).Concat(plan.Steps.Where(step => step.Person is not null || step.Kind is StepKind.Paint or StepKind.Lamp)
            .Select(step => new Interval(step.Start, step.End))).Append(new Interval(from, from + Duration.FromMinutes(5)));
        var scale = TimeScale.Folding(from, to, awake, left, width - Margin - left, narrow ? 16 : 30);

        var placed = ImmutableArray.CreateBuilder<TimelineLane>();
        double y = top;
        foreach (var (name, kind, steps) in lanes)
        {
            double height = kind == LaneKind.Person ? 26 : 18;
            if (narrow)
                y += 18;
            var box = new Box(left, y, width - Margin - left, height);
            placed.Add(new(name, kind, box, Bars(steps, kind, box, scale, words)));
            y += height + (narrow ? 6 : 8);
        }
        var field = new Box(left, top, width - Margin - left, Math.Max(0, y - top));
        return new TimelineLayout
        {
            Width = width,
            Scale = scale,
            Lanes = placed.ToImmutable(),
            Closed = [.. Shut(input, scale, field)],
            Ticks = scale.Ticks(words.Zone, narrow ? 40 : 48),
            Rows = [.. plan.Steps.Select(step => new TimelineRow(step.Person ?? words.Say("print.by-itself"), step.Start, step.End, What(step, words)))],
            Field = field,
        };
    }

    /// <summary>Look of a lane's name.</summary>
    public static string LookOf(LaneKind kind) => kind == LaneKind.Person ? "text text--small text--name" : Label;

    /// <summary>What a step does, in words.</summary>
    private static string What(Step step, IWords words)
    {
        string places = string.Join(", ", step.Places);
        string what = words.Word(step.Kind);
        if (step.Material is { } material)
            what = words.Say("draw.time.with", what, material);
        return places.Length == 0 ? what : words.Say("draw.time.at", what, places);
    }

    private static IEnumerable<(string Name, LaneKind Kind, List<Step> Steps)> Sorted(Plan plan, IWords words)
    {
        foreach (var steps in plan.Steps.Where(step => step.Person is not null).GroupBy(step => step.Person!))
            yield return (steps.Key, LaneKind.Person, [.. steps]);
        var heat = plan.Steps.Where(step => step.Person is null && step.Kind == StepKind.Lamp).ToList();
        if (heat.Count > 0)
            yield return (words.Word(StepKind.Lamp), LaneKind.Heat, heat);
        foreach (var step in plan.Steps.Where(step => step.Person is null && step.Kind != StepKind.Lamp))
        {
            string places = string.Join(' ', step.Places);
            string name = step.Material is { } material ? $"{material} {places}" : $"{words.Word(step.Kind)} {places}";
            yield return (name.Trim(), LaneKind.Cure, [step]);
        }
    }

    private static ImmutableArray<TimelineBar> Bars(List<Step> steps, LaneKind kind, Box lane, TimeScale scale, IWords words)
    {
        var bars = ImmutableArray.CreateBuilder<TimelineBar>();
        for (int i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            double x = scale.X(step.Start);
            var box = new Box(x, lane.Top, Math.Max(2.5, scale.X(step.End) - x), lane.Height);
            double free = (i + 1 < steps.Count ? scale.X(steps[i + 1].Start) : lane.Right) - box.Right;
            string name = ShortName(step, words);
            double wide = Lettering.Width(name, Label);
            bool inside = wide + 8 <= box.Width;
            // The clock says when a cure ends; whose it is stands at the lane.
            string? label = kind == LaneKind.Cure ? Ends(step, words, free) : kind == LaneKind.Heat ? null : inside || wide + 8 <= free ? name : null;
            bars.Add(new(step, box, label, kind == LaneKind.Person && inside, words.Say("draw.time.bar", What(step, words), step.Start, step.End)));
        }
        return bars.ToImmutable();
    }

    private static string? Ends(Step step, IWords words, double free)
    {
        string clock = words.Clock(step.End);
        return Lettering.Width(clock, Label) + 14 <= free ? clock : null;
    }

    private static string ShortName(Step step, IWords words) => step.Places.IsEmpty || step.Kind is StepKind.Paint or StepKind.Prime or StepKind.Wax or StepKind.RecordLook
        ? words.Word(step.Kind)
        : string.Join(' ', step.Places);

    private static IEnumerable<Box> Shut(RepairInput input, TimeScale scale, Box field)
    {
        foreach (var stretch in scale.Stretches.Where(stretch => !stretch.Folded))
        {
            var reached = stretch.From;
            foreach (var open in ShopHours.Within(input.Shop, stretch.From, stretch.To).Append(new Interval(stretch.To, stretch.To)))
            {
                if (open.Start > reached)
                    yield return field with { Left = scale.X(reached), Width = scale.X(open.Start) - scale.X(reached) };
                reached = Instant.Max(reached, open.End);
            }
        }
    }
}
