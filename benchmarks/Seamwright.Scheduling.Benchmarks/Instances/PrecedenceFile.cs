using System.Collections.Immutable;

namespace Seamwright.Scheduling.Benchmarks.Instances;

/// <summary>The formats .sm and .mm of PSPLIB and .txt of MMLIB: precedences, one or several modes, stocks.</summary>
internal static class PrecedenceFile
{
    public static MakespanProblem Read(string file, string text)
    {
        var lines = NumberLines.Of(file, text);
        int jobs = lines.Labelled("jobs");
        int renewable = lines.Labelled("- renewable");
        int nonrenewable = lines.Labelled("- nonrenewable");
        if (lines.Labelled("- doubly constrained") != 0)
            throw lines.Fault("doubly constrained resources are not supported.");
        if (jobs < 2)
            throw lines.Fault("there must be at least the two dummy jobs.");

        lines.SkipTo("PRECEDENCE RELATIONS");
        int[] modes = new int[jobs];
        var lags = ImmutableArray.CreateBuilder<MakespanLag>();
        for (int i = 0; i < jobs; i++)
        {
            int[] row = Row(lines, i + 1, "the precedence relations are complete");
            if (row.Length < 3 || row[2] < 0 || row.Length != 3 + row[2])
                throw lines.Fault("job, modes, number of successors and that many successors were expected.");
            if (row[1] < 1)
                throw lines.Fault($"job {i + 1} must have at least one mode.");
            modes[i] = row[1];
            foreach (int successor in row[3..])
            {
                if (successor < 1 || successor > jobs || successor == i + 1)
                    throw lines.Fault($"job {successor} cannot be a successor of job {i + 1}.");
                lags.Add(MakespanLag.Precedence(i, successor - 1));
            }
        }

        lines.SkipTo("REQUESTS/DURATIONS");
        var activities = ImmutableArray.CreateBuilder<MakespanActivity>(jobs);
        for (int i = 0; i < jobs; i++)
            activities.Add(new MakespanActivity([.. Enumerable.Range(0, modes[i]).Select(k => Mode(lines, i + 1, k + 1, renewable, nonrenewable))]));

        lines.SkipTo("AVAILABILITIES");
        int[] amounts = lines.Numbers("the availabilities");
        if (amounts.Length != renewable + nonrenewable || amounts.Any(a => a < 0))
            throw lines.Fault($"{renewable + nonrenewable} availabilities of 0 or more were expected.");
        return new MakespanProblem
        {
            Capacities = [.. amounts[..renewable]],
            Stocks = [.. amounts[renewable..]],
            Activities = activities.MoveToImmutable(),
            Lags = lags.ToImmutable(),
        };
    }

    private static int[] Row(NumberLines lines, int job, string before)
    {
        int[] row = lines.Numbers(before);
        return row[0] == job ? row : throw lines.Fault($"job {job} was expected.");
    }

    /// <summary>The job's number stands only before its first mode.</summary>
    private static MakespanMode Mode(NumberLines lines, int job, int mode, int renewable, int nonrenewable)
    {
        int[] row = mode == 1 ? Row(lines, job, "the requests are complete")[1..] : lines.Numbers("the requests are complete");
        if (row.Length != 2 + renewable + nonrenewable || row[0] != mode)
            throw lines.Fault($"mode {mode} of job {job} with its duration and {renewable + nonrenewable} requests was expected.");
        if (row.Any(n => n < 0))
            throw lines.Fault("durations and requests must not be negative.");
        return new MakespanMode(row[1], [.. row[2..(2 + renewable)]], [.. row[(2 + renewable)..]]);
    }
}
