namespace Seamwright.Scheduling;

/// <summary>
/// Loads the native solver and has the model building code compiled before they are needed: the first solve of a process
/// otherwise pays some 500 ms for both.
/// </summary>
public static class SolverWarmUp
{
    private static readonly Lazy<Task> Loading = new(() => Task.Run(Load));

    /// <summary>Starts loading on a background thread, once per process however often it is called.</summary>
    /// <returns>Done when loaded. Nobody has to wait for it; it never fails (the first real solve would report what is wrong).</returns>
    public static Task Start() => Loading.Value;

    private static void Load()
    {
        try
        {
            ProjectSolver.Solve(Example(), new SolveOptions { Goals = [Goal.Cost, Goal.Earliest(new ActivityId("last"))] });
        }
        catch (Exception e) when (e is DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            // The first real solve meets the same fault and reports it to somebody who can act on it.
        }
    }

    /// <summary>One of each kind of part, so that the code of each has run once.</summary>
    private static Project Example()
    {
        var (person, paste, first, last) = (new ResourceId("person"), new ConsumableId("paste"), new ActivityId("first"), new ActivityId("last"));
        Batch Batch(int index) => new()
        {
            Id = new BatchId(index == 0 ? "batch" : "other batch"),
            Setup = 5,
            Cost = 3,
            Crews = [new Crew { Id = new CrewId("one"), Demands = [new Demand(person)], CostPerMinute = 1 }],
            LatestEnd = TimeFunction.Shift(15),
            SymmetryGroup = "batches",
            SymmetryIndex = index,
        };
        Mode In(string batch) => new() { Id = new ModeId(batch), Batch = new BatchId(batch), Work = 5, Consumes = [new Consumption(paste, 2)] };
        Activity Joined(ActivityId id) => new() { Id = id, Modes = [In("batch"), In("other batch")] };
        return new Project
        {
            Horizon = 240,
            Resources = [new Resource { Id = person, Open = [new Window(0, 60), new Window(90, 240)] }],
            Consumables = [new Consumable(paste)],
            Unlocks = [new Unlock(new UnlockId("delivery"), 2)],
            Lots = [new Lot { Id = new LotId("lot"), Serves = [paste], Amount = 9, Usable = new Window(30, 200), Unlock = new UnlockId("delivery") }],
            Batches = [Batch(0), Batch(1)],
            Activities =
            [
                Joined(new ActivityId("one")), Joined(new ActivityId("two")), Joined(first),
                new Activity { Id = last, Modes = [new Mode { Id = new ModeId("only"), Duration = 10, Demands = [new Demand(person)] }] },
            ],
            Lags =
            [
                new Lag { From = TimePoint.EndOf(first), To = TimePoint.StartOf(last), Delay = new Delay.ByTime(TimeFunction.Of(t => t + 20 + (t / 3))) },
                new Lag { From = TimePoint.EndOf(first), To = TimePoint.StartOf(last), Delay = new Delay.Fixed(200), Kind = LagKind.Maximum },
            ],
            Charges = [new Charge { Activity = last, Edge = Edge.End, Amount = new StepFunction([new Step(100, 1), new Step(150, 2)]) }],
        };
    }
}
