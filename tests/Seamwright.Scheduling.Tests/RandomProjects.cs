using System.Collections.Immutable;

namespace Seamwright.Scheduling.Tests;

/// <summary>Small random projects with a bit of everything, from a seed.</summary>
internal static class RandomProjects
{
    /// <summary>Few enough choices for brute force: three activities, two batches, a dozen starts.</summary>
    public static Project Tiny(int seed) => Make(new Random(seed), activities: 3, horizon: 60, step: 5, lots: false);

    /// <summary>Too large for brute force; with lots.</summary>
    public static Project Small(int seed) => Make(new Random(seed), activities: 8, horizon: 400, step: 5, lots: true);

    private static Project Make(Random random, int activities, int horizon, int step, bool lots)
    {
        ResourceId[] resources = [new("r"), new("s")];
        ImmutableArray<Demand> Demands(int most) => [.. resources.Where(_ => random.Next(3) > 0).Take(most).Select(r => new Demand(r))];
        ImmutableArray<Window> Windows(int chance) => random.Next(chance) > 0 ? [] : Open(random, horizon);
        ImmutableArray<Consumption> Consumes() => lots && random.Next(2) == 0 ? [new Consumption(new ConsumableId("c"), random.Next(0, 4))] : [];

        ImmutableArray<Batch> batches =
        [
            .. Enumerable.Range(0, 2).Select(b => new Batch
            {
                Id = new BatchId($"b{b}"),
                Setup = random.Next(0, 8),
                Cost = random.Next(0, 10),
                Crews = random.Next(4) == 0
                    ? []
                    : [.. Enumerable.Range(0, random.Next(1, 3)).Select(c => new Crew { Id = new CrewId($"k{c}"), Demands = Demands(2), CostPerMinute = random.Next(0, 3), Cost = random.Next(0, 6) })],
                MaxWork = random.Next(3) == 0 ? random.Next(5, 20) : null,
                MaxLoad = random.Next(3) == 0 ? random.Next(5, 20) : null,
                LatestEnd = random.Next(2) == 0 ? RandomFunction(random, horizon, 5) : null,
                Starts = Windows(4),
                Consumes = Consumes(),
            }),
        ];

        Activity[] all =
        [
            .. Enumerable.Range(0, activities).Select(i => new Activity
            {
                Id = new ActivityId($"a{i}"),
                Modes =
                [
                    .. Enumerable.Range(0, random.Next(1, 4)).Select(m => random.Next(2) == 0
                        ? new Mode { Id = new ModeId($"m{m}"), Duration = random.Next(0, 16), Demands = Demands(2), Cost = random.Next(-3, 12), Starts = Windows(3), Consumes = Consumes() }
                        : new Mode { Id = new ModeId($"m{m}"), Batch = batches[random.Next(2)].Id, Work = random.Next(0, 12), Load = random.Next(0, 9), Cost = random.Next(-3, 12), Starts = Windows(4), Consumes = Consumes() }),
                ],
            }),
        ];
        for (int i = 1; i < all.Length; i++)
        {
            Activity other = all[random.Next(i)];
            if (random.Next(4) == 0)
                all[i] = all[i] with { PresentWhen = [random.Next(2) == 0 ? new Trigger.InMode(other.Id, Some(random, other)) : new Trigger.BatchUsed(batches[random.Next(2)].Id)] };
        }

        var lags = new List<Lag>();
        for (int n = random.Next(1, activities + 1); n > 0; n--)
        {
            (Activity from, Activity to) = (all[random.Next(activities)], all[random.Next(activities)]);
            if (from == to)
                continue;
            LagKind kind = random.Next(3) == 0 ? LagKind.Maximum : LagKind.Minimum;
            bool fromBatch = random.Next(5) == 0;
            lags.Add(new Lag
            {
                From = fromBatch ? TimePoint.EndOf(batches[0].Id) : random.Next(3) > 0 ? TimePoint.EndOf(from.Id) : TimePoint.StartOf(from.Id),
                To = random.Next(3) > 0 ? TimePoint.StartOf(to.Id) : TimePoint.EndOf(to.Id),
                Kind = kind,
                Delay = random.Next(2) == 0
                    ? new Delay.Fixed(kind == LagKind.Minimum ? random.Next(-10, 15) : random.Next(0, 30))
                    : new Delay.ByTime(RandomFunction(random, horizon, kind == LagKind.Minimum ? 0 : 15)),
                FromModes = fromBatch ? [] : Some(random, from),
                ToModes = Some(random, to),
            });
        }

        return new Project
        {
            Horizon = horizon,
            StartStep = step,
            Resources = [.. resources.Select(r => new Resource { Id = r, Capacity = random.Next(1, 3), Open = Open(random, horizon) })],
            Consumables = lots ? [new Consumable(new ConsumableId("c"))] : [],
            Unlocks = lots ? [new Unlock(new UnlockId("u"), random.Next(0, 9))] : [],
            Lots = !lots ? [] :
            [
                new Lot { Id = new LotId("l0"), Serves = [new ConsumableId("c")], Amount = random.Next(0, 30), Usable = new Window(0, random.Next(1, horizon)) },
                new Lot { Id = new LotId("l1"), Serves = [new ConsumableId("c")], Amount = 10, Usable = new Window(random.Next(0, horizon), horizon + 1), Cost = random.Next(0, 5), Unlock = new UnlockId("u") },
                new Lot { Id = new LotId("l2"), Serves = [new ConsumableId("c")], Amount = 40, Usable = new Window(0, horizon + 1), Cost = 7, Unlock = new UnlockId("u") },
            ],
            Activities = [.. all],
            Batches = batches,
            Lags = [.. lags],
            ConditionalWindows = random.Next(3) > 0 ? [] : [new ConditionalWindow { Activity = all[0].Id, Windows = Open(random, horizon), WhenActivity = all[1].Id, WhenModes = Some(random, all[1]) }],
            Charges = [.. all.Where(_ => random.Next(2) == 0).Select(a => new Charge { Activity = a.Id, Edge = random.Next(2) == 0 ? Edge.Start : Edge.End, Amount = Steps(random, horizon) })],
        };
    }

    private static ImmutableArray<ModeId> Some(Random random, Activity activity) => [.. activity.Modes.Where(_ => random.Next(2) == 0).Select(m => m.Id)];

    private static ImmutableArray<Window> Open(Random random, int horizon)
    {
        int a = random.Next(0, horizon / 3);
        int b = random.Next(a + 1, (2 * horizon / 3) + 1);
        int c = random.Next(b, horizon);
        return [new Window(a, b), new Window(c, random.Next(c + 1, horizon + 1))];
    }

    private static StepFunction Steps(Random random, int horizon)
    {
        int[] times = [.. Enumerable.Range(0, 3).Select(_ => random.Next(0, horizon)).Distinct().Order()];
        long amount = 0;
        return new StepFunction([.. times.Select(t => new Step(t, amount += random.Next(0, 6)))]);
    }

    /// <summary>Plateaus, jumps and slopes of all kinds, never falling.</summary>
    private static TimeFunction RandomFunction(Random random, int horizon, int more)
    {
        var values = new int[horizon + 1];
        int value = random.Next(0, 10) + more;
        int slope = 1;
        for (int t = 0; t <= horizon; t++)
        {
            if (random.Next(8) == 0)
                slope = random.Next(0, 3);
            value = Math.Max(value + slope + (random.Next(20) == 0 ? random.Next(0, 10) : 0), more > 0 ? t : 0);
            values[t] = value;
        }

        return TimeFunction.Of(t => values[t]);
    }
}
