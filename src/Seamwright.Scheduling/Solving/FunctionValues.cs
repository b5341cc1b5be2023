namespace Seamwright.Scheduling.Solving;

/// <summary>Remembers the values of time functions during one solver run: lags share functions, and goals share lags.</summary>
internal sealed class FunctionValues(int horizon)
{
    private readonly Dictionary<TimeFunction, int[]> tables = [];

    /// <summary>The value at a minute; anything beyond the horizon counts as just beyond it.</summary>
    public int At(TimeFunction function, int t)
    {
        if (!tables.TryGetValue(function, out int[]? table))
        {
            tables[function] = table = new int[horizon + 1];
            Array.Fill(table, int.MinValue);
        }

        // Clamped so that sums stay small; nothing outside 0..horizon can be told apart by the model anyway.
        return table[t] != int.MinValue ? table[t] : table[t] = Math.Clamp(function.At(t), -1, horizon + 1);
    }
}
