namespace Seamwright.Scheduling.Solving;

/// <summary>Minutes that a point in time can take: ascending ranges of equally spaced values.</summary>
internal sealed class MinuteSet
{
    private readonly List<(int First, int Last)> ranges;

    /// <param name="step">Spacing inside and across ranges; all values leave the same remainder.</param>
    /// <param name="ranges">Any order, may overlap, aligned to the spacing.</param>
    public MinuteSet(int step, IEnumerable<(int First, int Last)> ranges)
    {
        Step = step;
        this.ranges = [];
        foreach ((int first, int last) in ranges.Where(r => r.First <= r.Last).OrderBy(r => r.First))
        {
            if (this.ranges.Count > 0 && first <= this.ranges[^1].Last + step)
                this.ranges[^1] = (this.ranges[^1].First, Math.Max(this.ranges[^1].Last, last));
            else
                this.ranges.Add((first, last));
        }
    }

    public int Step { get; }

    public IReadOnlyList<(int First, int Last)> Ranges => ranges;

    public bool IsEmpty => ranges.Count == 0;

    public int Min => ranges[0].First;

    public int Max => ranges[^1].Last;

    /// <summary>Multiples of the step in the given inclusive ranges.</summary>
    public static MinuteSet OnGrid(int step, IEnumerable<(int First, int Last)> ranges) =>
        new(step, ranges.Select(r => (RoundUp(r.First, step), RoundDown(r.Last, step))));

    public MinuteSet Shift(int minutes) => new(Step, ranges.Select(r => (r.First + minutes, r.Last + minutes)));

    /// <summary>Only the values from first to last.</summary>
    public MinuteSet Between(int first, int last) => Within([(first, last)]);

    /// <summary>Only the values inside one of the inclusive ranges.</summary>
    public MinuteSet Within(IReadOnlyList<(int First, int Last)> others)
    {
        var kept = new List<(int, int)>();
        foreach ((int first, int last) in ranges)
        {
            foreach ((int otherFirst, int otherLast) in others)
            {
                int from = Math.Max(first, otherFirst);
                int to = Math.Min(last, otherLast);
                if (from <= to)
                    kept.Add((first + RoundUp(from - first, Step), first + RoundDown(to - first, Step)));
            }
        }

        return new MinuteSet(Step, kept);
    }

    /// <summary>The smallest value at or after a minute, or null.</summary>
    public int? AtOrAfter(int minute)
    {
        int low = 0;
        int high = ranges.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (ranges[middle].Last < minute)
                low = middle + 1;
            else
                high = middle;
        }

        if (low == ranges.Count)
            return null;
        (int first, _) = ranges[low];
        return minute <= first ? first : first + RoundUp(minute - first, Step);
    }

    /// <summary>The largest value at or before a minute, or null.</summary>
    public int? AtOrBefore(int minute)
    {
        int low = 0;
        int high = ranges.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (ranges[middle].First <= minute)
                low = middle + 1;
            else
                high = middle;
        }

        if (low == 0)
            return null;
        (int first, int last) = ranges[low - 1];
        return minute >= last ? last : first + RoundDown(minute - first, Step);
    }

    public IEnumerable<int> Values()
    {
        foreach ((int first, int last) in ranges)
        {
            for (int value = first; value <= last; value += Step)
                yield return value;
        }
    }

    /// <summary>The values after a minute.</summary>
    public IEnumerable<int> ValuesAfter(int minute)
    {
        foreach ((int first, int last) in ranges)
        {
            for (int value = minute < first ? first : first + RoundUp(minute + 1 - first, Step); value <= last; value += Step)
                yield return value;
        }
    }

    /// <summary>For the solver's domain of (value − offset) / scale, as flat pairs.</summary>
    public long[] Intervals(int scale)
    {
        if (Step == scale)
            return [.. ranges.SelectMany(r => new[] { (long)r.First / scale, r.Last / scale })];
        return [.. Values().SelectMany(v => new[] { (long)v / scale, v / scale })];
    }

    public bool SameAs(MinuteSet other) => Step == other.Step && ranges.SequenceEqual(other.ranges);

    public static int RoundUp(int value, int step) => -RoundDown(-value, step);

    public static int RoundDown(int value, int step)
    {
        int rest = value % step;
        return value - (rest < 0 ? rest + step : rest);
    }
}
