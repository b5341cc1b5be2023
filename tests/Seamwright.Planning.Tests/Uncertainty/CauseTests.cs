using NodaTime;
using Seamwright.Planning.Uncertainty;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>Causes are ranked by their part in the scatter; what certainty would change stands beside it.</summary>
public sealed class CauseTests
{
    [Fact]
    public void The_cause_that_was_built_in_is_ranked_first()
    {
        var chance = Read(slot: 3000, (StepKind.Abrade, 600, 0.05), (StepKind.Seal, 1200, 0.5), (StepKind.Prime, 800, 0.1));

        Assert.Equal([StepKind.Seal, StepKind.Prime, StepKind.Abrade], chance.Causes.Select(cause => cause.Cause.Step!.Value));
        Assert.True(chance.Causes[0].VarianceShare > 0.9);
        Assert.True(chance.Causes[0].Gain.Low > 0);
        Assert.True(chance.Causes[0].BySlot > chance.BySlot.Value);
    }

    [Fact]
    public void Causes_that_only_add_up_have_their_shares_of_the_variance()
    {
        // In series the variances add, and no cause has a part in another's. Var = m²·e^{s²}(e^{s²} − 1) of a lognormal of median m.
        (StepKind Kind, double Minutes, double Spread)[] works = [(StepKind.Abrade, 60_000, 0.2), (StepKind.Seal, 50_000, 0.3), (StepKind.Prime, 30_000, 0.4)];
        double Variance((StepKind Kind, double Minutes, double Spread) work) =>
            work.Minutes * work.Minutes * Math.Exp(work.Spread * work.Spread) * (Math.Exp(work.Spread * work.Spread) - 1);

        var chance = Read(slot: 150_000, works);

        foreach (var work in works)
            Assert.Equal(Variance(work) / works.Sum(Variance), chance.Causes.Single(cause => cause.Cause.Step == work.Kind).VarianceShare, 0.04);
    }

    [Fact]
    public void A_cause_off_the_path_has_no_part()
    {
        var draft = new NetworkDraft();
        var network = draft.ReadyAfter(draft.Work(2000, 0.1, StepKind.Seal), draft.Work(100, 0.3, StepKind.Abrade));

        var chance = Read(network, slot: 2100);

        Assert.Equal(0, chance.Causes.Single(cause => cause.Cause.Step == StepKind.Abrade).VarianceShare, 1e-9);
        Assert.Equal(0, chance.Causes.Single(cause => cause.Cause.Step == StepKind.Abrade).Gain.Value);
    }

    [Fact]
    public void Causes_that_only_matter_together_both_have_a_part()
    {
        // Of two alike works side by side the later one counts. The total effect of one is ½·E(M − M′)², M the longest of X and Y, M′ of X′ and Y:
        // summed here over a grid of quantiles.
        const int steps = 120;
        double[] quantiles = [.. Enumerable.Range(0, steps).Select(i => 50_000 * Math.Exp(0.3 * Quantile((i + 0.5) / steps)))];
        double mean = 0, square = 0, effect = 0;
        foreach (double y in quantiles)
        {
            foreach (double x in quantiles)
            {
                double longest = Math.Max(x, y);
                mean += longest;
                square += longest * longest;
                effect += quantiles.Sum(other => (longest - Math.Max(other, y)) * (longest - Math.Max(other, y))) / steps;
            }
        }
        double n = (double)steps * steps, expected = effect / n / 2 / ((square / n) - (mean / n * (mean / n)));
        var draft = new NetworkDraft();
        var network = draft.ReadyAfter(draft.Work(50_000, 0.3, StepKind.Seal), draft.Work(50_000, 0.3, StepKind.Abrade));

        var chance = Read(network, slot: 60_000);

        Assert.True(2 * expected > 1.05);       // together more than all: each also has a part in what they do together
        Assert.All(chance.Causes, cause => Assert.Equal(expected, cause.VarianceShare, 0.04));
    }

    [Fact]
    public void The_histogram_counts_every_sample_once()
    {
        var chance = Read(slot: 3000, (StepKind.Seal, 1200, 0.5), (StepKind.Prime, 800, 0.1));

        Assert.Equal(chance.Samples, chance.Histogram.Sum(bar => bar.Count) + chance.Beyond);
        Assert.All(chance.Histogram.Zip(chance.Histogram.Skip(1)), pair => Assert.Equal(pair.First.To, pair.Second.From));
        Assert.InRange(chance.Beyond, 0, chance.Samples / 40);
        Assert.True(chance.Half.Low <= chance.Half.Value && chance.Half.Value <= chance.Half.High);
        Assert.Equal(Drawn.Time.Origin + Duration.FromMinutes(2000), chance.AsPlanned);
    }

    /// <summary>Quantile of the normal distribution, by bisection.</summary>
    private static double Quantile(double p)
    {
        double low = -8, high = 8;
        while (high - low > 1e-9)
            (low, high) = Reference.Phi((low + high) / 2) < p ? ((low + high) / 2, high) : (low, (low + high) / 2);
        return low;
    }

    private static Chance Read(int slot, params (StepKind Kind, double Minutes, double Spread)[] series)
    {
        var draft = new NetworkDraft();
        int[] last = [];
        foreach (var work in series)
            last = [draft.Work(work.Minutes, work.Spread, work.Kind, after: last)];
        return Read(draft.ReadyAfter(last), slot);
    }

    private static Chance Read(PlanNetwork network, int slot) =>
        new ChanceReader(network, Drawn.Time, Drawn.LabourAlone, new ChanceOptions { Samples = 50_000 }).Read(slot);
}
