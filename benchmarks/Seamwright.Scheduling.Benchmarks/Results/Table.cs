using System.Globalization;

namespace Seamwright.Scheduling.Benchmarks.Results;

/// <summary>A Markdown table: one row a set and contender.</summary>
internal static class Table
{
    public static void Print(TextWriter output, IEnumerable<Run> runs)
    {
        Run[] all = [.. runs];
        output.WriteLine("| set | solver | proven | feasible | mean gap | worst gap | mean time [s] | longest [s] |");
        output.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (var group in all.GroupBy(r => (r.Set, r.Contender)))
            output.WriteLine(Row(group.Key.Set, group.Key.Contender, [.. group]));
        foreach (Run run in all.Where(r => r.Fault.Length > 0))
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"FAULT {run.Set}/{run.Instance} {run.Contender}: {run.Fault}"));
    }

    private static string Row(string set, string contender, Run[] runs)
    {
        // An instance that is known or proven to have no schedule cannot be asked for one.
        int solvable = runs.Count(r => r.Makespan is not null || !(r.Proven || r.Known is { Makespan: null }));
        double[] gaps = [.. runs.Where(r => r.Gap is not null).Select(r => r.Gap!.Value)];
        string mean = gaps.Length == 0 ? "" : Percent(gaps.Average());
        string worst = gaps.Length == 0 ? "" : Percent(gaps.Max());
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {set} | {contender} | {runs.Count(r => r.Proven)} of {runs.Length} | {runs.Count(r => r.Makespan is not null)} of {solvable} | {mean} | {worst} | {runs.Average(r => r.Seconds):F2} | {runs.Max(r => r.Seconds):F1} |");
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:F2} %");
}
