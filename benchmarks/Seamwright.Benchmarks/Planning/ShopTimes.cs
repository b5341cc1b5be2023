using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Seamwright.Planning;
using Seamwright.Work;

namespace Seamwright.Benchmarks.Planning;

/// <summary>Whole shops: when the first plan stands, and cost, bound and gap as time goes on.</summary>
internal static class ShopTimes
{
    public static void Print(TextWriter output, int vehicles, int seconds, int seed)
    {
        var week = GeneratedShops.Week(ProofTimes.Shop(), seed, vehicles);
        // Another week first, so that what is timed is planning and not compiling; docs/performance.md has the cold start of the program beside it.
        ShopPlanner.Plan(GeneratedShops.Week(ProofTimes.Shop(), seed + 1000, vehicles), new ShopPlanOptions { Tries = 0 });
        var marks = new Queue<int>([1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1800]);
        var lastTold = default(ShopProgress);
        var progress = new Told(step =>
        {
            lock (marks)
            {
                while (marks.Count > 0 && step.Elapsed >= Duration.FromSeconds(marks.Peek()))
                    Line($"{marks.Dequeue()} s", lastTold ?? step);
                lastTold = step;
            }
        });
        var clock = Stopwatch.StartNew();
        var plan = ShopPlanner.Plan(week, new ShopPlanOptions { TimeLimit = Duration.FromSeconds(seconds), Seed = seed, Progress = progress });
        foreach (var without in plan.Vehicles.Where(vehicle => vehicle.Plan is null))
            output.WriteLine($"  {without.Input.Repair.Id} has no plan: {string.Join("; ", without.Conflicts.Select(conflict => string.Join(", ", conflict.Facts.Select(fact => fact.Id))))}");
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{vehicles} vehicles, seed {seed}: first plan after {plan.FirstAfter.TotalSeconds:F2} s; at the end ({clock.Elapsed.TotalSeconds:F1} s) {plan.Vehicles.Count(vehicle => vehicle.Plan is not null)} planned, {plan.Total.Amount:F2} against at least {plan.LowerBound.Amount:F2}: gap {plan.Gap:P2}; {Process.GetCurrentProcess().PeakWorkingSet64 / (1024 * 1024)} MB"));

        void Line(string when, ShopProgress step) => output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"  {when,6}: {step.Placed} placed, {step.Total.Amount:F2}, bound {step.LowerBound?.Amount:F2}"));
    }

    private sealed class Told(Action<ShopProgress> tell) : IProgress<ShopProgress>
    {
        public void Report(ShopProgress value) => tell(value);
    }
}
