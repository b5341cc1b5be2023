using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Seamwright.Curing;
using Seamwright.Planning.Mapping;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// What an hour of cure counts when air and panel are warmer or damper than expected, as a multiple of the expected work (docs/formulas.md, "Uncertainty").
/// Conditions of the middle of the hour stand for the hour.
/// </summary>
internal sealed class LawResponse
{
    /// <summary>Least humidity, and least drying force, that errors may lead to. [1]</summary>
    private const double Least = 0.02;

    /// <summary>Coefficients of the Magnus form (docs/formulas.md, F3).</summary>
    private const double MagnusB = 17.62;
    private const double MagnusC = 243.12;

    private readonly CellAir[] _air;
    private readonly double _energyOverR;
    private readonly bool _vapour;
    private readonly bool _dries;
    private readonly SteppedHours? _stepped;

    public LawResponse(CureLaw law, CellAir[] air, Cures cures, PlanTime time)
    {
        _air = air;
        switch (law)
        {
            case CureLaw.TwoPart twoPart:
                _energyOverR = twoPart.ActivationEnergy.JoulesPerMole / CureRate.GasConstant;
                break;
            case CureLaw.Moisture moisture:
                _energyOverR = moisture.PermeabilityEnergy.JoulesPerMole / CureRate.GasConstant;
                _vapour = true;
                break;
            case CureLaw.Drying drying:
                _energyOverR = drying.ActivationEnergy.JoulesPerMole / CureRate.GasConstant;
                _dries = drying.Waterborne;
                break;
            case CureLaw.Stepped stepped:
                _stepped = new SteppedHours(stepped, air, cures, time);
                break;
        }
    }

    /// <summary>Fills the answers of one cell.</summary>
    /// <param name="cell">Cell.</param>
    /// <param name="warmer">Error of the air's temperature, one a lane. [K]</param>
    /// <param name="panel">Error of the panel's temperature, one a lane. [K]</param>
    /// <param name="damper">Error of the relative humidity, one a lane. [1]</param>
    /// <param name="into">Multiple of the expected work, or below zero the rate itself; one a lane.</param>
    public void Fill(int cell, ReadOnlySpan<double> warmer, ReadOnlySpan<double> panel, ReadOnlySpan<double> damper, Span<double> into)
    {
        if (_stepped is not null)
        {
            for (int lane = 0; lane < into.Length; lane++)
                into[lane] = _stepped.Answer(cell, panel[lane]);
            return;
        }

        var air = _air[cell];
        ref double t = ref MemoryMarshal.GetReference(warmer);
        ref double p = ref MemoryMarshal.GetReference(panel);
        ref double h = ref MemoryMarshal.GetReference(damper);
        ref double to = ref MemoryMarshal.GetReference(into);
        double celsius = air.Air - 273.15 + MagnusC;
        var least = Vector256.Create(Least);
        for (nuint i = 0; i < (nuint)into.Length; i += (nuint)Vector256<double>.Count)
        {
            var warm = Vector256.LoadUnsafe(ref t, i);
            var metal = Vector256.LoadUnsafe(ref p, i);
            var answer = Vector256<double>.One;
            var exponent = Vector256<double>.Zero;
            if (_energyOverR != 0)
                exponent = _energyOverR * metal / (air.Panel * (Vector256.Create(air.Panel) + metal));
            if (_vapour)
                exponent += MagnusB * MagnusC * warm / (celsius * (Vector256.Create(celsius) + warm));
            if (_energyOverR != 0 || _vapour)
                answer = Vector256.Exp(exponent);
            if (_vapour || _dries)
            {
                var humidity = Vector256.Min(Vector256<double>.One, Vector256.Max(least, Vector256.Create(air.Humidity) + Vector256.LoadUnsafe(ref h, i)));
                var expected = Math.Max(Least, air.Humidity);
                answer *= _vapour
                    ? humidity / expected
                    : Vector256.Max(least, Vector256<double>.One - humidity) / Math.Max(Least, 1 - expected);
            }
            answer.StoreUnsafe(ref to, i);
        }
    }

    /// <summary>Work of a stepped law in each cell, over the error of the panel's temperature: a table, as a step may begin to count or no longer count.</summary>
    private sealed class SteppedHours
    {
        private const int Reach = 10;
        private const int PerKelvin = 8;
        private const int Looks = 12;

        private readonly double[][] _rates;      // [cell][error] mean rate

        public SteppedHours(CureLaw.Stepped law, CellAir[] air, Cures cures, PlanTime time)
        {
            _rates = new double[air.Length][];
            for (int cell = 0; cell < air.Length; cell++)
            {
                _rates[cell] = new double[(2 * Reach * PerKelvin) + 1];
                for (int look = 0; look < Looks; look++)
                {
                    double minute = air[cell].Middle + (CureGrid.CellMinutes * (((look + 0.5) / Looks) - 0.5));
                    double kelvin = cures.Panel.TemperatureAt(time.Origin + NodaTime.Duration.FromMinutes(minute)).Kelvin;
                    for (int i = 0; i < _rates[cell].Length; i++)
                        _rates[cell][i] += Rate(law, kelvin + ((i / (double)PerKelvin) - Reach)) / Looks;
                }
            }
        }

        public double Answer(int cell, double warmer)
        {
            double[] rates = _rates[cell];
            double place = Math.Clamp((warmer + Reach) * PerKelvin, 0, rates.Length - 1);
            int below = Math.Min((int)place, rates.Length - 2);
            double rate = rates[below] + ((rates[below + 1] - rates[below]) * (place - below));
            double expected = rates[Reach * PerKelvin];
            return warmer == 0 ? 1 : expected > 0 ? rate / expected : rate > 0 ? -rate : 0;
        }

        private static double Rate(CureLaw.Stepped law, double kelvin)
        {
            double rate = 0;
            foreach (var step in law.Steps)
            {
                if (kelvin >= step.From.Kelvin - 1e-9)
                    rate = step.Rate;
            }
            return rate;
        }
    }
}
