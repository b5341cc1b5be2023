using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>
/// Cure work of one law on one panel over a span of time: a prefix sum on a five-minute grid with every breakpoint of the climate on it, so
/// that "how much is done" and "when is it done" are look-ups. Immutable; safe from several threads. Nothing in planning integrates twice.
/// </summary>
/// <remarks>
/// Each interval's work is integrated by the four-point Lobatto rule; inside an interval the work follows the rational quadratic that
/// meets work and rate at both ends, which never falls and is inverted in closed form. Error and speed: docs/formulas.md, "Cure clock".
/// A joint closed to air does not cure by moisture whatever this clock says: its caller must not ask.
/// </remarks>
public sealed class CureClock
{
    private const double GridMinutes = 5;

    /// <summary>Stretches shorter than this are left out. [min]</summary>
    private const double Sliver = 1e-7;

    private readonly Interval[] _intervals;
    private readonly double[] _work;     // reference hours at the start of each interval, and at the end
    private readonly int[] _bucket;      // first interval that ends after each grid minute
    private readonly double _length;     // [min]

    private CureClock(CureLaw law, Instant from, Instant to, List<Interval> intervals)
    {
        Law = law;
        From = from;
        To = to;
        _intervals = [.. intervals];
        _length = (to - from).TotalMinutes;
        _work = new double[_intervals.Length + 1];
        for (int i = 0; i < _intervals.Length; i++)
            _work[i + 1] = _work[i] + _intervals[i].Gain;

        _bucket = new int[(int)(_length / GridMinutes) + 2];
        for (int b = 0, i = 0; b < _bucket.Length; b++)
        {
            while (i + 1 < _intervals.Length && _intervals[i + 1].Start <= b * GridMinutes)
                i++;
            _bucket[b] = i;
        }
    }

    /// <summary>The law counted.</summary>
    public CureLaw Law { get; }

    /// <summary>Start of the span; minutes of the fast methods count from here.</summary>
    public Instant From { get; }

    /// <summary>End of the span.</summary>
    public Instant To { get; }

    /// <summary>Number of intervals, a measure of the clock's size.</summary>
    public int IntervalCount => _intervals.Length;

    /// <summary>All work done in the span.</summary>
    public ReferenceTime Total => ReferenceTime.FromHours(_work[^1]);

    /// <summary>Counts a law on a panel over a span of time.</summary>
    /// <param name="law">The law.</param>
    /// <param name="panel">What the joint feels.</param>
    /// <param name="from">Start of the span.</param>
    /// <param name="to">End of the span.</param>
    /// <exception cref="ArgumentException">The span has no length.</exception>
    /// <exception cref="OutsideValidityException">The law's parameters are outside their range.</exception>
    public static CureClock For(CureLaw law, PanelClimate panel, Instant from, Instant to)
    {
        ArgumentNullException.ThrowIfNull(panel);
        var kernel = new RateKernel(law);
        var track = panel.Track(from, to);
        return new CureClock(law, from, to, Integrate(kernel, track, track.Minute(from), (to - from).TotalMinutes));
    }

    /// <summary>Work done between two moments; negative if <paramref name="b"/> is before <paramref name="a"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A moment is outside the span.</exception>
    public ReferenceTime Progress(Instant a, Instant b) => ReferenceTime.FromHours(ProgressHours(Minute(a), Minute(b)));

    /// <summary>When an amount of work is done.</summary>
    /// <param name="start">When it begins.</param>
    /// <param name="needed">Work needed; zero or less = done at <paramref name="start"/>.</param>
    /// <returns>The first moment at which the work is done; null if that is not within the span.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="start"/> is before the span.</exception>
    public Instant? Finish(Instant start, ReferenceTime needed)
    {
        if (start > To)
            return null;
        double minute = FinishMinutes(Minute(start), needed.Hours);
        return double.IsFinite(minute) ? Instant.Max(start, Time(minute)) : null;
    }

    /// <summary>When an amount of work must begin to be done in time.</summary>
    /// <param name="finish">When it must be done.</param>
    /// <param name="needed">Work needed; zero or less = <paramref name="finish"/> itself.</param>
    /// <returns>The last moment to begin; null if that is not within the span.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="finish"/> is after the span.</exception>
    public Instant? LatestStart(Instant finish, ReferenceTime needed)
    {
        if (finish < From)
            return null;
        double minute = LatestStartMinutes(Minute(finish), needed.Hours);
        return double.IsFinite(minute) ? Instant.Min(finish, Time(minute)) : null;
    }

    /// <summary>Reference hours done between two minutes of the span. The fast form of <see cref="Progress"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A minute is outside the span or not a number.</exception>
    public double ProgressHours(double startMinute, double endMinute) => Work(endMinute) - Work(startMinute);

