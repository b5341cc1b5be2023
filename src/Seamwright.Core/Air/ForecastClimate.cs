using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>
/// Indoor air from an outdoor forecast and a thermostat: the vapour pressure is the outdoor one (well mixed, no source of water indoors),
/// the temperature follows the heating pattern and is never below the set-point's or floor's target nor, in warm weather, below outdoors.
/// Where the indoor air would be supersaturated it is held at 100 %, with a notice.
/// </summary>
public sealed class ForecastClimate : Climate
{
    private readonly TrackCache _tracks;

    /// <summary>Indoor air from outdoor air and a heating pattern.</summary>
    /// <param name="outdoors">Outdoor air, usually a <see cref="LoggedClimate"/> of forecast rows.</param>
    /// <param name="pattern">Heating pattern; without a floor the shop cools towards outdoors.</param>
    /// <param name="at">Moment of a known indoor temperature; null = unknown.</param>
    /// <param name="indoors">Indoor temperature at that moment. [−80…200 °C]</param>
    /// <exception cref="OutsideValidityException"><paramref name="indoors"/> is out of range.</exception>
    public ForecastClimate(Climate outdoors, HeatingPattern pattern, Instant? at = null, Temperature? indoors = null)
    {
        ArgumentNullException.ThrowIfNull(outdoors);
        ArgumentNullException.ThrowIfNull(pattern);
        if (indoors is { } known)
            MoistAir.RequireWater(known);

        Outdoors = outdoors;
        Pattern = pattern;
        double? kelvin = at is null ? null : indoors?.Kelvin;
        var straight = new StraightLines(outdoors);
        _tracks = new((from, to) => IndoorTrack.Build(pattern, at ?? from, kelvin, straight, 0, from, to));
    }

    /// <summary>Outdoor air.</summary>
    public Climate Outdoors { get; }

    /// <summary>The heating pattern.</summary>
    public HeatingPattern Pattern { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => Outdoors.Notices;

    /// <inheritdoc/>
    public override AirState At(Instant time) => AirOf(_tracks.Around(time), time);

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => Track(from, to).Breakpoints(from, to);

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to) =>
        [.. Outdoors.NoticesWithin(from, to), .. Capped(Track(from, to), from, to)];

    internal override Track Track(Instant from, Instant to) => _tracks.Covering(from, to);

    /// <summary>Outdoor air as straight lines, which is what can be followed; other shapes are sampled on the grid.</summary>
    private sealed class StraightLines(Climate inner) : Climate
    {
        public override AirState At(Instant time) => inner.At(time);

        public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to) => inner.Breakpoints(from, to);

        internal override Track Track(Instant from, Instant to)
        {
            var track = inner.Track(from, to);
            foreach (var piece in track.Pieces)
            {
                if (!piece.Air.IsLine)
                    return base.Track(from, to);
            }

            return track;
        }
    }
}
