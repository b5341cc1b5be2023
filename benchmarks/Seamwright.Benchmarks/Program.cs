using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Seamwright.Benchmarks.Curing;
using Seamwright.Benchmarks.Planning;
using Seamwright.Benchmarks.Uncertainty;

// One word says what is measured; docs/performance.md holds the last figures and the machine.
switch (args.FirstOrDefault())
{
    case "cure":
        BenchmarkRunner.Run<CureLookups>(DefaultConfig.Instance.AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance)));
        return 0;
    case "cure-error":
        LookupError.Print(Console.Out);
        return 0;
    case "proof":
        ProofTimes.Print(Console.Out, rounds: args.Length > 1 ? int.Parse(args[1], System.Globalization.CultureInfo.InvariantCulture) : 11);
        return 0;
    case "shop":
        ShopTimes.Print(Console.Out, Number(1, 30), Number(2, 10), Number(3, 1));
        return 0;
    case "chance":
        SampleSpeed.Print(Console.Out, args.Length > 1 ? args[1] : "examples/quarter-panel-us", rounds: 11);
        return 0;
    case "chance-error":
        ClimateErrorFigures.Print(Console.Out, args.Length > 1 ? args[1..] : ["examples/evening-slot", "examples/cold-night", "examples/quarter-panel-us"]);
        return 0;
    default:
        Console.Error.WriteLine("Say what to measure: cure (look-ups a second), cure-error (against direct integration), proof [ROUNDS] (time to a proven plan), shop [VEHICLES [SECONDS [SEED]]] (a whole shop), chance [REPAIR] (samples a second), chance-error [REPAIR…] (a wrong climate against integrating it anew).");
        return 2;
}

int Number(int index, int otherwise) => args.Length > index ? int.Parse(args[index], System.Globalization.CultureInfo.InvariantCulture) : otherwise;
