using System.Collections.Immutable;

namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>The format .sch of ProGen/max: minimum and maximum lags from start to start, one mode.</summary>
internal static class TimeLagFile
{
    public static MakespanProblem Read(string file, string text)
    {
        var lines = NumberLines.Of(file, text);
        int[] head = lines.Numbers("the first line with activities and resources");
        if (head.Length < 2 || head[0] < 0 || head[1] < 0)
            throw lines.Fault("the number of activities and of renewable resources was expected.");
        if (head.Skip(2).Any(n => n != 0))
            throw lines.Fault("only renewable resources are supported.");
        int count = head[0] + 2;
        int resources = head[1];

        var lags = ImmutableArray.CreateBuilder<MakespanLag>();
        for (int i = 0; i < count; i++)
        {
            int[] row = Row(lines, i, "the arcs are complete");
            if (row.Length < 3 || row[2] < 0 || row.Length != 3 + (2 * row[2]))
                throw lines.Fault("activity, modes, number of arcs, that many targets and that many weights were expected.");
            if (row[1] != 1)
                throw lines.Fault("only one mode an activity is supported.");
            for (int a = 0; a < row[2]; a++)
            {
                int target = row[3 + a];
                if (target < 0 || target >= count)
                    throw lines.Fault($"there is no activity {target}.");
                lags.Add(new MakespanLag(i, Edge.Start, target, row[3 + row[2] + a]));
            }
        }

        var activities = ImmutableArray.CreateBuilder<MakespanActivity>(count);
        for (int i = 0; i < count; i++)
        {
            int[] row = Row(lines, i, "the durations are complete");
            if (row.Length != 3 + resources || row[1] != 1 || row.Any(n => n < 0))
                throw lines.Fault($"activity {i}, mode 1, a duration and {resources} demands of 0 or more were expected.");
            activities.Add(new MakespanActivity([new MakespanMode(row[2], [.. row[3..]], [])]));
        }

        int[] capacities = resources == 0 ? [] : lines.Numbers("the capacities");
        if (capacities.Length != resources || capacities.Any(c => c < 0))
            throw lines.Fault($"{resources} capacities of 0 or more were expected.");

        // The files count the project's duration as the start of the last activity; it is the latest end once all have ended by then.
        for (int i = 0; i < count - 1; i++)
            lags.Add(MakespanLag.Precedence(i, count - 1));
        return new MakespanProblem { Capacities = [.. capacities], Activities = activities.MoveToImmutable(), Lags = lags.ToImmutable() };
    }

    private static int[] Row(NumberLines lines, int activity, string before)
    {
        int[] row = lines.Numbers(before, bracketed: true);
        return row[0] == activity ? row : throw lines.Fault($"activity {activity} was expected.");
    }
}
