using System.Globalization;
using NodaTime;
using Seamwright.Air;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>The heating stays on day and night from now on.</summary>
public sealed record HeatingLeftOn : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-heating-on");

    /// <inheritdoc/>
    public override string Key => "heating on";

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var air = ShopAir.Of(input);
        return air.Heated(pattern => With(pattern, DayAndNight, pattern.SetPoint)) is { } heated ? Fits(heated) : Not(air.WhyNotHeated);
    }

    private static HeatingHours[] DayAndNight { get; } =
        [.. Enumerable.Range(1, 7).Select(day => new HeatingHours((IsoDayOfWeek)day, LocalTime.Midnight, LocalTime.Midnight))];

    internal static HeatingPattern With(HeatingPattern pattern, IEnumerable<HeatingHours> hours, Temperature setPoint) =>
        new(pattern.Zone, hours, setPoint, pattern.Floor, pattern.Fall, pattern.Rise);
}

/// <summary>The heating holds another temperature from now on.</summary>
/// <param name="SetPoint">The temperature. [−45…60 °C]</param>
public sealed record HeatingSetTo(Temperature SetPoint) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-set-point", SetPoint);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"set point {SetPoint.Kelvin:R} K");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input)
    {
        var air = ShopAir.Of(input);
        var heated = air.Core is ConstantClimate
            ? air.WithCore(new ConstantClimate(ShopAir.SameWater(air.Core.At(input.Repair.Now), SetPoint)))
            : air.Heated(pattern => HeatingLeftOn.With(pattern, pattern.Hours, SetPoint));
        return heated is null ? Not(air.WhyNotHeated) : Fits(heated);
    }
}

/// <summary>A humidifier never lets the air in the shop fall below a relative humidity, from now on.</summary>
/// <param name="Least">Relative humidity held. [0…1]</param>
public sealed record HumidityHeld(RelativeHumidity Least) : Supposition
{
    /// <inheritdoc/>
    public override Reason InWords => Reason.Of("suppose-humidity", Least);

    /// <inheritdoc/>
    public override string Key => string.Create(CultureInfo.InvariantCulture, $"humidity {Least.Fraction:R}");

    /// <inheritdoc/>
    public override Supposed Apply(RepairInput input) => Fits(ShopAir.Of(input).WithHumidity(Least));
}

/// <summary>
/// The shop's air taken apart: what was until now, what comes, and the humidifier over it. What was stays a fact, so coats that are already
/// drying dried in the air that was measured.
/// </summary>
internal sealed record ShopAir
{
    private ShopAir(RepairInput input, Climate before, Climate core, RelativeHumidity? humidity) =>
        (Input, Before, Core, Humidity) = (input, before, core, humidity);

    private RepairInput Input { get; }

    private Climate Before { get; }

    /// <summary>Air that comes, without humidifier and without easing.</summary>
    public Climate Core { get; }

    private RelativeHumidity? Humidity { get; }

    private Instant Now => Input.Repair.Now;

    /// <summary>Why the heating of this air cannot be supposed otherwise.</summary>
    public string WhyNotHeated => Core is LoggedClimate ? "suppose-air-is-log" : "suppose-air-not-heated";

    public static ShopAir Of(RepairInput input)
    {
        var (before, after) = input.Climate is SwitchedClimate joined && joined.Switched == input.Repair.Now
            ? (joined.Before, joined.After)
            : (input.Climate, input.Climate);
        RelativeHumidity? humidity = null;
        if (after is HumidifiedClimate humidified)
            (after, humidity) = (humidified.Inner, humidified.Least);
        if (after is EasedClimate eased)
            after = eased.Inner;
        return new ShopAir(input, before, after, humidity);
    }

    /// <summary>The repair with the heating changed from now on; null where the air has no heating that could be.</summary>
    public RepairInput? Heated(Func<HeatingPattern, HeatingPattern> change)
    {
        var air = Before.At(Now);
        return Core switch
        {
            HeatedDayClimate day => WithCore(new HeatedDayClimate(change(day.Pattern), Now, air)),
            ForecastClimate forecast => WithCore(new ForecastClimate(forecast.Outdoors, change(forecast.Pattern), Now, air.Temperature)),
            _ => null,
        };
    }

    public RepairInput WithCore(Climate core) => Joined(core, Humidity);

    public RepairInput WithHumidity(RelativeHumidity least) => Joined(Core, Humidity is { } held && held > least ? held : least);

    /// <summary>Air of another temperature that holds the same water; saturated where it cannot.</summary>
    public static AirState SameWater(AirState air, Temperature temperature)
    {
        double fraction = MoistAir.VapourPressure(air).Pascals / MoistAir.SaturationPressure(temperature).Pascals;
        return new AirState(temperature, RelativeHumidity.FromFraction(Math.Min(1, fraction)));
    }

    private RepairInput Joined(Climate core, RelativeHumidity? humidity)
    {
        // Steel does not jump with the thermostat: a panel that is taken to be as warm as the air follows it as the shop's cars do.
        var jump = core.At(Now).Temperature - Before.At(Now).Temperature;
        var after = jump == default || Input.Repair.Panel is not null ? core : new EasedClimate(core, Now, jump, Input.Shop.PanelTimeConstant);
        if (humidity is { } least)
            after = new HumidifiedClimate(after, least);
        return Input with { Climate = new SwitchedClimate(Before, Now, after) };
    }
}
