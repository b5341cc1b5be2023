using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

/// <summary>Times that an expert works out for invented repairs; sheet times at 23 °C and 50 %.</summary>
public class ScenarioTests
{
    private static readonly Instant Evening = Local(2027, 1, 12, 15, 10);      // 20 °C, 28 %
    private static readonly Instant Friday = Local(2026, 11, 6, 16, 45);       // 17 °C, 42 %, heating off 18:00

    [Fact]
    public void Winter_air_of_20_degrees_and_28_percent_cures_at_0_466() =>
        Assert.Equal(0.466, CureRate.Rate(Moisture(0), AirOf(20, 28)), 0.0005);

    [Theory]
    [InlineData(45, 97)]      // sprayable sealer, ready for paint
    [InlineData(30, 64)]      // gun-grade sealer, ready for paint
    public void Moisture_cure_minutes_stretch_in_winter_air(double sheet, double expected) =>
        Assert.Equal(expected, Takes(Moisture(0), sheet, 20, 28), 0.5);

    [Theory]
    [InlineData(30, 60, 20, 68)]      // epoxy primer: sprayed 14:30, ready 15:38
    [InlineData(55, 60, 20, 75)]      // self-levelling epoxy
    [InlineData(50, 30, 20, 37)]      // fast polyurethane
    [InlineData(50, 30, 21, 34)]
    [InlineData(30, 60, 21, 65)]
    [InlineData(55, 240, 21, 279.6)]  // clamps: 4.66 h
    [InlineData(55, 240, 18, 352.2)]  // clamps: 5.87 h
    [InlineData(55, 90, 18, 132)]
    [InlineData(30, 60, 18, 74)]
    [InlineData(30, 60, 22, 63)]
    public void Two_part_and_drying_minutes_stretch_in_the_cold(double energy, double sheet, double celsius, double expected) =>
        Assert.Equal(expected, Takes(TwoPart(energy), sheet, celsius, 40), 0.7);

    [Fact]
    public void Latest_application_before_an_evening_slot_is_16_23()
    {
        var clock = CureClock.For(Moisture(0), Constant(20, 28), Evening, Evening + Duration.FromHours(12));

        var latest = clock.LatestStart(Local(2027, 1, 12, 18, 0), ReferenceTime.FromMinutes(45));

        Assert.Equal(Local(2027, 1, 12, 16, 23), latest!.Value, Within(Minutes(1)));
    }

    [Fact]   // 0.579 all night: 8.1 reference hours by 07:00, paint-ready about 03:20
    public void A_cold_night_slows_moisture_cure_only_by_its_vapour_pressure()
    {
        var clock = CureClock.For(Moisture(0), PanelClimate.FollowingAir(Night()), Friday, Friday + Duration.FromDays(4));
        var applied = Local(2026, 11, 6, 17, 0);

        Assert.Equal(8.1, clock.Progress(applied, Local(2026, 11, 7, 7, 0)).Hours, 0.05);
        Assert.Equal(Local(2026, 11, 7, 3, 20), clock.Finish(applied, ReferenceTime.FromHours(6))!.Value, Within(Minutes(4)));
    }

    [Fact]   // 4 mm needs 42.7 reference hours = 74 h; by Monday 07:30 it is 36.2 h and 3.7 mm
    public void A_deep_root_is_not_through_after_the_weekend()
    {
        var bead = new DepthCure(Length.FromMillimetres(3), Moisture(0));
        var clock = CureClock.For(bead.Law, PanelClimate.FollowingAir(Night()), Friday, Friday + Duration.FromDays(7));
        var applied = Local(2026, 11, 6, 17, 0);
        var needed = bead.Needed(Length.FromMillimetres(4));

        Assert.Equal(42.7, needed.Hours, 0.05);
        Assert.Equal(74, (clock.Finish(applied, needed)!.Value - applied).TotalHours, 0.5);
        var byMonday = clock.Progress(applied, Local(2026, 11, 9, 7, 30));
        Assert.Equal(36.2, byMonday.Hours, 0.1);
        Assert.Equal(3.7, bead.Depth(byMonday).Millimetres, 0.05);
    }

