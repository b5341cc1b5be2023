using System.Collections.Immutable;
using NodaTime;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Uncertainty;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>Networks drawn by hand. Times are long, so that starts on five minutes do not count.</summary>
internal static class Drawn
{
    /// <summary>Nothing scatters but the parts themselves.</summary>
    public static Spreads LabourAlone { get; } = Spreads.None with { Labour = ImmutableDictionary<StepKind, double>.Empty };

    public static OpenTimes Always { get; } = new(0, [], [], 0);

    public static PlanTime Time { get; } = new(Instant.FromUtc(2027, 3, 1, 7, 0), Instant.FromUtc(2027, 3, 5, 7, 0));

    public static int Work(this NetworkDraft draft, double minutes, double spread, StepKind kind = StepKind.Operation, string name = "somebody", params int[] after) =>
        draft.After(draft.AddWork(new WorkLabel(kind, [], name, null), 0, Always, 0, [new NetworkDraft.Part(kind, minutes, spread)]), after);

    public static int After(this NetworkDraft draft, int work, params int[] after)
    {
        foreach (int before in after)
            draft.AddWait(before, true, work, 0);
        return work;
    }

    public static PlanNetwork ReadyAfter(this NetworkDraft draft, params int[] last)
    {
        foreach (int work in last)
            draft.AddWait(work, true, NetworkDraft.Ready, 0);
        return draft.Build(CureGrid.Empty);
    }

    public static Draws Draw(this PlanNetwork network, int samples = 200_000, ulong seed = 1, int threads = 2) =>
        Sampler.Draw(network, Scatter.Of(network, LabourAlone), samples, seed, threads);

    /// <summary>Asserts that a share of samples is what it should be, to four standard errors of sampling and an allowance.</summary>
    public static void Share(double expected, Draws draws, double until, double allowance = 0)
    {
        double n = draws.Ready.Length, share = draws.Ready.Count(ready => ready <= until) / n;
        double reach = (4 * Math.Sqrt(Math.Max(expected * (1 - expected), 1 / n) / n)) + allowance;
        Xunit.Assert.InRange(share, expected - reach, expected + reach);
    }
}