    /// <summary>The fast form of <see cref="Finish"/>.</summary>
    /// <param name="startMinute">Start. [min from <see cref="From"/>, within the span]</param>
    /// <param name="neededHours">Work. [reference h]</param>
    /// <returns>Finish [min from <see cref="From"/>]; +∞ if not within the span.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="startMinute"/> is outside the span or not a number.</exception>
    public double FinishMinutes(double startMinute, double neededHours)
    {
        double begun = Work(startMinute);
        if (neededHours <= 0)
            return startMinute;

        double wanted = begun + neededHours;
        double rounding = Rounding(_work[^1]);
        if (!(wanted <= _work[^1] + rounding))
            return double.PositiveInfinity;

        // First interval whose end reaches the wanted work: with a stretch of no cure before it, the moment before that stretch.
        int low = 0, high = _intervals.Length - 1;
        while (low < high)
        {
            int middle = (low + high) >> 1;
            if (_work[middle + 1] >= wanted - rounding)
                high = middle;
            else
                low = middle + 1;
        }

        return Math.Max(startMinute, _intervals[low].MinuteOf(wanted - _work[low]));
    }

    /// <summary>The fast form of <see cref="LatestStart"/>.</summary>
    /// <param name="finishMinute">Finish. [min from <see cref="From"/>, within the span]</param>
    /// <param name="neededHours">Work. [reference h]</param>
    /// <returns>Start [min from <see cref="From"/>]; −∞ if not within the span.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="finishMinute"/> is outside the span or not a number.</exception>
    public double LatestStartMinutes(double finishMinute, double neededHours)
    {
        double done = Work(finishMinute);
        if (neededHours <= 0)
            return finishMinute;

        double wanted = done - neededHours;
        double rounding = Rounding(_work[^1]);
        if (!(wanted >= -rounding))
            return double.NegativeInfinity;

        // Last interval whose start does not exceed the wanted work: with a stretch of no cure after it, the moment after that stretch.
        int low = 0, high = _intervals.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) >> 1;
            if (_work[middle] <= wanted + rounding)
                low = middle;
            else
                high = middle - 1;
        }

        return Math.Min(finishMinute, _intervals[low].MinuteOf(Math.Max(0, wanted - _work[low])));
    }

    /// <summary>Minute of a moment, from <see cref="From"/>.</summary>
    public double Minute(Instant time) => (time - From).TotalMinutes;

    /// <summary>Moment of a minute counted from <see cref="From"/>, to the nearest millisecond.</summary>
    public Instant Time(double minute)
    {
        // Twelve hours of cure are twelve hours: the last bits of a sum must not make an answer a nanosecond early or late.
        var time = From + Duration.FromMilliseconds((long)Math.Round(minute * 60_000));
        return time < To ? time : To;
    }

    // Sums of a few thousand terms: the last bits are noise. A finish exactly at the end of the span must be found, and noise must not
    // move an answer across a night without cure.
    private static double Rounding(double work) => 1e-12 * (1 + work);

    private double Work(double minute)
    {
        if (!(minute >= 0 && minute <= _length))
            throw new ArgumentOutOfRangeException(nameof(minute), minute, "The moment is outside the span of this clock.");

        int i = _bucket[(int)(minute / GridMinutes)];
        while (i + 1 < _intervals.Length && _intervals[i + 1].Start <= minute)
            i++;
        return _work[i] + _intervals[i].WorkAt(minute);
    }

    private static List<Interval> Integrate(RateKernel kernel, Track track, double origin, double length)
    {
        var intervals = new List<Interval>((int)(length / GridMinutes) + track.Pieces.Length + 1);
        double start = 0;
        for (int p = track.IndexAt(origin); start < length && p < track.Pieces.Length; p++)
        {
            ref readonly var piece = ref track.Pieces[p];
            double pieceStart = piece.Start - origin;
            double pieceEnd = p + 1 < track.Pieces.Length ? Math.Min(length, piece.End - origin) : length;
            if (pieceEnd - start < Sliver && pieceEnd < length)
                continue;

            double? rate = null;
            while (start < pieceEnd)
            {
                double end = Math.Min(pieceEnd, (Math.Floor(start / GridMinutes + 1e-9) + 1) * GridMinutes);
                if (pieceEnd - end < Sliver)
                    end = pieceEnd;
                if (kernel.IsStepped || piece.MayCondense)
                {
                    // A bend at the end is the end itself, to the last bit: rounded to a hair before it, the loop would stand still.
                    double bend = NextBend(kernel, piece, start - pieceStart, end - pieceStart) + pieceStart;
                    end = bend < end - Sliver ? bend : end;
                }

                if (kernel.IsStepped)
                {
                    double half = kernel.Rate(piece, (start + end) / 2 - pieceStart);
                    intervals.Add(Interval.Of(start, end, half, half * (end - start), half));
                }
                else
                {
                    double first = rate ?? kernel.Rate(piece, start - pieceStart);
                    double last = kernel.Rate(piece, end - pieceStart);
                    int parts = Parts(first, last);
                    double from = start;
                    for (int part = 1; part <= parts; part++)
                    {
                        double until = part == parts ? end : start + (end - start) * part / parts;
                        double next = part == parts ? last : kernel.Rate(piece, until - pieceStart);
                        double rateMinutes = Lobatto(kernel, piece, from - pieceStart, until - pieceStart, first, next);
                        intervals.Add(Interval.Of(from, until, first, rateMinutes, next));
                        (from, first) = (until, next);
                    }

                    rate = last;
                }

                start = end;
            }
        }

        return intervals;
    }

    /// <summary>Into how many parts an interval is cut, so that the rate changes by no more than a quarter or so in each.</summary>
    /// <remarks>
    /// Only lamps need it: a ramp of 70 K in five minutes multiplies an epoxy's rate by 130, and uncut the moment inside it was up to
    /// 161 s off (docs/formulas.md, "Cure clock").
    /// </remarks>
    private static int Parts(double first, double last)
    {
        const double Most = 24;
        double low = Math.Min(first, last);
        double high = Math.Max(first, last);
        if (high <= 1.25 * low)
            return 1;
        return low > 0 ? (int)Math.Min(Most, Math.Ceiling(Math.Log(high / low) / 0.22)) : (int)Most;
    }

    /// <summary>Rate-minutes by the four-point Lobatto rule, exact to degree five.</summary>
    private static double Lobatto(in RateKernel kernel, in TrackPiece piece, double start, double end, double first, double last)
    {
        const double Inner = 0.44721359549995794;      // 1/√5
        double middle = (start + end) / 2;
        double half = (end - start) / 2;
        double inner = kernel.Rate(piece, middle - Inner * half) + kernel.Rate(piece, middle + Inner * half);
        return half * (first + last + 5 * inner) / 6;
    }

    /// <summary>Where in (start, end] the panel first crosses a threshold or the air becomes or ceases to be saturated; else the end.</summary>
    private static double NextBend(in RateKernel kernel, in TrackPiece piece, double start, double end)
    {
        // Just inside both ends: at the start the panel may sit exactly on a threshold that it is leaving. What is shorter than a few
        // insets is not cut again; cutting quarters off it would never come to an end.
        const double inset = 1e-6;
        if (end - start < 4 * inset)
            return end;

        int side = Side(kernel, piece, start + inset);
        if (Side(kernel, piece, end - inset) == side)
            return end;

        double same = start + inset;
        double other = end - inset;
        while (other - same > 1e-8)
        {
            double middle = (same + other) / 2;
            if (Side(kernel, piece, middle) == side)
                same = middle;
            else
                other = middle;
        }

        return other;

        static int Side(in RateKernel kernel, in TrackPiece piece, double s) =>
            kernel.IsStepped ? kernel.Step(piece.Panel.Value(s)) : piece.IsCapped(s) ? 1 : 0;
    }

    /// <summary>Work inside one interval: the monotone rational quadratic through both ends (Gregory and Delbourgo 1982).</summary>
    private readonly struct Interval
    {
        public readonly double Start;        // [min]
        public readonly double Gain;         // [reference h]
        private readonly double _minutes;
        private readonly double _first;      // rate at the start over the mean rate
        private readonly double _bend;       // first + last − 2

        private Interval(double start, double minutes, double gain, double first, double bend)
        {
            Start = start;
            Gain = gain;
            _minutes = minutes;
            _first = first;
            _bend = bend;
        }

        public static Interval Of(double start, double end, double first, double rateMinutes, double last)
        {
            double minutes = end - start;
            double mean = rateMinutes / minutes;
            return mean > 0
                ? new(start, minutes, rateMinutes / 60, first / mean, (first + last) / mean - 2)
                : new(start, minutes, 0, 1, 0);
        }

        public double WorkAt(double minute)
        {
            double u = Math.Min(1, (minute - Start) / _minutes);
            double v = u * (1 - u);
            return Gain * (u * u + _first * v) / (1 + _bend * v);
        }

        public double MinuteOf(double work)
        {
            if (!(work > 0) || Gain <= 0)
                return Start;
            double y = work / Gain;
            if (y >= 1)
                return Start + _minutes;

            // u² (1 − first + y·bend) + u (first − y·bend) − y = 0, in the form that loses no digits.
            double b = _first - y * _bend;
            double u = 2 * y / (b + Math.Sqrt(Math.Max(0, b * b + 4 * y * (1 - b))));
            return Start + _minutes * Math.Min(1, u);
        }
    }
}
