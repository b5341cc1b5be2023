using NodaTime;
using Seamwright.Air;
using Seamwright.Units;

namespace Seamwright.Curing;

/// <summary>How fast cure work is done at a moment, relative to a law's reference climate (docs/formulas.md).</summary>
public static class CureRate
{
    /// <summary>Molar gas constant. [J/(mol·K), CODATA 2018]</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>Rate of a law for given conditions.</summary>
    /// <param name="law">The law.</param>
    /// <param name="panel">Panel temperature. [above 0 K]</param>
    /// <param name="vapour">Vapour pressure of the air. [≥ 0 Pa]</param>
    /// <param name="humidity">Relative humidity of the air. [0…1]</param>
    /// <returns>Rate. [1 at the reference climate, ≥ 0]</returns>
    /// <exception cref="OutsideValidityException">The law's own parameters are outside their range.</exception>
    public static double Rate(CureLaw law, Temperature panel, Pressure vapour, RelativeHumidity humidity) =>
        new RateKernel(law).Rate(panel.Kelvin, vapour.Pascals, humidity.Fraction);

    /// <summary>Rate of a law with the panel at air temperature.</summary>
    /// <exception cref="OutsideValidityException">Air or law are outside their range.</exception>
    public static double Rate(CureLaw law, AirState air) =>
        Rate(law, air.Temperature, MoistAir.VapourPressure(air), air.Humidity);

    /// <summary>Rate of a law on a panel at a moment.</summary>
    public static double Rate(CureLaw law, PanelClimate panel, Instant time) =>
        Rate(law, panel.TemperatureAt(time), panel.VapourPressureAt(time), panel.HumidityAt(time));
}

/// <summary>A law made ready for many evaluations: constants worked out, parameters checked once.</summary>
internal readonly struct RateKernel
{
    private enum Shape
    {
        Clock,
        TwoPart,
        Vapour,
        VapourAndTemperature,
        Drying,
        WaterborneDrying,
        Stepped,
    }

    private readonly Shape _shape;
    private readonly double _energyOverR;
    private readonly double _reciprocalReference;
    private readonly double _factor;
    private readonly double[] _thresholds;
    private readonly double[] _rates;

    /// <exception cref="OutsideValidityException">A parameter is outside its range.</exception>
    public RateKernel(CureLaw law)
    {
        ArgumentNullException.ThrowIfNull(law);
        _thresholds = [];
        _rates = [];
        _factor = 1;
        switch (law)
        {
            case CureLaw.TwoPart twoPart:
                _shape = Shape.TwoPart;
                _energyOverR = EnergyOverR(twoPart.ActivationEnergy);
                _reciprocalReference = Reciprocal(twoPart.Reference);
                break;
            case CureLaw.Moisture moisture:
                _energyOverR = EnergyOverR(moisture.PermeabilityEnergy);
                _shape = _energyOverR == 0 ? Shape.Vapour : Shape.VapourAndTemperature;
                _reciprocalReference = Reciprocal(moisture.Reference.Temperature);
                double reference = MoistAir.VapourPressure(moisture.Reference).Pascals;
                if (!(reference > 0))
                    throw new OutsideValidityException("Moisture cure", "reference air without water", "reference air above 0 % RH");
                _factor = 1 / reference;
                break;
            case CureLaw.Drying drying:
                _shape = drying.Waterborne ? Shape.WaterborneDrying : Shape.Drying;
                _energyOverR = EnergyOverR(drying.ActivationEnergy);
                _reciprocalReference = Reciprocal(drying.Reference.Temperature);
                double dryness = 1 - drying.Reference.Humidity.Fraction;
                if (drying.Waterborne && !(dryness > 0))
                    throw new OutsideValidityException("Water-borne drying", "saturated reference air", "reference air below 100 % RH");
                _factor = 1 / dryness;
                break;
            case CureLaw.Stepped stepped:
                _shape = Shape.Stepped;
                _thresholds = [.. stepped.Steps.Select(step => step.From.Kelvin)];
                _rates = [.. stepped.Steps.Select(step => step.Rate)];
                CheckSteps();
                break;
            case CureLaw.Clock:
                _shape = Shape.Clock;
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(law), law, "There is no such law.");
        }
    }

    /// <summary>Whether the rate is constant between thresholds of the panel temperature.</summary>
    public bool IsStepped => _shape == Shape.Stepped;

    /// <summary>Rate in a stretch of a track, s minutes after its start.</summary>
    public double Rate(in TrackPiece piece, double s) => _shape switch
    {
        Shape.Clock => 1,
        Shape.Vapour => _factor * piece.VapourPascals(s),
        Shape.VapourAndTemperature => _factor * piece.VapourPascals(s) * Arrhenius(piece.Panel.Value(s)),
        Shape.WaterborneDrying => _factor * (1 - piece.HumidityFraction(s)) * Arrhenius(piece.Panel.Value(s)),
        Shape.Stepped => StepRate(piece.Panel.Value(s)),
        _ => Arrhenius(piece.Panel.Value(s)),
    };

    public double Rate(double kelvin, double pascals, double humidity) => _shape switch
    {
        Shape.Clock => 1,
        Shape.Vapour => _factor * pascals,
        Shape.VapourAndTemperature => _factor * pascals * Arrhenius(kelvin),
        Shape.WaterborneDrying => _factor * Math.Max(0, 1 - humidity) * Arrhenius(kelvin),
        Shape.Stepped => StepRate(kelvin),
        _ => Arrhenius(kelvin),
    };

    /// <summary>How many thresholds the panel has reached.</summary>
    public int Step(double kelvin)
    {
        int step = 0;
        // Thresholds come from °C: a panel at exactly 15 °C must not miss its step by the last bit.
        while (step < _thresholds.Length && kelvin >= _thresholds[step] - 1e-9)
            step++;
        return step;
    }

    private double StepRate(double kelvin)
    {
        int step = Step(kelvin);
        return step == 0 ? 0 : _rates[step - 1];
    }

    private double Arrhenius(double kelvin) => Math.Exp(-_energyOverR * (1 / kelvin - _reciprocalReference));

    private void CheckSteps()
    {
        for (int i = 0; i < _rates.Length; i++)
        {
            bool ascending = i == 0 || (_thresholds[i] > _thresholds[i - 1] && _rates[i] >= _rates[i - 1]);
            if (!(ascending && _rates[i] >= 0 && double.IsFinite(_rates[i]) && _thresholds[i] > 0))
                throw new OutsideValidityException("Stepped cure law", "steps that do not ascend", "temperatures and rates ascending, rates ≥ 0");
        }
    }

    private static double EnergyOverR(MolarEnergy energy) =>
        energy.JoulesPerMole is >= 0 and <= 1e6
            ? energy.JoulesPerMole / CureRate.GasConstant
            : throw new OutsideValidityException("Arrhenius law", FormattableString.Invariant($"{energy.KilojoulesPerMole} kJ/mol"), "0…1000 kJ/mol");

    private static double Reciprocal(Temperature reference)
    {
        MoistAir.RequireWater(reference);
        return 1 / reference.Kelvin;
    }
}
