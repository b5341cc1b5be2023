using System.Collections.Immutable;

namespace Seamwright.Scheduling.Tests;

/// <summary>Projects of the size and shape that the core is made for: joined work in batches that must be ready for a slot.</summary>
internal static class SampleProjects
{
    private const int Day = 1440;

    /// <summary>Joints done in batches of a material that needs time until ready, between preparation and a fixed slot.</summary>
    public static Project Joints(int seed, int joints = 15, int days = 4, int people = 1, int batchesPerMaterial = 4, bool alike = false)
    {
        var random = new Random(seed);
        int horizon = days * Day;
        string[] materials = ["quick", "middle", "slow"];
        int[] readyHours = [3, 9, 20];
        long[] price = [900, 600, 400];
        ImmutableArray<Demand> person = [new Demand(new ResourceId("person"))];
        var activities = new List<Activity>();
        var batches = new List<Batch>();
        var lags = new List<Lag>();

        for (int m = 0; m < materials.Length; m++)
        {
            for (int b = 0; b < batchesPerMaterial; b++)
            {
                batches.Add(new Batch
                {
                    Id = new BatchId($"{materials[m]}{b}"),
                    Setup = 12,
                    Crews =
                    [
                        new Crew { Id = new CrewId("person"), Demands = person, CostPerMinute = 90 },
                    ],
                    Cost = 700,
                    LatestEnd = TimeFunction.Shift(60 + (30 * m)),
                    SymmetryGroup = materials[m],
                    SymmetryIndex = b,
                    Consumes = [new Consumption(new ConsumableId(materials[m]), 5)],
                });
            }
        }

        TimeFunction[] ready = [.. readyHours.Select(h => Ready(h * 60.0, horizon))];
        for (int p = 0; p < 5; p++)
        {
            activities.Add(Alone($"prepare{p}", 20 + (5 * random.Next(0, 8)), person));
            if (p > 0)
                lags.Add(After($"prepare{p - 1}", $"prepare{p}", 0));
        }

        for (int p = 0; p < 2; p++)
        {
            // A primer is needed only if something is done with the slow material.
            activities.Add(Alone($"prime{p}", 15, person) with
            {
                PresentWhen = [.. batches.Where(b => b.SymmetryGroup == "slow").Select(b => new Trigger.BatchUsed(b.Id))],
            });
            lags.Add(After($"prepare{p}", $"prime{p}", 0));
        }

        for (int j = 0; j < joints; j++)
        {
            int work = alike ? 6 + (j % 3) : 4 + random.Next(0, 9);
            long extra = alike ? 0 : random.Next(0, 120);
            int first = alike ? 0 : random.Next(0, 2);
            var id = new ActivityId($"joint{j}");
            var modes = new List<Mode>();
            for (int m = first; m < first + 2; m++)
            {
                foreach (Batch batch in batches.Where(b => b.SymmetryGroup == materials[m]))
                {
                    modes.Add(new Mode
                    {
                        Id = new ModeId(batch.Id.Value),
                        Batch = batch.Id,
                        Work = work,
                        Cost = (price[m] * work / 6) + extra,
                        Consumes = [new Consumption(new ConsumableId(materials[m]), work)],
                    });
                }

                lags.Add(new Lag
                {
                    From = TimePoint.EndOf(id),
                    To = TimePoint.StartOf(new ActivityId("paint")),
                    Delay = new Delay.ByTime(ready[m]),
                    FromModes = [.. modes.Where(k => k.Id.Value.StartsWith(materials[m], StringComparison.Ordinal)).Select(k => k.Id)],
                });
                if (m == 2)
                {
                    lags.Add(new Lag
                    {
                        From = TimePoint.EndOf(new ActivityId("prime0")),
                        To = TimePoint.StartOf(id),
                        Delay = new Delay.Fixed(30),
                        ToModes = [.. modes.Where(k => k.Id.Value.StartsWith(materials[m], StringComparison.Ordinal)).Select(k => k.Id)],
                    });
                }
            }

            activities.Add(new Activity { Id = id, Modes = [.. modes] });
            string preparation = $"prepare{(alike ? 4 : random.Next(1, 5))}";
            lags.Add(new Lag { From = TimePoint.EndOf(new ActivityId(preparation)), To = TimePoint.StartOf(id), Delay = new Delay.Fixed(0) });
            lags.Add(new Lag
            {
                From = TimePoint.EndOf(new ActivityId(preparation)),
                To = TimePoint.StartOf(id),
                Kind = LagKind.Maximum,
                Delay = new Delay.Fixed(Day),
            });
        }

        var slots = new List<Mode>();
        for (int d = 0; d < days; d++)
        {
            foreach (int hour in new[] { 8, 13 })
            {
                int at = (d * Day) + (hour * 60);
                slots.Add(new Mode { Id = new ModeId($"slot{at}"), Duration = 90, Demands = person, Starts = [new Window(at, at + 1)], Cost = 200 * (hour == 8 ? 1 : 0) });
            }
        }

        activities.Add(new Activity { Id = new ActivityId("paint"), Modes = [.. slots] });
        for (int f = 0; f < 8; f++)
        {
            activities.Add(Alone($"fit{f}", 10 + (5 * random.Next(0, 6)), person));
            lags.Add(After("paint", $"fit{f}", 60));
            lags.Add(After($"fit{f}", "hand over", 0));
        }

        activities.Add(Alone("hand over", 15, person));
        return new Project
        {
            Horizon = horizon,
            Resources =
            [
                new Resource
                {
                    Id = new ResourceId("person"),
                    Capacity = people,
                    Open = [.. Enumerable.Range(0, days).SelectMany(d => new[] { new Window((d * Day) + 480, (d * Day) + 720), new Window((d * Day) + 750, (d * Day) + 1020) })],
                },
            ],
            Consumables = [.. materials.Select(m => new Consumable(new ConsumableId(m)))],
            Unlocks = [new Unlock(new UnlockId("delivery"), 1500)],
            Lots =
            [
                .. materials.Select(m => new Lot { Id = new LotId($"opened {m}"), Serves = [new ConsumableId(m)], Amount = 45, Usable = new Window(0, 2 * Day) }),
                .. materials.Select(m => new Lot
                {
                    Id = new LotId($"ordered {m}"), Serves = [new ConsumableId(m)], Amount = 300, Usable = new Window(Day + 600, horizon + 1), Unlock = new UnlockId("delivery"), Cost = 300,
                }),
            ],
            Activities = [.. activities],
            Batches = [.. batches],
            Lags = [.. lags],
            Charges =
            [
                new Charge
                {
                    Activity = new ActivityId("hand over"),
                    Edge = Edge.End,
                    Amount = new StepFunction([.. Enumerable.Range(1, (days - 1) * 4).Select(q => new Step(Day + (q * 360), 2500L * q))]),
                },
            ],
        };
    }

    private static Activity Alone(string id, int duration, ImmutableArray<Demand> demands) =>
        new() { Id = new ActivityId(id), Modes = [new Mode { Id = new ModeId("only"), Duration = duration, Demands = demands }] };

    private static Lag After(string first, string second, int minutes) =>
        new() { From = TimePoint.EndOf(new ActivityId(first)), To = TimePoint.StartOf(new ActivityId(second)), Delay = new Delay.Fixed(minutes) };

    /// <summary>Ready when the progress, faster by day than by night, adds up to the minutes needed at full speed.</summary>
    private static TimeFunction Ready(double needed, int horizon)
    {
        var progress = new double[(2 * horizon) + 2];
        for (int t = 0; t < progress.Length - 1; t++)
            progress[t + 1] = progress[t] + 0.75 + (0.25 * Math.Cos(2 * Math.PI * ((t % Day) - 840) / Day));
        return TimeFunction.Of(t =>
        {
            int at = Array.BinarySearch(progress, progress[t] + needed);
            return at >= 0 ? at : ~at;
        });
    }
}
