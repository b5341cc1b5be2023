namespace Seamwright.Scheduling.Makespan.Bounds;

/// <summary>Longest paths between the starts of activities, every activity in its shortest mode.</summary>
internal sealed class LagNetwork
{
    /// <summary>Stands for "no path"; far from overflow when two are added.</summary>
    public const int None = int.MinValue / 4;

    private readonly int[][] distance;

    private LagNetwork(int[][] distance, int[] durations)
    {
        this.distance = distance;
        int count = durations.Length;
        Heads = [.. Enumerable.Range(0, count).Select(i => Enumerable.Range(0, count).Max(j => distance[j][i]))];
        Tails = [.. Enumerable.Range(0, count).Select(i => Enumerable.Range(0, count).Max(j => distance[i][j] + durations[j]))];
        CriticalPath = Enumerable.Range(0, count).Select(i => Heads[i] + Tails[i]).DefaultIfEmpty(0).Max();
        IsAcyclic = !Enumerable.Range(0, count).Any(i => Enumerable.Range(0, count).Any(j => distance[i][j] > None && ((i != j && distance[j][i] > None) || distance[i][j] < 0)));
    }

    /// <summary>Earliest start of each activity. [periods]</summary>
    public int[] Heads { get; }

    /// <summary>The least time from the start of each activity to the end of the project. [periods]</summary>
    public int[] Tails { get; }

    /// <summary>The project takes at least this long. [periods]</summary>
    public int CriticalPath { get; }

    /// <summary>There are minimum lags alone: no activity has a path back to itself or a negative way.</summary>
    public bool IsAcyclic { get; }

    /// <summary>start(to) ≥ start(from) + this; <see cref="None"/> without a path. [periods]</summary>
    public int Distance(int from, int to) => distance[from][to];

    /// <summary>Floyd and Warshall's longest paths; null when the lags contradict each other.</summary>
    public static LagNetwork? Of(IEnumerable<MakespanLag> lags, int[] durations)
    {
        int count = durations.Length;
        var d = new int[count][];
        for (int i = 0; i < count; i++)
        {
            d[i] = new int[count];
            Array.Fill(d[i], None);
            d[i][i] = 0;
        }

        foreach (MakespanLag lag in lags)
            d[lag.From][lag.To] = Math.Max(d[lag.From][lag.To], lag.Length + (lag.Edge == Edge.End ? durations[lag.From] : 0));
        for (int k = 0; k < count; k++)
        {
            int[] onward = d[k];
            for (int i = 0; i < count; i++)
            {
                int[] row = d[i];
                int to = row[k];
                if (to == None)
                    continue;
                for (int j = 0; j < count; j++)
                {
                    if (onward[j] > None && to + onward[j] > row[j])
                        row[j] = to + onward[j];
                }
            }
        }

        return Enumerable.Range(0, count).Any(i => d[i][i] > 0) ? null : new LagNetwork(d, durations);
    }
}
