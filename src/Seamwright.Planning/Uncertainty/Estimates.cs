namespace Seamwright.Planning.Uncertainty;

/// <summary>A number estimated from samples, with the 95 % interval of the sampling error.</summary>
/// <param name="Value">Estimate.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Estimate(double Value, double Low, double High);

/// <summary>Shares and percentiles of independent samples, with their sampling error (docs/formulas.md, "Uncertainty").</summary>
public static class Estimates
{
    /// <summary>Two-sided 95 % point of the normal distribution.</summary>
    private const double Z = 1.959963984540054;

    /// <summary>A share with its 95 % score interval.</summary>
    /// <param name="hits">Samples that count. [0…<paramref name="samples"/>]</param>
    /// <param name="samples">All samples. [≥ 1]</param>
    /// <remarks>E. B. Wilson, J. Amer. Statist. Assoc. 22 (1927) 209; held against R. G. Newcombe, Statist. Med. 17 (1998) 857, table I.</remarks>
    public static Estimate Share(long hits, long samples)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(hits, samples);
        double p = (double)hits / samples;
        double z2 = Z * Z / samples;
        double centre = (p + (z2 / 2)) / (1 + z2);
        double reach = Z / (1 + z2) * Math.Sqrt((p * (1 - p) / samples) + (z2 / (4 * samples)));

        // At the ends the interval touches 0 or 1 exactly; rounding must not leave it a hair inside.
        return new Estimate(p, hits == 0 ? 0 : centre - reach, hits == samples ? 1 : centre + reach);
    }

    /// <summary>A percentile with its distribution-free 95 % interval.</summary>
    /// <param name="ascending">Samples, ascending; +∞ allowed. At least one.</param>
    /// <param name="p">Share below. [0…1]</param>
    /// <remarks>Value: r = p (N + 1) between neighbours (NIST/SEMATECH e-Handbook, 7.2.5.2). Interval: the samples at ranks N p ± 1.96 √(N p (1 − p)), outwards.</remarks>
    public static Estimate Percentile(ReadOnlySpan<double> ascending, double p)
    {
        int n = ascending.Length;
        ArgumentOutOfRangeException.ThrowIfLessThan(n, 1);
        double rank = p * (n + 1);
        int k = (int)Math.Floor(rank);
        double value = k < 1 ? ascending[0] : k >= n ? ascending[n - 1] : Between(ascending[k - 1], ascending[k], rank - k);
        var (low, high) = Ranks(n, p);
        return new Estimate(value, ascending[low - 1], ascending[high - 1]);
    }

    /// <summary>Ranks of the interval of a percentile, from 1.</summary>
    public static (int Low, int High) Ranks(int n, double p)
    {
        double reach = Z * Math.Sqrt(n * p * (1 - p));
        return (Math.Clamp((int)Math.Floor((n * p) - reach), 1, n), Math.Clamp((int)Math.Ceiling((n * p) + reach), 1, n));
    }

    private static double Between(double a, double b, double share) => share == 0 || a == b ? a : a + ((b - a) * share);
}
