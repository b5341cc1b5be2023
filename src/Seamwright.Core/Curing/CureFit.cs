using System.Collections.Immutable;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>What came of fitting a milestone's sheet points.</summary>
public abstract record CureFitResult
{
    private CureFitResult()
    {
    }

    /// <summary>A law with its amount of work.</summary>
    /// <param name="Law">The law.</param>
    /// <param name="Needed">Work needed, in time at the law's reference.</param>
    /// <param name="Energy">Fitted or default energy (Ea, or Ep for moisture cure).</param>
    /// <param name="Evidence">Points, range, worst misfit, source.</param>
    /// <param name="RmsResidual">Root mean square of the relative misfits (predicted/stated − 1). [1]</param>
    public sealed record Fitted(CureLaw Law, ReferenceTime Needed, MolarEnergy Energy, MilestoneEvidence Evidence, double RmsResidual)
        : CureFitResult
    {
        /// <summary>Number of points.</summary>
        public int Count => Evidence.Points.Length;

        /// <summary>The fit as a milestone.</summary>
        public Milestone As(MilestoneKind kind) => new(kind, Law, Needed, Evidence);
    }

    /// <summary>The points cannot be used.</summary>
    /// <param name="Problem">Why.</param>
    public sealed record Refused(CureFitProblem Problem) : CureFitResult;
}

/// <summary>Why sheet points cannot be fitted. The text shown comes from resources by the kind.</summary>
/// <param name="Kind">What is wrong.</param>
/// <param name="PointIndex">Index of the point concerned, in the sheet's order; null where all are.</param>
/// <param name="FittedEnergy">The energy that the points would mean; null where there is none.</param>
/// <param name="WorstResidual">Worst relative misfit of a law with energy 0, which is the nearest that makes sense; 0 where not computed. [1]</param>
public sealed record CureFitProblem(
    CureFitProblemKind Kind, int? PointIndex = null, MolarEnergy? FittedEnergy = null, double WorstResidual = 0);

/// <summary>What is wrong with sheet points.</summary>
public enum CureFitProblemKind
{
    /// <summary>There is no point.</summary>
    NoPoints,

    /// <summary>A time is zero or negative.</summary>
    TimeNotPositive,

    /// <summary>A point's temperature or humidity is out of range, or without any water in the air where moisture cures.</summary>
    ClimateOutOfRange,

    /// <summary>Warmer points take longer: the energy would be negative. Two rows may be swapped, or the sheet's times are ranges.</summary>
    EnergyNegative,

    /// <summary>The energy would be above 200 kJ/mol, more than any cure that is known (docs/formulas.md): a unit or a digit is wrong.</summary>
    EnergyTooHigh,

    /// <summary>One temperature only, and no default energy is known for the class.</summary>
    NoEnergyKnown,
}

/// <summary>Fits a milestone's law to the lines of its sheet by least squares of ln(time) against 1/T (docs/formulas.md, "Fit").</summary>
public static class CureFit
{
    /// <summary>Sheets whose temperatures differ by less than this do not determine an energy. [1 K, common practice: sheets round to whole degrees]</summary>
    public static TemperatureDifference LeastSpread { get; } = TemperatureDifference.FromKelvins(1);

    /// <summary>Energies above this are refused. [200 kJ/mol; the highest published for a cure path here is 102.5]</summary>
    public static MolarEnergy HighestEnergy { get; } = MolarEnergy.FromKilojoulesPerMole(200);

    /// <summary>Two-part reaction: pot life, handling, strength.</summary>
    /// <param name="points">Sheet lines; humidity is not looked at.</param>
    /// <param name="reference">Tref of the law.</param>
    /// <param name="defaultEnergy">Ea where the points share one temperature; null = none is known.</param>
    /// <param name="source">Sheet, standard or <c>common practice</c>.</param>
    public static CureFitResult TwoPart(
        IEnumerable<SheetPoint> points, Temperature reference, MolarEnergy? defaultEnergy, string source)
    {
        MoistAir.RequireWater(reference);
        return Fit([.. points], reference, defaultEnergy, source, _ => 1, energy => new CureLaw.TwoPart(energy, reference));
    }

    /// <summary>A drying film. Water-borne points are first brought to the reference humidity by (1 − RH)/(1 − RHref).</summary>
    /// <param name="points">Sheet lines.</param>
    /// <param name="reference">Air at which the law's rate is 1; below 100 % where water-borne.</param>
    /// <param name="waterborne">Whether the film is water-borne.</param>
    /// <param name="defaultEnergy">Ea where the points share one temperature; null = none is known.</param>
    /// <param name="source">Sheet, standard or <c>common practice</c>.</param>
    public static CureFitResult Drying(
        IEnumerable<SheetPoint> points, AirState reference, bool waterborne, MolarEnergy? defaultEnergy, string source)
    {
        _ = MoistAir.VapourPressure(reference);
        double dryness = 1 - reference.Humidity.Fraction;
        return Fit(
            [.. points], reference.Temperature, defaultEnergy, source,
            air => waterborne ? (1 - air.Humidity.Fraction) / dryness : 1,
            energy => new CureLaw.Drying(energy, reference, waterborne));
    }

