using CsCheck;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class LocalHeatCureTests
{
    private static readonly Instant Start = Local(2027, 1, 12, 9, 0);

    [Fact]   // the heated piece plus the base clock is the clock of the whole heated panel
    public void Heat_by_pieces_agrees_with_the_clock_of_the_heated_panel() =>
        Gen.Int[0, 1_000_000].Sample(seed =>
        {
            var random = new Random(seed);
            var shop = AnyShop.Draw(random);
            var law = AnyShop.DrawLaw(random);
            var end = shop.Start + Duration.FromDays(7);
            var needed = ReferenceTime.FromHours(30 * random.NextDouble());
            var applied = shop.Start + Duration.FromMinutes(random.Next(0, 2000));

            var pieces = LocalHeatCure.Finish(needed, applied, shop.Lamp(), shop.Car(), CureClock.For(law, shop.Car(), shop.Start, end));
            var whole = CureClock.For(law, shop.CarWithLamp(), shop.Start, end).Finish(applied, needed);

            // Two grids see bends at slightly different places: a second at most.
            return pieces is null ? whole is null || whole > end - Minutes(1) : Math.Abs((pieces.Value - whole!.Value).TotalMinutes) < 1 / 60.0;
        }, iter: 200);

    [Fact]
    public void A_hold_is_just_long_enough() =>
        Gen.Select(Gen.Double[0.2, 8], Gen.Double[45, 70], Gen.Double[5, 22], Gen.Int[0, 300]).Sample((hours, target, celsius, wait) =>
        {
            var panel = Constant(celsius, 40);
            var heat = new HeatProfile(Start + Minutes(wait), Temperature.FromCelsius(target), Minutes(10), Duration.Zero, Minutes(20));
            var needed = ReferenceTime.FromHours(hours);

            var hold = LocalHeatCure.HoldNeeded(TwoPart(55), needed, Start, heat, panel, Duration.Zero)!.Value;

            bool ReachedWith(Duration h, double allowed) => Finish(needed, heat with { Hold = h }, panel) <= heat.HoldStart + h + Minutes(allowed);
            return ReachedWith(hold, 0.001) && (hold == Duration.Zero || !ReachedWith(hold - LocalHeatCure.HoldStep, -0.001));
        }, iter: 200);

    [Fact]
    public void Work_done_before_the_lamp_shortens_the_hold()
    {
        var heat = new HeatProfile(Start + Minutes(180), Temperature.FromCelsius(60), Minutes(10), Duration.Zero, Minutes(20));
        var late = LocalHeatCure.HoldNeeded(TwoPart(55), ReferenceTime.FromHours(6), Start + Minutes(180), heat, Constant(21, 40), Duration.Zero);
        var early = LocalHeatCure.HoldNeeded(TwoPart(55), ReferenceTime.FromHours(6), Start, heat, Constant(21, 40), Duration.Zero);

        Assert.True(early < late);
    }

    [Fact]
    public void Dry_air_is_not_mended_by_a_lamp()
    {
        var heat = new HeatProfile(Start, Temperature.FromCelsius(60), Minutes(10), Duration.Zero, Minutes(20));

        Assert.Null(LocalHeatCure.HoldNeeded(Moisture(0), ReferenceTime.FromHours(24), Start, heat, Constant(20, 28), Duration.Zero));
    }

    [Fact]
    public void Material_applied_after_the_lamp_gains_nothing()
    {
        var heat = new HeatProfile(Start - Minutes(120), Temperature.FromCelsius(60), Minutes(10), Minutes(30), Minutes(20));

        Assert.Equal(
            Clock(Constant(20, 40)).Finish(Start, ReferenceTime.FromHours(1)), Finish(ReferenceTime.FromHours(1), heat, Constant(20, 40)));
    }

    private static Instant? Finish(ReferenceTime needed, HeatProfile heat, PanelClimate panel) =>
        LocalHeatCure.Finish(needed, Start, heat, panel, Clock(panel));

    private static CureClock Clock(PanelClimate panel) => CureClock.For(TwoPart(55), panel, Start, Start + Duration.FromDays(3));
}
