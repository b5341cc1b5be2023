using NodaTime;

namespace Seamwright.Air;

/// <summary>
/// A heated shop through the week: the set-point in heated hours, a first-order fall towards a floor temperature when the heating is off.
/// The vapour pressure stays what it was at the reading, so relative humidity rises at night; it is held at 100 % (with a notice).
/// </summary>
public sealed class HeatedDayClimate : Climate
{
    private readonly TrackCache _tracks;

    /// <summary>A heated shop from a reading on.</summary>
    /// <param name="pattern">Heating pattern with a floor temperature.</param>
    /// <param name="at">Moment of the reading.</param>
    /// <param name="reading">
    /// Air at that moment; from it the temperature runs on by the pattern. With heating on and a zero time constant of warming that is the
    /// set-point at once. Before it the pattern alone is taken.
    /// </param>
    /// <exception cref="ArgumentException"><paramref name="pattern"/> has no floor.</exception>
    /// <exception cref="Units.OutsideValidityException">The reading is outside −80…200 °C or 0…100 %.</exception>
    public HeatedDayClimate(HeatingPattern pattern, Instant at, AirState reading)
    {
        ArgumentNullException.ThrowIfNull(pattern);
        if (pattern.Floor is null)
            throw new ArgumentException("Without outdoor air the pattern needs a floor temperature.", nameof(pattern));

        Pattern = pattern;
        ReadingAt = at;
        Reading = reading;
        double pascals = MoistAir.VapourPressure(reading).Pascals;
        _tracks = new((from, to) => IndoorTrack.Build(pattern, at, reading.Temperature.Kelvin, null, pascals, from, to));
    }

    /// <summary>The heating pattern.</summary>
    public HeatingPattern Pattern { get; }

    /// <summary>Moment of the reading.</summary>
    public Instant ReadingAt { get; }

    /// <summary>Air at the reading.</summary>
    public AirState Reading { get; }

    /// <inheritdoc/>
    public override AirState At(Instant time) => AirOf(_tracks.Around(time), time);

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => Track(from, to).Breakpoints(from, to);

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to) => [.. Capped(Track(from, to), from, to)];

    internal override Track Track(Instant from, Instant to) => _tracks.Covering(from, to);
}