    [Fact]   // applied 17:15 it is paintable 19:45 if the panel is taken at the falling air temperature
    public void Epoxy_on_a_panel_at_falling_air_is_paintable_at_19_45()
    {
        var clock = CureClock.For(TwoPart(55), PanelClimate.FollowingAir(Night()), Friday, Friday + Duration.FromDays(1));

        var ready = clock.Finish(Local(2026, 11, 6, 17, 15), ReferenceTime.FromMinutes(90))!.Value;

        Assert.Equal(Local(2026, 11, 6, 19, 45), ready, Within(Minutes(2)));
    }

    [Fact]   // and about 17:40 while a lamp holds 45 °C; 4.7 times as fast as at 23 °C, 7.4 times as at 17 °C
    public void Epoxy_under_a_lamp_is_paintable_before_18_00()
    {
        var cold = PanelClimate.FromReading(Night(), Friday, Temperature.FromCelsius(11));
        var heat = new HeatProfile(Local(2026, 11, 6, 16, 55), Temperature.FromCelsius(45), Minutes(7), Minutes(60), Minutes(20));
        var applied = Local(2026, 11, 6, 17, 15);
        var clock = CureClock.For(TwoPart(55), cold, Friday, Friday + Duration.FromDays(1));

        var ready = LocalHeatCure.Finish(ReferenceTime.FromMinutes(90), applied, heat, cold, clock)!.Value;

        Assert.Equal(applied + Minutes(90 / 4.7), ready, Within(Minutes(0.2)));
        Assert.Equal(4.7, CureRate.Rate(TwoPart(55), AirOf(45, 10)), 0.05);
        Assert.Equal(7.4, CureRate.Rate(TwoPart(55), AirOf(45, 10)) / CureRate.Rate(TwoPart(55), AirOf(17, 42)), 0.05);
    }

    [Fact]   // adhesive at 60 °C: 4 h become 20 min, the sheet asks for 30
    public void A_bond_under_a_lamp_is_held_for_the_sheets_least_time()
    {
        var panel = Constant(21, 38);
        var closed = Local(2027, 3, 3, 9, 20);
        var heat = new HeatProfile(Local(2027, 3, 3, 9, 25), Temperature.FromCelsius(60), Minutes(10), Duration.Zero, Minutes(20));

        Assert.Equal(Minutes(30), LocalHeatCure.HoldNeeded(TwoPart(55), ReferenceTime.FromHours(4), closed, heat, panel, Minutes(30)));
        Assert.Equal(Minutes(20), LocalHeatCure.HoldNeeded(TwoPart(55), ReferenceTime.FromHours(4), closed, heat, panel, Duration.Zero));
    }

    private static double Takes(CureLaw law, double sheetMinutes, double celsius, double percent)
    {
        var clock = CureClock.For(law, Constant(celsius, percent), Evening, Evening + Duration.FromDays(2));
        return (clock.Finish(Evening, ReferenceTime.FromMinutes(sheetMinutes))!.Value - Evening).TotalMinutes;
    }

    private static HeatedDayClimate Night() => new(
        new HeatingPattern(
            Berlin, HeatingPattern.Weekdays(new LocalTime(6, 0), new LocalTime(18, 0)), Temperature.FromCelsius(17),
            Temperature.FromCelsius(10), Duration.FromHours(6), Duration.Zero),
        Friday, AirOf(17, 42));

    private static NearInTime Within(Duration allowed) => new(allowed);

    private sealed class NearInTime(Duration allowed) : IEqualityComparer<Instant>
    {
        public bool Equals(Instant x, Instant y) => (x > y ? x - y : y - x) <= allowed;

        public int GetHashCode(Instant obj) => 0;
    }
}
