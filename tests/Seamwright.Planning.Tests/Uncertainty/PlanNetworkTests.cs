using Seamwright.Planning.Mapping;
using Seamwright.Planning.Tests.Checking;
using Seamwright.Planning.Uncertainty;
using Seamwright.Shops;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>The network of a decided plan is the plan: with nothing scattering it gives the plan's own times.</summary>
public sealed class PlanNetworkTests
{
    public static TheoryData<string> Names => [.. Examples.Possible];

    [Theory]
    [MemberData(nameof(Names))]
    public void With_nothing_scattering_every_sample_is_ready_when_the_plan_is(string example)
    {
        var (planning, found) = Best(example);
        var network = NetworkReader.Read(planning, found, new Spreads());

        var draws = Sampler.Draw(network, Scatter.None(network), samples: 256, seed: 1, threads: 2);

        Assert.All(draws.Ready, ready => Assert.Equal(ReadyMoment.Of(found), ready));
    }

    internal static (PlanningCase Planning, Found Found) Best(string example)
    {
        var planning = new PlanningCase(Examples.Read(example));
        return (planning, new PlanSearch(planning, new PlanOptions { Deterministic = true }).Best(Variation.Recommended)!);
    }
}