    /// <summary>
    /// Moisture cure. The vapour-pressure law is applied first; what remains is Ep, fitted only where the points span two temperatures,
    /// else taken as <paramref name="defaultEnergy"/>. The worst misfit says how well the points keep to the law.
    /// </summary>
    /// <param name="points">Sheet lines with their humidity.</param>
    /// <param name="reference">Air at which the law's rate is 1; above 0 %.</param>
    /// <param name="defaultEnergy">Ep where the points share one temperature.</param>
    /// <param name="source">Sheet, standard or <c>common practice</c>.</param>
    public static CureFitResult Moisture(IEnumerable<SheetPoint> points, AirState reference, MolarEnergy defaultEnergy, string source)
    {
        double referencePascals = MoistAir.VapourPressure(reference).Pascals;
        return Fit(
            [.. points], reference.Temperature, defaultEnergy, source,
            air => MoistAir.VapourPressure(air).Pascals / referencePascals,
            energy => new CureLaw.Moisture(energy, reference));
    }

    /// <param name="points">Sheet lines.</param>
    /// <param name="reference">Tref.</param>
    /// <param name="defaultEnergy">Energy where the points do not determine one.</param>
    /// <param name="source">Where the points come from.</param>
    /// <param name="humidityRate">The part of the rate that is known from the humidity.</param>
    /// <param name="law">The law for an energy.</param>
    private static CureFitResult Fit(
        ImmutableArray<SheetPoint> points, Temperature reference, MolarEnergy? defaultEnergy, string source,
        Func<AirState, double> humidityRate, Func<MolarEnergy, CureLaw> law)
    {
        if (points.IsEmpty)
            return new CureFitResult.Refused(new(CureFitProblemKind.NoPoints));

        // x = (1/T − 1/Tref)/R, y = ln(hours at the reference humidity): a straight line whose slope is the energy.
        var x = new double[points.Length];
        var y = new double[points.Length];
        for (int i = 0; i < points.Length; i++)
        {
            var air = points[i].Climate;
            if (!(points[i].Time.TotalHours > 0))
                return new CureFitResult.Refused(new(CureFitProblemKind.TimeNotPositive, i));
            if (air.Temperature.Celsius is not (>= MoistAir.ColdestCelsius and <= MoistAir.WarmestCelsius) || air.Humidity.Fraction is not (>= 0 and <= 1))
                return new CureFitResult.Refused(new(CureFitProblemKind.ClimateOutOfRange, i));
            double humidity = humidityRate(air);
            if (!(humidity > 0))
                return new CureFitResult.Refused(new(CureFitProblemKind.ClimateOutOfRange, i));

            x[i] = (1 / air.Temperature.Kelvin - 1 / reference.Kelvin) / CureRate.GasConstant;
            y[i] = Math.Log(points[i].Time.TotalHours * humidity);
        }

        var coldest = points.Min(point => point.Climate.Temperature);
        var warmest = points.Max(point => point.Climate.Temperature);
        bool determined = warmest - coldest >= LeastSpread;
        if (!determined && defaultEnergy is null)
            return new CureFitResult.Refused(new(CureFitProblemKind.NoEnergyKnown));

        double energy = determined ? Slope(x, y) : defaultEnergy!.Value.JoulesPerMole;

        // Two lines that agree with energy 0 exactly give ±1e-12 J/mol: that is 0, not a contradiction.
        if (energy < 0 && energy > -1)
            energy = 0;
        var fitted = MolarEnergy.FromKilojoulesPerMole(energy / 1e3);
        if (energy < 0)
            return new CureFitResult.Refused(new(CureFitProblemKind.EnergyNegative, null, fitted, Residuals(x, y, 0).Worst));
        if (fitted > HighestEnergy)
            return new CureFitResult.Refused(new(CureFitProblemKind.EnergyTooHigh, null, fitted));

        var (needed, worst, rms) = Residuals(x, y, energy);
        var evidence = new MilestoneEvidence(points, !determined, coldest, warmest, worst, source);
        return new CureFitResult.Fitted(law(fitted), ReferenceTime.FromHours(needed), fitted, evidence, rms);
    }

    private static double Slope(double[] x, double[] y)
    {
        double meanX = x.Average();
        double meanY = y.Average();
        double above = 0, below = 0;
        for (int i = 0; i < x.Length; i++)
        {
            above += (x[i] - meanX) * (y[i] - meanY);
            below += (x[i] - meanX) * (x[i] - meanX);
        }

        return above / below;
    }

    private static (double NeededHours, double Worst, double Rms) Residuals(double[] x, double[] y, double energy)
    {
        double intercept = y.Average() - energy * x.Average();
        double worst = 0, squares = 0;
        for (int i = 0; i < x.Length; i++)
        {
            // The misfit of a law that meets the points is rounding; shown as 0.
            double misfit = Math.Exp(intercept + energy * x[i] - y[i]) - 1;
            if (Math.Abs(misfit) < 1e-12)
                continue;
            worst = Math.Max(worst, Math.Abs(misfit));
            squares += misfit * misfit;
        }

        return (Math.Exp(intercept), worst, Math.Sqrt(squares / x.Length));
    }
}
