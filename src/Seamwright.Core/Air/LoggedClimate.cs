using NodaTime;
using Seamwright.Units;

namespace Seamwright.Air;

/// <summary>One row of a climate log or forecast.</summary>
/// <param name="Time">When.</param>
/// <param name="Air">Air at that moment.</param>
public readonly record struct ClimateReading(Instant Time, AirState Air);

/// <summary>
/// Air between readings at irregular times: straight lines in temperature and in vapour pressure; the first and last value are held
/// beyond the ends. Rows may come in any order and more than once; what was repaired is told in <see cref="Climate.Notices"/>.
/// </summary>
public sealed class LoggedClimate : Climate
{
    /// <summary>Readings further apart than this are a gap. [2 h, docs/formulas.md]</summary>
    public static Duration LongestUnmarkedGap { get; } = Duration.FromHours(2);

    private readonly Instant[] _times;
    private readonly double[] _kelvins;
    private readonly double[] _pascals;
    private readonly ClimateNotice[] _notices;

    /// <summary>Air between readings.</summary>
    /// <param name="readings">At least one row, in any order. Of rows with the same time the first is kept.</param>
    /// <exception cref="ArgumentException">There is no row.</exception>
    /// <exception cref="OutsideValidityException">A row is outside −80…200 °C or 0…100 %, or not a number.</exception>
    public LoggedClimate(IEnumerable<ClimateReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        var rows = readings.ToArray();
        if (rows.Length == 0)
            throw new ArgumentException("A climate log needs at least one reading.", nameof(readings));

        var notices = new List<ClimateNotice>();
        NoteOrder(rows, notices);
        rows = [.. rows.OrderBy(row => row.Time)];              // stable: the first of equal times stays first
        rows = WithoutDuplicates(rows, notices);
        NoteGaps(rows, notices);

        _times = [.. rows.Select(row => row.Time)];
        _kelvins = [.. rows.Select(row => row.Air.Temperature.Kelvin)];
        _pascals = [.. rows.Select(row => MoistAir.VapourPressure(row.Air).Pascals)];
        _notices = [.. notices];
    }

    /// <summary>Time of the first reading.</summary>
    public Instant First => _times[0];

    /// <summary>Time of the last reading.</summary>
    public Instant Last => _times[^1];

    /// <summary>How many readings are used.</summary>
    public int Count => _times.Length;

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> Notices => _notices;

    /// <inheritdoc/>
    public override AirState At(Instant time)
    {
        int after = IndexAfter(time);
        if (after == 0 || after == _times.Length)
        {
            int end = after == 0 ? 0 : after - 1;
            return State(_kelvins[end], _pascals[end]);
        }

        int before = after - 1;
        double part = (time - _times[before]) / (_times[after] - _times[before]);
        return State(
            _kelvins[before] + part * (_kelvins[after] - _kelvins[before]),
            _pascals[before] + part * (_pascals[after] - _pascals[before]));
    }

    /// <inheritdoc/>
    public override IReadOnlyList<Instant> Breakpoints(Instant from, Instant to)
    {
        var found = new List<Instant>();
        for (int i = IndexAfter(from); i < _times.Length && _times[i] < to; i++)
            found.Add(_times[i]);
        return found;
    }

    /// <inheritdoc/>
    public override IReadOnlyList<ClimateNotice> NoticesWithin(Instant from, Instant to)
    {
        var notices = base.NoticesWithin(from, to).ToList();
        if (from < First)
            notices.Add(new(ClimateNoticeKind.HeldBeforeStart, from, Instant.Min(First, to)));
        if (to > Last)
            notices.Add(new(ClimateNoticeKind.HeldAfterEnd, Instant.Max(Last, from), to));
        return notices;
    }

    internal override Track Track(Instant from, Instant to)
    {
        Span.Require(from, to);
        int first = IndexAfter(from);
        int last = first;
        while (last < _times.Length && _times[last] < to)
            last++;

        // Nodes: the moment asked from, the readings inside, the moment asked to; held flat beyond the log.
        var pieces = new TrackPiece[last - first + 1];
        var (start, kelvin, pascals) = (0.0, KelvinAt(from), PascalsAt(from));
        for (int i = 0; i < pieces.Length; i++)
        {
            var time = first + i < last ? _times[first + i] : to;
            double end = (time - from).TotalMinutes;
            var (endKelvin, endPascals) = first + i < last
                ? (_kelvins[first + i], _pascals[first + i])
                : (KelvinAt(to), PascalsAt(to));
            pieces[i] = Lines.Between(start, kelvin, pascals, end, endKelvin, endPascals);
            (start, kelvin, pascals) = (end, endKelvin, endPascals);
        }

        return new Track(from, from, to, pieces);
    }

    private double KelvinAt(Instant time) => Interpolated(_kelvins, time);

    private double PascalsAt(Instant time) => Interpolated(_pascals, time);

    private double Interpolated(double[] values, Instant time)
    {
        int after = IndexAfter(time);
        if (after == 0)
            return values[0];
        if (after == _times.Length)
            return values[^1];

        double part = (time - _times[after - 1]) / (_times[after] - _times[after - 1]);
        return values[after - 1] + part * (values[after] - values[after - 1]);
    }

    /// <summary>Index of the first reading later than a moment.</summary>
    private int IndexAfter(Instant time)
    {
        int found = Array.BinarySearch(_times, time);
        return found >= 0 ? found + 1 : ~found;
    }

    // Between two nearly saturated readings the straight line lies above the curved saturation pressure by a hair: held at 100 %.
    private static AirState State(double kelvin, double pascals) =>
        new(Temperature.FromKelvin(kelvin), RelativeHumidity.FromFraction(Math.Min(1, pascals / MoistAir.SaturationPascals(kelvin))));

    private static void NoteOrder(ClimateReading[] rows, List<ClimateNotice> notices)
    {
        int late = 0;
        var latest = rows[0].Time;
        var (from, to) = (Instant.MaxValue, Instant.MinValue);
        foreach (var row in rows)
        {
            if (row.Time < latest)
            {
                late++;
                (from, to) = (Instant.Min(from, row.Time), Instant.Max(to, row.Time));
            }

            latest = Instant.Max(latest, row.Time);
        }

        if (late > 0)
            notices.Add(new(ClimateNoticeKind.OutOfOrderSorted, from, to, late));
    }

    private static ClimateReading[] WithoutDuplicates(ClimateReading[] sorted, List<ClimateNotice> notices)
    {
        var kept = new List<ClimateReading>(sorted.Length) { sorted[0] };
        var (from, to) = (Instant.MaxValue, Instant.MinValue);
        foreach (var row in sorted.Skip(1))
        {
            if (row.Time > kept[^1].Time)
            {
                kept.Add(row);
                continue;
            }

            (from, to) = (Instant.Min(from, row.Time), Instant.Max(to, row.Time));
        }

        if (kept.Count < sorted.Length)
            notices.Add(new(ClimateNoticeKind.DuplicatesDropped, from, to, sorted.Length - kept.Count));
        return [.. kept];
    }

    private static void NoteGaps(ClimateReading[] rows, List<ClimateNotice> notices)
    {
        for (int i = 1; i < rows.Length; i++)
        {
            if (rows[i].Time - rows[i - 1].Time > LongestUnmarkedGap)
                notices.Add(new(ClimateNoticeKind.GapBridged, rows[i - 1].Time, rows[i].Time));
        }
    }
}
