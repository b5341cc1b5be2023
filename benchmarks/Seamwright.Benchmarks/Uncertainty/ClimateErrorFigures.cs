using System.Globalization;
using Seamwright.Files;
using Seamwright.Planning.Tests.Uncertainty;

namespace Seamwright.Benchmarks.Uncertainty;

/// <summary>What it costs that an error of the climate multiplies the work of an hour instead of being integrated.</summary>
internal static class ClimateErrorFigures
{
    public static void Print(TextWriter output, string[] repairs)
    {
        output.WriteLine("repair, law: cures; shift (root mean square), error (root mean square, mean, largest of 99 in 100) [min]");
        foreach (string repair in repairs)
        {
            var input = RepairReader.Read(repair).Input ?? throw new InvalidOperationException($"{repair} does not read.");
            var cases = ClimateErrors.Measure(input, climates: 128, seed: 1);
            for (int law = 0; law < ClimateErrors.Laws.Length; law++)
            {
                var mine = cases.Where(one => one.Law == law).ToList();
                double[] errors = [.. mine.Select(one => Math.Abs(one.Error)).Order()];
                output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{Path.GetFileName(repair)}, {ClimateErrors.Laws[law].Name}: {mine.Count}; {Root(mine.Select(one => one.Shift)):F1}, {Root(mine.Select(one => one.Error)):F2}, {mine.Average(one => one.Error):F2}, {errors[(int)(0.99 * errors.Length)]:F1}"));
            }
        }
    }

    private static double Root(IEnumerable<double> values) => Math.Sqrt(values.Average(value => value * value));
}
