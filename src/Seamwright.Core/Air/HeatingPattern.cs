using System.Collections.Immutable;
using NodaTime;
using NodaTime.TimeZones;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>Heating on from one time of day to another, on one day of the week.</summary>
/// <param name="Day">Day on which the heating goes on.</param>
/// <param name="On">Time of day in the shop's zone at which it goes on.</param>
/// <param name="Off">Time of day at which it goes off; at or before <paramref name="On"/> means the next day (so 00:00 is midnight).</param>
public readonly record struct HeatingHours(IsoDayOfWeek Day, LocalTime On, LocalTime Off);

/// <summary>When a shop is heated, to what, and how fast it cools and warms.</summary>
/// <remarks>
/// A switching time that the clock change skips takes place when the clock has moved on; one that occurs twice takes place at its first
/// occurrence. That is how a thermostat clock behaves; readings with such a time are refused where they are read.
/// </remarks>
public sealed record HeatingPattern
{
    /// <summary>A pattern.</summary>
    /// <param name="zone">The shop's time zone.</param>
    /// <param name="hours">Heated hours; overlapping ones are merged; empty = never heated.</param>
    /// <param name="setPoint">Air temperature in heated hours.</param>
    /// <param name="floor">
    /// Temperature towards which the unheated shop falls; null = towards the outdoor temperature, which only <see cref="ForecastClimate"/> knows.
    /// </param>
    /// <param name="fall">Time constant of the building with the heating off. [&gt; 0]</param>
    /// <param name="rise">Time constant with the heating on; zero = back at the set-point at once. [≥ 0]</param>
    /// <exception cref="ArgumentOutOfRangeException">A time constant is out of range.</exception>
    /// <exception cref="OutsideValidityException">A temperature is outside −80…200 °C or not a number.</exception>
    public HeatingPattern(
        DateTimeZone zone, IEnumerable<HeatingHours> hours, Temperature setPoint, Temperature? floor, Duration fall, Duration rise)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(hours);
        if (fall <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(fall), fall, "The building's time constant must be above zero.");
        if (rise < Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(rise), rise, "The time constant of warming must not be negative.");
        MoistAir.RequireWater(setPoint);
        if (floor is { } lowest)
            MoistAir.RequireWater(lowest);

        Zone = zone;
        Hours = [.. hours];
        SetPoint = setPoint;
        Floor = floor;
        Fall = fall;
        Rise = rise;
    }

    /// <summary>The shop's time zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>Heated hours, as given.</summary>
    public ImmutableArray<HeatingHours> Hours { get; }

    /// <summary>Air temperature in heated hours.</summary>
    public Temperature SetPoint { get; }

    /// <summary>Temperature towards which the unheated shop falls; null = the outdoor temperature.</summary>
    public Temperature? Floor { get; }

    /// <summary>Time constant with the heating off.</summary>
    public Duration Fall { get; }

    /// <summary>Time constant with the heating on; zero = at once.</summary>
    public Duration Rise { get; }

    /// <summary>The same hours on Monday to Friday.</summary>
    public static ImmutableArray<HeatingHours> Weekdays(LocalTime on, LocalTime off) =>
        [.. Enumerable.Range(1, 5).Select(day => new HeatingHours((IsoDayOfWeek)day, on, off))];

    /// <summary>Heated spans that touch a span of time, merged, ascending.</summary>
    public ImmutableArray<(Instant On, Instant Off)> Heated(Instant from, Instant to)
    {
        var spans = new List<(Instant On, Instant Off)>();
        var lastDate = to.InZone(Zone).Date;
        for (var date = from.InZone(Zone).Date.PlusDays(-1); date <= lastDate; date = date.PlusDays(1))
        {
            foreach (var hours in Hours)
            {
                if (hours.Day != date.DayOfWeek)
                    continue;
                var offDate = hours.Off <= hours.On ? date.PlusDays(1) : date;
                var (on, off) = (ToInstant(date + hours.On), ToInstant(offDate + hours.Off));
                if (off > from && on < to && off > on)
                    spans.Add((on, off));
            }
        }

        spans.Sort();
        var merged = ImmutableArray.CreateBuilder<(Instant On, Instant Off)>(spans.Count);
        foreach (var span in spans)
        {
            if (merged.Count > 0 && span.On <= merged[^1].Off)
                merged[^1] = (merged[^1].On, Instant.Max(merged[^1].Off, span.Off));
            else
                merged.Add(span);
        }

        return merged.ToImmutable();
    }

    private Instant ToInstant(LocalDateTime local) => Zone.ResolveLocal(local, Resolvers.LenientResolver).ToInstant();
}
