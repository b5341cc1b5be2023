namespace Seamwright.Scheduling.Solving;

/// <summary>At point T a bound anywhere in Low..High says exactly enough; int.MinValue means that no bound is needed.</summary>
internal readonly record struct Need(int T, int Low, int High);

/// <summary>One bound for all needs from First to Last: a constant, or the point plus an offset.</summary>
internal readonly record struct Piece(int First, int Last, bool IsSlope, int Bound);

/// <summary>Covers a time function by few simple pieces: the longest that fits, again and again, from the left.</summary>
internal static class FunctionPieces
{
    public static List<Piece> Cover(IReadOnlyList<Need> needs)
    {
        var pieces = new List<Piece>();
        int i = 0;
        while (i < needs.Count)
        {
            int first = i;
            (int constantEnd, int constant) = Longest(needs, first, isSlope: false);
            (int slopeEnd, int slope) = Longest(needs, first, isSlope: true);
            bool useSlope = slopeEnd > constantEnd;
            i = Math.Max(slopeEnd, constantEnd);
            int bound = useSlope ? slope : constant;
            if (bound != int.MinValue)
                pieces.Add(new Piece(needs[first].T, needs[i - 1].T, useSlope, bound));
        }

        return pieces;
    }

    private static (int End, int Bound) Longest(IReadOnlyList<Need> needs, int first, bool isSlope)
    {
        long low = long.MinValue;
        long high = long.MaxValue;
        int i = first;
        for (; i < needs.Count; i++)
        {
            Need need = needs[i];
            int shift = isSlope ? need.T : 0;
            long newLow = need.Low == int.MinValue ? low : Math.Max(low, (long)need.Low - shift);
            long newHigh = need.High == int.MaxValue ? high : Math.Min(high, (long)need.High - shift);
            if (newLow > newHigh)
                break;
            (low, high) = (newLow, newHigh);
        }

        return (i, low == long.MinValue ? int.MinValue : (int)low);
    }
}
