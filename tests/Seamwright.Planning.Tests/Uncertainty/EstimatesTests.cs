using Seamwright.Planning.Uncertainty;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>Percentiles and shares carry the error of sampling.</summary>
public sealed class EstimatesTests
{
    [Theory]      // R. G. Newcombe, Statist. Med. 17 (1998) 857, table I, score method without continuity correction; four decimals given.
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0.0000, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public void A_share_has_the_published_interval(long hits, long samples, double low, double high)
    {
        var share = Estimates.Share(hits, samples);

        Assert.Equal(low, share.Low, 4);
        Assert.Equal(high, share.High, 4);
        Assert.Equal(hits / (double)samples, share.Value);
    }

    [Theory]      // NIST/SEMATECH e-Handbook, 7.2.5.2 (P90); the median computed by its rule.
    [InlineData(0.90, 95.1981)]
    [InlineData(0.50, 95.1579)]
    public void A_percentile_follows_the_handbook(double p, double expected)
    {
        double[] gauge = [95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682];

        Assert.Equal(expected, Estimates.Percentile([.. gauge.Order()], p).Value, 4);
    }

    [Theory]      // Coverage Σ C(N,k) p^k (1−p)^(N−k) over the ranks, summed here term by term.
    [InlineData(1000, 0.90, 881, 919, 0.9549)]
    [InlineData(1000, 0.50, 469, 531, 0.9500)]
    public void The_interval_of_a_percentile_covers_it_as_often_as_it_says(int n, double p, int low, int high, double coverage)
    {
        Assert.Equal((low, high), Estimates.Ranks(n, p));

        double sum = 0, term = n * Math.Log(1 - p);
        for (int k = 0; k < high; k++)
        {
            sum += k >= low ? Math.Exp(term) : 0;
            term += Math.Log((double)(n - k) / (k + 1)) + Math.Log(p / (1 - p));
        }
        Assert.Equal(coverage, sum, 0.0005);
    }

    [Fact]
    public void A_percentile_beyond_the_plan_stays_beyond_it()
    {
        double[] half = [.. Enumerable.Repeat(100.0, 600), .. Enumerable.Repeat(double.PositiveInfinity, 400)];

        Assert.Equal(100, Estimates.Percentile(half, 0.5).Value);
        Assert.Equal(double.PositiveInfinity, Estimates.Percentile(half, 0.9).Value);
    }
}
