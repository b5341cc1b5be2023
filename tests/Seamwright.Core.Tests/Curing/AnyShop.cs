using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;

namespace Seamwright.CuringTests;

/// <summary>
/// A shop drawn at random, as numbers: heated hours, set-back night, a cold car, a lamp. It can be built as the program builds it, and be
/// stepped second by second without any of the program's integrators.
/// </summary>
internal sealed record AnyShop(
    double SetPoint, double Floor, double Percent, double FallHours, double RiseHours, int OnHour, int OffHour, double CarCelsius,
    double CarHours, double LampStartMinute, double LampTarget, double LampRamp, double LampHold, double LampCooling, Instant Start)
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    /// <summary>A shop from a seed. Half of the starts lie in the weeks of the clock changes.</summary>
    public static AnyShop Draw(Random random)
    {
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        Instant[] starts =
        [
            Instant.FromUtc(2027, 3, 26, 7, 0), Instant.FromUtc(2027, 10, 29, 7, 0), Instant.FromUtc(2027, 1, 12, 14, 10),
            Instant.FromUtc(2026, 11, 6, 15, 45),
        ];
        int on = random.Next(4, 9);
        return new(
            Between(16, 23), Between(5, 12), Between(20, 55), Between(2, 12), random.Next(2) == 0 ? 0 : Between(0.3, 2), on,
            random.Next(on + 6, 21), Between(-5, 15), Between(1, 5), Between(0, 1500), Between(45, 65), Between(5, 15), Between(10, 60),
            Between(10, 30), starts[random.Next(4)] + Duration.FromMinutes(random.Next(0, 300)));
    }

    /// <summary>Any law.</summary>
    public static CureLaw DrawLaw(Random random) => random.Next(6) switch
    {
        0 => Sheets.TwoPart(30 + 30 * random.NextDouble()),
        1 => Sheets.TwoPart(55),
        2 => Sheets.Moisture(0),
        3 => Sheets.Moisture(20),
        4 => Sheets.Film(30, waterborne: true),
        _ => new CureLaw.Stepped(ImmutableArray.Create(
            new RateStep(Temperature.FromCelsius(15.6), 1), new RateStep(Temperature.FromCelsius(38), 48))),
    };

    public Climate Air() => new HeatedDayClimate(
        new HeatingPattern(
            Zone, HeatingPattern.Weekdays(new LocalTime(OnHour, 0), new LocalTime(OffHour, 0)), Temperature.FromCelsius(SetPoint),
            Temperature.FromCelsius(Floor), Duration.FromHours(FallHours), Duration.FromHours(RiseHours)),
        Start, Sheets.AirOf(SetPoint, Percent));

    public HeatProfile Lamp() => new(
        Start + Duration.FromMinutes(LampStartMinute), Temperature.FromCelsius(LampTarget), Duration.FromMinutes(LampRamp),
        Duration.FromMinutes(LampHold), Duration.FromMinutes(LampCooling));

    public PanelClimate Car() => PanelClimate.FromReading(Air(), Start, Temperature.FromCelsius(CarCelsius), Duration.FromHours(CarHours));

    public PanelClimate CarWithLamp() => PanelClimate.Heated(Car(), Lamp());

    /// <summary>Reference hours done by each second, stepped second by second from the numbers alone.</summary>
    public double[] SlowWork(CureLaw law, int minutes)
    {
        double vapour = MoistAir.VapourPressure(Sheets.AirOf(SetPoint, Percent)).Pascals;
        bool heated = false;
        double air = SetPoint, car = CarCelsius;
        double fall = 1 - Math.Exp(-1 / (FallHours * 3600));
        double rise = RiseHours == 0 ? 1 : 1 - Math.Exp(-1 / (RiseHours * 3600));
        double lag = 1 - Math.Exp(-1 / (CarHours * 3600));

        // The panel without a lamp is stepped first: the way back from the lamp ends at its temperature.
        var airs = new double[minutes * 60];
        var cars = new double[minutes * 60];
        for (int s = 0; s < airs.Length; s++)
        {
            if (s % 60 == 0)
                heated = IsHeated(Start + Duration.FromSeconds(s));
            double before = air;
            air += heated ? (SetPoint - air) * rise : (Floor - air) * fall;
            double middle = (before + air) / 2;
            double carBefore = car;
            car += (middle - car) * lag;
            (airs[s], cars[s]) = (middle, (carBefore + car) / 2);
        }

        double lampOn = LampStartMinute * 60, hot = lampOn + LampRamp * 60, off = hot + LampHold * 60, back = off + LampCooling * 60;
        double CarAt(double second) => cars[Math.Clamp((int)second, 0, cars.Length - 1)];
        double PanelAt(int second)
        {
            double s = second + 0.5;
            if (s < lampOn || s >= back)
                return cars[second];
            if (s < hot)
                return CarAt(lampOn) + (LampTarget - CarAt(lampOn)) * (s - lampOn) / (hot - lampOn);
            return s < off ? LampTarget : LampTarget + (CarAt(back) - LampTarget) * (s - off) / (back - off);
        }

        var work = new double[airs.Length + 1];
        double done = 0;
        for (int s = 0; s < airs.Length; s++)
        {
            double saturation = MoistAir.SaturationPressure(Temperature.FromCelsius(airs[s])).Pascals;
            done += CureRate.Rate(
                law, Temperature.FromCelsius(PanelAt(s)), Pressure.FromPascals(Math.Min(vapour, saturation)),
                RelativeHumidity.FromFraction(Math.Min(1, vapour / saturation))) / 3600;
            work[s + 1] = done;
        }

        return work;
    }

    private bool IsHeated(Instant time)
    {
        var local = time.InZone(Zone).LocalDateTime;
        return local.DayOfWeek is >= IsoDayOfWeek.Monday and <= IsoDayOfWeek.Friday && local.Hour >= OnHour && local.Hour < OffHour;
    }
}
