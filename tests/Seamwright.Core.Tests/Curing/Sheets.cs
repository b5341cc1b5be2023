using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;

namespace Seamwright.CuringTests;

/// <summary>Short ways to write laws and air in tests.</summary>
internal static class Sheets
{
    public static readonly DateTimeZone Berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];

    public static CureLaw.TwoPart TwoPart(double kilojoules, double referenceCelsius = 23) =>
        new(MolarEnergy.FromKilojoulesPerMole(kilojoules), Temperature.FromCelsius(referenceCelsius));

    public static CureLaw.Moisture Moisture(double kilojoules) => new(MolarEnergy.FromKilojoulesPerMole(kilojoules), AirState.Standard);

    public static CureLaw.Drying Film(double kilojoules = 30, bool waterborne = false) =>
        new(MolarEnergy.FromKilojoulesPerMole(kilojoules), AirState.Standard, waterborne);

    public static AirState AirOf(double celsius, double percent) =>
        new(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(percent));

    public static SheetPoint Point(double celsius, double minutes, double percent = 50) => new(AirOf(celsius, percent), Duration.FromMinutes(minutes));

    public static Instant Local(int year, int month, int day, int hour, int minute) =>
        Berlin.AtStrictly(new LocalDateTime(year, month, day, hour, minute)).ToInstant();

    public static PanelClimate Constant(double celsius, double percent) => PanelClimate.FollowingAir(new ConstantClimate(AirOf(celsius, percent)));

    public static Duration Minutes(double minutes) => Duration.FromMinutes(minutes);
}
