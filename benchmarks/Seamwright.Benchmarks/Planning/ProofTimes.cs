using System.Diagnostics;
using System.Globalization;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Work;

namespace Seamwright.Benchmarks.Planning;

/// <summary>Time in process to a proven recommended plan of fifteen joints, alike and different, without the other materials' answers.</summary>
internal static class ProofTimes
{
    public static void Print(TextWriter output, int rounds)
    {
        var shop = Shop();
        RepairPlanner.Answer(GeneratedRepairs.Alike(shop, 0, 10), Once);
        foreach (int hours in (ReadOnlySpan<int>)[24, 10, 6])
        {
            Print(output, "several alike", hours, rounds, seed => GeneratedRepairs.Alike(shop, seed, hours));
            Print(output, "all different", hours, rounds, seed => GeneratedRepairs.Different(shop, seed, hours));
        }
    }

    private static PlanOptions Once { get; } = new() { Alternatives = false };

    private static void Print(TextWriter output, string kind, int hours, int rounds, Func<int, RepairInput> repair)
    {
        var times = new List<double>();
        int proven = 0;
        for (int seed = 1; seed <= rounds; seed++)
        {
            var input = repair(seed);
            var clock = Stopwatch.StartNew();
            var answer = RepairPlanner.Answer(input, Once);
            times.Add(clock.Elapsed.TotalMilliseconds);
            if (answer.Recommended is { ProvenOptimal: true })
                proven++;
        }
        times.Sort();
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{kind,-14} slot in {hours,2} h: {rounds} repairs, {proven} proven; ms: median {times[times.Count / 2]:F0}, least {times[0]:F0}, most {times[^1]:F0}"));
    }

    /// <summary>Shop, sheets and air of the first example, found from the checkout upwards.</summary>
    public static RepairInput Shop()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            string example = Path.Combine(folder.FullName, "examples", "evening-slot");
            if (Directory.Exists(example) && RepairReader.Read(example).Input is { } input)
                return input;
        }
        throw new DirectoryNotFoundException("examples/evening-slot was not found above the program; run it from the checkout.");
    }
}
