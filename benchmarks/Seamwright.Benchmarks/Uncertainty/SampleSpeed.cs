using System.Diagnostics;
using System.Globalization;
using Seamwright.Files;
using Seamwright.Planning;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Uncertainty;

namespace Seamwright.Benchmarks.Uncertainty;

/// <summary>Samples of a decided plan a second, for the example repair of fifteen joints.</summary>
internal static class SampleSpeed
{
    public static void Print(TextWriter output, string repair, int rounds)
    {
        var input = RepairReader.Read(repair).Input ?? throw new InvalidOperationException($"{repair} does not read.");
        var planning = new PlanningCase(input);
        var found = new PlanSearch(planning, new PlanOptions { Deterministic = true }).Best(Variation.Recommended) ?? throw new InvalidOperationException($"{repair} has no plan.");
        var spreads = input.Shop.Spreads;
        var watch = Stopwatch.StartNew();
        var network = NetworkReader.Read(planning, found, spreads);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"Network: {network.Works.Length} works, {network.PartMinutes.Length} parts, {network.ArcSource.Length} arcs, {network.Cures.Length} cures, {network.Grid.Laws.Length} laws × {network.Grid.Cells} cells; read in {watch.Elapsed.TotalMilliseconds:F1} ms"));
        var scatter = Scatter.Of(network, spreads);
        Sampler.Draw(network, Scatter.None(network), 50_000, 1, 1);
        var pass = Process.GetCurrentProcess().TotalProcessorTime;
        Sampler.Draw(network, Scatter.None(network), 500_000, 1, 1);
        pass = Process.GetCurrentProcess().TotalProcessorTime - pass;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Without random numbers: {pass.TotalMicroseconds / 500_000:F2} µs of processor time a sample"));
        foreach (int threads in (int[])[1, 2])
        {
            Sampler.Draw(network, scatter, 50_000, 1, threads);
            var rates = new List<double>();
            var work = Process.GetCurrentProcess().TotalProcessorTime;
            for (int round = 0; round < rounds; round++)
            {
                watch.Restart();
                var draws = Sampler.Draw(network, scatter, 200_000, (ulong)round, threads);
                rates.Add(draws.Ready.Length / watch.Elapsed.TotalSeconds);
            }
            work = Process.GetCurrentProcess().TotalProcessorTime - work;
            rates.Sort();
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{threads} thread(s): median {rates[rates.Count / 2]:N0} samples a second, slowest {rates[0]:N0}, fastest {rates[^1]:N0} ({rounds} rounds of 200 000); {work.TotalMicroseconds / (rounds * 200_000.0):F2} µs of processor time a sample"));
        }
    }
}
