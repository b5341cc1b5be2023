using System.Collections.Immutable;
using NodaTime;

namespace Seamwright.Documents.Drawing;

/// <summary>The only place where moments become drawing units. Long stretches in which nobody works can be folded to a narrow strip.</summary>
public sealed class TimeScale
{
    private static readonly int[] HourSteps = [1, 2, 3, 4, 6, 12, 24, 48, 72, 168];

    private TimeScale(ImmutableArray<Stretch> stretches, double unitsPerHour)
    {
        Stretches = stretches;
        UnitsPerHour = unitsPerHour;
    }

    /// <summary>A stretch of time and where it stands.</summary>
    /// <param name="From">Start.</param>
    /// <param name="To">End.</param>
    /// <param name="Left">Where it begins. [drawing units]</param>
    /// <param name="Width">How wide it is. [drawing units]</param>
    /// <param name="Folded">True where it is not to scale.</param>
    public readonly record struct Stretch(Instant From, Instant To, double Left, double Width, bool Folded);

    /// <summary>A mark of the clock.</summary>
    /// <param name="At">Moment.</param>
    /// <param name="X">Where. [drawing units]</param>
    /// <param name="NewDay">True for the first mark of a day.</param>
    public readonly record struct Tick(Instant At, double X, bool NewDay);

    /// <summary>Stretches in order, without gaps.</summary>
    public ImmutableArray<Stretch> Stretches { get; }

    /// <summary>Drawing units for an hour outside folded stretches.</summary>
    public double UnitsPerHour { get; }

    /// <summary>Left end. [drawing units]</summary>
    public double Left => Stretches[0].Left;

    /// <summary>Right end. [drawing units]</summary>
    public double Right => Stretches[^1].Left + Stretches[^1].Width;

    /// <summary>A scale without folds.</summary>
    public static TimeScale Even(Instant from, Instant to, double left, double width) => Folding(from, to, [new Interval(from, to)], left, width, 0);

    /// <summary>A scale on which what is longer than 90 minutes and not awake is folded.</summary>
    /// <param name="from">Start.</param>
    /// <param name="to">End, after the start.</param>
    /// <param name="awake">Stretches that stay to scale; in any order, may overlap.</param>
    /// <param name="left">Where it begins. [drawing units]</param>
    /// <param name="width">How wide it is. [drawing units]</param>
    /// <param name="fold">Width of a folded stretch. [drawing units]</param>
    public static TimeScale Folding(Instant from, Instant to, IEnumerable<Interval> awake, double left, double width, double fold)
    {
        ArgumentNullException.ThrowIfNull(awake);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(to, from);
        var cuts = new List<(Instant From, Instant To, bool Folded)>();
        var reached = from;
        foreach (var span in awake.Where(span => span.Start < to && span.End > from).OrderBy(span => span.Start))
        {
            if (span.Start - reached > Duration.FromMinutes(90))
                Add(reached, span.Start, folded: true);
            else if (span.Start > reached)
                Add(reached, span.Start, folded: false);
            if (span.End > Max(reached, span.Start))
                Add(Max(reached, span.Start), Instant.Min(span.End, to), folded: false);
            reached = Max(reached, Instant.Min(span.End, to));
        }
        if (reached < to)
            Add(reached, to, to - reached > Duration.FromMinutes(90));

        // Folds never take more than half of the room.
        int folds = cuts.Count(cut => cut.Folded);
        double strip = folds == 0 ? 0 : Math.Min(fold, width / 2 / folds);
        double hours = cuts.Where(cut => !cut.Folded).Sum(cut => (cut.To - cut.From).TotalHours);
        double perHour = hours > 0 ? (width - folds * strip) / hours : 0;
        var stretches = ImmutableArray.CreateBuilder<Stretch>();
        double x = left;
        foreach (var cut in cuts)
        {
            double wide = cut.Folded ? hours > 0 ? strip : width / folds : (cut.To - cut.From).TotalHours * perHour;
            stretches.Add(new(cut.From, cut.To, x, wide, cut.Folded));
            x += wide;
        }
        return new(stretches.ToImmutable(), perHour);

        void Add(Instant start, Instant end, bool folded)
        {
            if (cuts.Count > 0 && !folded && !cuts[^1].Folded)
                cuts[^1] = (cuts[^1].From, end, false);
            else
                cuts.Add((start, end, folded));
        }

        static Instant Max(Instant a, Instant b) => Instant.Max(a, b);
    }

    /// <summary>Where a moment stands; moments outside stand at the ends. [drawing units]</summary>
    public double X(Instant moment)
    {
        foreach (var stretch in Stretches)
        {
            if (moment < stretch.To)
                return stretch.Left + Math.Max(0, (moment - stretch.From) / (stretch.To - stretch.From)) * stretch.Width;
        }
        return Right;
    }

    /// <summary>Whole hours of the local clock, so far apart that labels fit, none in folded stretches.</summary>
    /// <param name="zone">Zone of the clock.</param>
    /// <param name="room">Room a label needs. [drawing units]</param>
    public ImmutableArray<Tick> Ticks(DateTimeZone zone, double room)
    {
        ArgumentNullException.ThrowIfNull(zone);
        int step = HourSteps.FirstOrDefault(hours => hours * UnitsPerHour >= room, HourSteps[^1]);
        var ticks = ImmutableArray.CreateBuilder<Tick>();
        double free = double.NegativeInfinity;
        LocalDate? day = null;
        foreach (var stretch in Stretches.Where(stretch => !stretch.Folded))
        {
            var local = stretch.From.InZone(zone).LocalDateTime;
            var hour = step <= 24 ? local.Date.AtMidnight().PlusHours(local.Hour / step * step) : local.Date.AtMidnight();
            for (; ; hour = hour.PlusHours(step))
            {
                var moment = hour.InZoneLeniently(zone).ToInstant();
                if (moment > stretch.To)
                    break;
                if (moment < stretch.From)
                    continue;
                double x = X(moment);
                if (x < free)
                    continue;
                ticks.Add(new(moment, x, hour.Date != day));
                day = hour.Date;
                free = x + room;
            }
        }
        return ticks.ToImmutable();
    }
}
