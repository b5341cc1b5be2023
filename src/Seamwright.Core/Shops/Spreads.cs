using System.Collections.Immutable;
using NodaTime;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Shops;

/// <summary>
/// How far the shop's figures scatter, for the question how likely a plan is kept (docs/formulas.md, "Uncertainty"). All defaults stand here; a
/// shop that has measured its own replaces them.
/// </summary>
public sealed record Spreads
{
    /// <summary>
    /// Labour defaults. Where the trade handbook gives low, middle and high minutes of an operation (assumed there, section 5.2), low to high is
    /// taken as four standard deviations of the logarithm over all cars, of which length, position and look, which the plan counts, explain half the
    /// variance: ln(high/low)/4/√2. The others are common practice, no source.
    /// </summary>
    private static readonly ImmutableDictionary<StepKind, double> UsualLabour = new Dictionary<StepKind, double>
    {
        [StepKind.RecordLook] = 0.32,       // 1…6 min
        [StepKind.Strip] = 0.32,            // 5…30 min a metre
        [StepKind.Abrade] = 0.28,           // 3…15 min a metre
        [StepKind.Prime] = 0.21,            // 12…40 min a session
        [StepKind.Seal] = 0.25,             // 2…8 min a metre
        [StepKind.Foam] = 0.32,             // 5…30 min a cavity
        [StepKind.Wax] = 0.28,              // 4…20 min a cavity
        [StepKind.StoneChip] = 0.23,        // 8…30 min a square metre
        [StepKind.FinalCheck] = 0.23,       // 8…30 min a car
        [StepKind.Operation] = 0.25,        // welds dressed: 6…25 min a metre
    }.ToImmutableDictionary();

    /// <summary>Labour of kinds that the handbook gives no range for. (common practice, no source)</summary>
    private const double OtherLabour = 0.25;

    /// <summary>The shop's own figures by kind of step, as standard deviation of the logarithm; kinds left out keep their default. [0…1]</summary>
    public ImmutableDictionary<StepKind, double> Labour { get; init; } = ImmutableDictionary<StepKind, double>.Empty;

    /// <summary>How far all labour on one car is off together: standard deviation of the logarithm. [0…1; 0.10, common practice, no source]</summary>
    public double WholeCar { get; init; } = 0.10;

    /// <summary>Constant error of the expected temperature. [≥ 0; 1 K, common practice, no source]</summary>
    public TemperatureDifference TemperatureOffset { get; init; } = TemperatureDifference.FromKelvins(1);

    /// <summary>Error of the expected temperature that comes and goes. [≥ 0; 1 K, common practice, no source]</summary>
    public TemperatureDifference TemperatureSwing { get; init; } = TemperatureDifference.FromKelvins(1);

    /// <summary>Constant error of the expected relative humidity. [0…1; 5 points, common practice, no source]</summary>
    public double HumidityOffset { get; init; } = 0.05;

    /// <summary>Error of the expected relative humidity that comes and goes. [0…1; 5 points, common practice, no source]</summary>
    public double HumiditySwing { get; init; } = 0.05;

    /// <summary>After this time an error that comes and goes is forgotten to 1/e. [&gt; 0; 3 h, common practice, no source]</summary>
    public Duration Correlation { get; init; } = Duration.FromHours(3);

    /// <summary>How far a material cures faster or slower than its sheet says, one factor a material: standard deviation of the logarithm. [0…1; 0.15, common practice, no source]</summary>
    public double CureSpeed { get; init; } = 0.15;

    /// <summary>
    /// How far a bead's depth is off, one factor a joint: standard deviation of the logarithm. [0…1; 0.10: the handbook's check of a look allows ± 20 % of
    /// its width, taken as two standard deviations]
    /// </summary>
    public double BeadDepth { get; init; } = 0.10;

    /// <summary>Work that has begun runs on so far into a break or past the end of a shift; what is left then waits for the next. [≥ 0; 15 min, common practice, no source]</summary>
    public Duration RunsOver { get; init; } = Duration.FromMinutes(15);

    /// <summary>How likely the shop wants its slot to be kept. [0…1; 0.80, common practice, no source]</summary>
    public double Wanted { get; init; } = 0.80;

    /// <summary>Nothing scatters: everything takes as long as planned.</summary>
    public static Spreads None { get; } = new()
    {
        Labour = Enum.GetValues<StepKind>().ToImmutableDictionary(kind => kind, _ => 0.0),
        WholeCar = 0,
        TemperatureOffset = default,
        TemperatureSwing = default,
        HumidityOffset = 0,
        HumiditySwing = 0,
        CureSpeed = 0,
        BeadDepth = 0,
    };

    /// <summary>Spread of the labour of a kind of step: standard deviation of the logarithm.</summary>
    public double LabourOf(StepKind kind) => Labour.TryGetValue(kind, out double own) ? own : UsualLabour.GetValueOrDefault(kind, OtherLabour);
}
