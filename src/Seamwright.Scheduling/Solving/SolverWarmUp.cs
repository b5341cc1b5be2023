using Google.OrTools.Sat;

namespace Seamwright.Scheduling;

/// <summary>Loads the native solver before it is needed: the first solve otherwise pays about 90 ms for it.</summary>
public static class SolverWarmUp
{
    /// <summary>Loads it on a background thread, once per process however often it is called.</summary>
    /// <returns>Done when loaded. Nobody has to wait for it; it never fails (the first real solve would report what is wrong).</returns>
    public static Task Start() => Loading.Value;

    private static readonly Lazy<Task> Loading = new(() => Task.Run(Load));

    private static void Load()
    {
        try
        {
            var model = new CpModel();
            IntVar a = model.NewIntVar(0, 3, "a");
            IntVar b = model.NewIntVar(0, 3, "b");
            model.Add(a + (2 * b) >= 3);
            model.Minimize(a + b);
            new CpSolver { StringParameters = "num_workers:1" }.Solve(model);
        }
        catch (Exception e) when (e is DllNotFoundException or TypeInitializationException or BadImageFormatException)
        {
            // The first real solve meets the same fault and reports it to somebody who can act on it.
        }
    }
}
