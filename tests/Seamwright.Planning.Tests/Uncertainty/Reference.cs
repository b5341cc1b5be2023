namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>Distributions by direct integration, independent of the sampler.</summary>
internal static class Reference
{
    /// <summary>Normal distribution function by its series (G. Marsaglia, J. Statist. Software 11 (2004) no. 4); to about 1e-15.</summary>
    public static double Phi(double x)
    {
        if (x < -8)
            return 0;
        if (x > 8)
            return 1;
        double sum = x, term = x, last = double.NaN;
        for (int i = 3; sum != last; i += 2)
        {
            last = sum;
            term *= x * x / i;
            sum += term;
        }
        return 0.5 + (sum * Math.Exp((-0.5 * x * x) - 0.91893853320467274178));
    }

    /// <summary>P(X ≤ t) of a lognormal.</summary>
    public static double Lognormal(double t, double median, double spread) => t <= 0 ? 0 : Phi(Math.Log(t / median) / spread);

    /// <summary>P(X₁ + X₂ + X₃ ≤ t) of independent lognormals: the third in closed form, the others by the trapezium rule over z = −8…8.</summary>
    public static double SumOfThree(double t, (double Median, double Spread) a, (double Median, double Spread) b, (double Median, double Spread) c)
    {
        const int steps = 400;
        const double width = 16.0 / steps;
        double sum = 0;
        for (int i = 0; i <= steps; i++)
        {
            double z = -8 + (i * width), first = a.Median * Math.Exp(a.Spread * z);
            double inner = 0;
            for (int j = 0; j <= steps; j++)
            {
                double y = -8 + (j * width);
                inner += Density(y) * Lognormal(t - first - (b.Median * Math.Exp(b.Spread * y)), c.Median, c.Spread);
            }
            sum += Density(z) * inner;
        }
        return sum * width * width;
    }

    /// <summary>Median and spread of the lognormal with a mean and a variance: σ² = ln(1 + v/m²), median = m·exp(−σ²/2).</summary>
    public static (double Median, double Spread) LognormalOf(double mean, double variance)
    {
        double square = Math.Log(1 + (variance / (mean * mean)));
        return (mean * Math.Exp(-square / 2), Math.Sqrt(square));
    }

    private static double Density(double z) => Math.Exp(-0.5 * z * z) / Math.Sqrt(Math.Tau);
}
