using System.Collections.Immutable;
using CsCheck;
using NodaTime;
using Seamwright.Air;
using Seamwright.AirTests;
using Seamwright.Curing;
using Seamwright.Units;
using Xunit;
using static Seamwright.CuringTests.Sheets;

namespace Seamwright.CuringTests;

public class CureClockTests
{
    private static readonly Duration Week = Duration.FromDays(7);

    /// <summary>A shop, a law and two numbers 0…1, all from one seed so that a failing case can be run again.</summary>
    private static readonly Gen<(AnyShop Shop, CureLaw Law, double A, double B)> Cases = Gen.Int[0, 1_000_000].Select(seed =>
    {
        var random = new Random(seed);
        return (AnyShop.Draw(random), AnyShop.DrawLaw(random), random.NextDouble(), random.NextDouble());
    });

    [Fact]   // the planner relies on finish being the inverse of progress
    public void Finish_inverts_progress() =>
        Cases.Sample((shop, law, a, b) =>
        {
            var clock = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Week);
            double start = a * 7 * 1440;
            double needed = b * clock.ProgressHours(start, 7 * 1440);
            double finish = clock.FinishMinutes(start, needed);

            return finish >= start && Math.Abs(clock.ProgressHours(start, finish) - needed) < 1e-9;
        }, iter: 400);

    [Fact]
    public void Latest_start_and_finish_agree() =>
        Cases.Sample((shop, law, a, b) =>
        {
            var clock = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Week);
            double finish = a * 7 * 1440;
            double needed = b * clock.ProgressHours(0, finish);
            double start = clock.LatestStartMinutes(finish, needed);

            // Starting then is in time; the work between is what is needed.
            return start <= finish
                && Math.Abs(clock.ProgressHours(start, finish) - needed) < 1e-9
                && clock.FinishMinutes(start, Math.Max(0, needed - 1e-9)) <= finish + 1e-6;
        }, iter: 400);

    [Fact]
    public void A_later_start_never_finishes_earlier() =>
        Cases.Sample((shop, law, a, b) =>
        {
            var clock = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Week);
            double last = double.NegativeInfinity;
            for (double start = 0; start < 7 * 1440; start += 1 + 37 * a)
            {
                double finish = clock.FinishMinutes(start, 30 * b);
                if (finish < last - 1e-6)
                    return false;
                last = finish;
            }

            return true;
        }, iter: 100);

    [Fact]
    public void Cure_never_runs_backwards() =>
        Cases.Sample((shop, law, a, _) =>
        {
            var clock = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Week);
            double last = 0;
            for (double minute = 0; minute <= 7 * 1440; minute += 0.3 + a)
            {
                double done = clock.ProgressHours(0, minute);
                if (done < last - 1e-12)
                    return false;
                last = done;
            }

            return true;
        }, iter: 40);

    [Fact]   // set-back nights, weekend, clock changes, a cold car and a lamp, against a model that steps seconds
    public void Look_ups_agree_with_a_second_by_second_model_within_a_minute()
    {
        double worst = 0;
        foreach (int seed in Enumerable.Range(1, 12))
        {
            var random = new Random(seed);
            var shop = AnyShop.Draw(random);
            var law = AnyShop.DrawLaw(random);
            const int Minutes = 3 * 1440;
            var slow = shop.SlowWork(law, Minutes);      // by the second
            var clock = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Duration.FromMinutes(Minutes));
            for (int i = 0; i < 200; i++)
            {
                int start = random.Next(0, Minutes - 60);
                double needed = random.NextDouble() * random.NextDouble() * (slow[^1] - slow[start * 60]);
                double wanted = slow[start * 60] + needed;
                int finish = Array.BinarySearch(slow, wanted);
                finish = finish < 0 ? ~finish : finish;
                double gain = slow[finish] - slow[finish - 1];
                if (finish <= start * 60 || gain < 1e-7)
                    continue;       // within a stretch where nothing cures the moment is not defined
                double exact = (finish - (slow[finish] - wanted) / gain) / 60;
                worst = Math.Max(worst, Math.Abs(clock.FinishMinutes(start, needed) - exact));
            }
        }

        Assert.InRange(worst, 0, 1);
        TestContext.Current.SendDiagnosticMessage($"Worst difference: {worst:0.0000} min");
    }

    [Fact]   // docs/formulas.md, "Cure clock": 0.2 s measured; the direct sum by half seconds is good to less
    public void Look_ups_agree_with_direct_integration_within_a_second()
    {
        double worst = 0;
        CureLaw[] laws = [TwoPart(30), TwoPart(60), Moisture(0), Moisture(20), Film(30, waterborne: true)];
        foreach (int seed in Enumerable.Range(1, 5))
        {
            var random = new Random(seed);
            var shop = AnyShop.Draw(random);
            var law = laws[seed - 1];
            var panel = shop.CarWithLamp();
            const int Seconds = 86_400 + 7200;
            var direct = new double[Seconds + 1];
            for (int s = 0; s < Seconds; s++)
                direct[s + 1] = direct[s] + CureRate.Rate(law, panel, shop.Start + Duration.FromMilliseconds(1000L * s + 500)) / 3600;

            var clock = CureClock.For(law, panel, shop.Start, shop.Start + Duration.FromSeconds(Seconds));
            for (int i = 0; i < 2000; i++)
            {
                int start = random.Next(0, Seconds - 3600);
                double wanted = direct[start] + random.NextDouble() * random.NextDouble() * (direct[^1] - direct[start]);
                int finish = Array.BinarySearch(direct, wanted);
                finish = finish < 0 ? ~finish : finish;
                if (finish <= start)
                    continue;
                double exact = finish - (direct[finish] - wanted) / (direct[finish] - direct[finish - 1]);
                worst = Math.Max(worst, Math.Abs(60 * clock.FinishMinutes(start / 60.0, wanted - direct[start]) - exact));
            }
        }

        Assert.InRange(worst, 0, 1);
    }

    [Fact]   // a panel at −5 °C brought to 65 °C in five minutes: uncut, the five-minute interval was 161 s off
    public void A_steep_lamp_ramp_is_looked_up_within_a_second()
    {
        var start = Local(2027, 1, 12, 9, 0);
        var heat = new HeatProfile(start, Temperature.FromCelsius(65), Minutes(5), Minutes(30), Minutes(10));
        var panel = PanelClimate.Heated(Constant(-5, 50), heat);
        var clock = CureClock.For(TwoPart(60), panel, start, start + Duration.FromHours(2));

        double work = 0;
        for (int tenth = 0; tenth < 45 * 600; tenth++)
        {
            if (tenth % 100 == 0 && tenth > 0)
                Assert.Equal(tenth / 600.0, clock.FinishMinutes(0, work), 1 / 60.0);
            work += CureRate.Rate(TwoPart(60), panel, start + Duration.FromMilliseconds(100L * tenth + 50)) / 36_000;
        }
    }

    [Fact]
    public void A_hotter_panel_never_cures_two_part_later() =>
        Cases.Sample((shop, _, a, b) =>
        {
            var hotter = shop with { SetPoint = shop.SetPoint + 5 * a, Floor = shop.Floor + 5 * a, CarCelsius = shop.CarCelsius + 5 * a };
            double needed = 20 * b;

            return Finish(hotter, TwoPart(50), needed) <= Finish(shop, TwoPart(50), needed) + 1e-6;
        }, iter: 200);

    [Fact]
    public void A_lamp_never_makes_any_cure_later() =>
        Cases.Sample((shop, law, _, b) =>
        {
            var plain = CureClock.For(law, shop.Car(), shop.Start, shop.Start + Week);
            var lamp = CureClock.For(law, shop.CarWithLamp(), shop.Start, shop.Start + Week);

            return lamp.FinishMinutes(0, 20 * b) <= plain.FinishMinutes(0, 20 * b) + 1e-6;
        }, iter: 200);

    [Fact]
    public void Damper_air_never_cures_moisture_cure_later() =>
        Cases.Sample((shop, _, a, b) =>
            Finish(shop with { Percent = shop.Percent + 40 * a }, Moisture(0), 20 * b) <= Finish(shop, Moisture(0), 20 * b) + 1e-6, iter: 200);

    [Fact]
    public void Shifting_everything_by_a_week_shifts_the_finish_by_a_week() =>
        Cases.Sample((shop, law, _, b) =>
        {
            // Weeks without a clock change only: 2026-11-06 and 2027-01-12.
            var winter = shop with { Start = Instant.FromUtc(2026, 11, 6, 15, 45) };
            return Math.Abs(Finish(winter, law, 8 * b) - Finish(winter with { Start = winter.Start + Week }, law, 8 * b)) < 1e-6
                || !double.IsFinite(Finish(winter, law, 8 * b));
        }, iter: 100);

    [Fact]
    public void Progress_over_parts_adds_up() =>
        Cases.Sample((shop, law, a, _) =>
        {
            var middle = shop.Start + Duration.FromMinutes(Math.Round(a * 4000) + 1);
            var end = shop.Start + Duration.FromDays(4);
            var whole = CureClock.For(law, shop.CarWithLamp(), shop.Start, end).Total;
            var parts = CureClock.For(law, shop.CarWithLamp(), shop.Start, middle).Total + CureClock.For(law, shop.CarWithLamp(), middle, end).Total;

            return Math.Abs(whole.Hours - parts.Hours) < 1e-5;
        }, iter: 100);

    [Theory]   // constant air: the clock change moves nothing
    [InlineData(2027, 3, 27)]
    [InlineData(2027, 10, 30)]
    public void In_constant_air_a_clock_change_neither_adds_nor_takes_cure(int year, int month, int day)
    {
        var evening = Local(year, month, day, 20, 0);
        var clock = CureClock.For(Moisture(0), Constant(23, 50), evening, evening + Duration.FromDays(2));

        Assert.Equal(evening + Duration.FromHours(12), clock.Finish(evening, ReferenceTime.FromHours(12))!.Value);
        Assert.Equal(month == 3 ? 9 : 8 - 1, clock.Finish(evening, ReferenceTime.FromHours(12))!.Value.InZone(Berlin).Hour);
    }

    [Fact]
    public void Nothing_cures_below_the_first_step_and_the_work_is_found_behind_the_cold_stretch()
    {
        // 20 °C for two hours, 10 °C for ten, 20 °C again; the law works from 15.6 °C on.
        var start = Local(2026, 11, 6, 8, 0);
        var air = new LoggedClimate(
        [
            new(start, AirOf(20, 40)), new(start + Minutes(119.9), AirOf(20, 40)), new(start + Minutes(120), AirOf(10, 40)),
            new(start + Minutes(719.9), AirOf(10, 40)), new(start + Minutes(720), AirOf(20, 40)),
        ]);
        var law = new CureLaw.Stepped(ImmutableArray.Create(new RateStep(Temperature.FromCelsius(15.6), 1)));
        var clock = CureClock.For(law, PanelClimate.FollowingAir(air), start, start + Duration.FromDays(1));

        Assert.Equal(120, clock.FinishMinutes(0, 1.999), 0.1);
        Assert.Equal(720, clock.FinishMinutes(0, 2), 0.2);
        Assert.Equal(720 + 60, clock.FinishMinutes(0, 3), 0.2);
        Assert.Equal(720 + 60, clock.FinishMinutes(400, 1), 0.2);
        Assert.Equal(0, clock.ProgressHours(200, 700), 1e-12);
        Assert.Equal(720, clock.LatestStartMinutes(900, 3), 0.2);
        Assert.Equal(120 - 60, clock.LatestStartMinutes(600, 1), 0.2);
        Assert.Null(clock.Finish(start, ReferenceTime.FromHours(24)));
    }

    [Fact]   // the clock once cut ever smaller quarters off and did not come to an end
    public void A_threshold_crossed_at_the_very_end_of_the_span_is_no_trouble()
    {
        var start = Local(2026, 11, 6, 8, 0);
        var air = new LoggedClimate([new(start, AirOf(10, 40)), new(start + Minutes(60), AirOf(20, 40))]);
        var law = new CureLaw.Stepped(ImmutableArray.Create(new RateStep(Temperature.FromCelsius(15), 1)));

        foreach (int nanoseconds in (int[])[-60_000, -600, -60, -1, 0, 1, 60, 600, 60_000])
        {
            var end = start + Minutes(30) + Duration.FromNanoseconds(nanoseconds);
            Assert.Equal(0, CureClock.For(law, PanelClimate.FollowingAir(air), start, end).Total.Hours, 1e-6);
        }
    }

    [Fact]
    public void A_law_that_never_works_finishes_nothing()
    {
        var start = Local(2026, 11, 6, 8, 0);
        var clock = CureClock.For(new CureLaw.Stepped([]), Constant(20, 40), start, start + Week);

        Assert.Null(clock.Finish(start, ReferenceTime.FromMinutes(1)));
        Assert.Null(clock.LatestStart(start + Week, ReferenceTime.FromMinutes(1)));
        Assert.Equal(start, clock.Finish(start, ReferenceTime.Zero));
    }

    [Fact]
    public void Work_that_ends_exactly_with_the_span_is_found()
    {
        var start = Local(2026, 11, 6, 8, 0);
        var clock = CureClock.For(TwoPart(50), Constant(17.3, 40), start, start + Duration.FromHours(13));

        Assert.Equal(start + Duration.FromHours(13), clock.Finish(start, clock.Total));
        Assert.Equal(start, clock.LatestStart(start + Duration.FromHours(13), clock.Total));
        Assert.Null(clock.Finish(start, clock.Total + ReferenceTime.FromMinutes(0.01)));
    }

    [Fact]
    public void Moments_outside_the_span_are_refused_or_have_no_answer()
    {
        var start = Local(2026, 11, 6, 8, 0);
        var clock = CureClock.For(TwoPart(50), Constant(17.3, 40), start, start + Duration.FromHours(13));
        var work = ReferenceTime.FromMinutes(5);

        Assert.Throws<ArgumentOutOfRangeException>(() => clock.Finish(start - Minutes(1), work));
        Assert.Throws<ArgumentOutOfRangeException>(() => clock.LatestStart(start + Duration.FromHours(14), work));
        Assert.Throws<ArgumentOutOfRangeException>(() => clock.FinishMinutes(double.NaN, 1));
        Assert.Null(clock.Finish(start + Duration.FromHours(14), work));
        Assert.Null(clock.LatestStart(start - Minutes(1), work));
        Assert.Throws<ArgumentException>(() => CureClock.For(TwoPart(50), Constant(17.3, 40), start, start));
    }

    [Fact]
    public void A_span_shorter_than_the_grid_works()
    {
        var start = Local(2026, 11, 6, 8, 0);
        var clock = CureClock.For(new CureLaw.Clock(), Constant(17.3, 40), start, start + Minutes(2));

        Assert.Equal(start + Minutes(1.5), clock.Finish(start + Minutes(0.5), ReferenceTime.FromMinutes(1)));
    }

    [Fact]
    public void A_real_minute_log_is_counted_as_its_rows_say()
    {
        var rows = LoggedClimateTests.RealLog();
        var log = new LoggedClimate(rows.Select(row => row.Reading));
        var clock = CureClock.For(Moisture(0), PanelClimate.FollowingAir(log), log.First, log.Last);

        double slow = 0;
        for (int i = 1; i < rows.Count; i++)
        {
            double rates = CureRate.Rate(Moisture(0), rows[i - 1].Reading.Air) + CureRate.Rate(Moisture(0), rows[i].Reading.Air);
            slow += rates / 2 * (rows[i].Reading.Time - rows[i - 1].Reading.Time).TotalHours;
        }

        Assert.Equal(slow, clock.Total.Hours, 1e-6);
    }

    [Fact]
    public void Gaps_duplicates_and_disorder_in_a_log_do_not_break_the_clock()
    {
        var start = Local(2027, 10, 30, 12, 0);
        ClimateReading Row(double hour, double celsius) => new(start + Duration.FromHours(hour), AirOf(celsius, 40));
        var tidy = new LoggedClimate([Row(0, 18), Row(1, 19), Row(9, 12), Row(30, 20)]);
        var untidy = new LoggedClimate([Row(9, 12), Row(0, 18), Row(0, 5), Row(30, 20), Row(1, 19), Row(9, 30)]);

        double first = CureClock.For(TwoPart(50), PanelClimate.FollowingAir(tidy), start, start + Week).Total.Hours;
        double second = CureClock.For(TwoPart(50), PanelClimate.FollowingAir(untidy), start, start + Week).Total.Hours;

        Assert.Equal(first, second, 1e-12);
        Assert.Equal(
            [ClimateNoticeKind.OutOfOrderSorted, ClimateNoticeKind.DuplicatesDropped, ClimateNoticeKind.GapBridged, ClimateNoticeKind.GapBridged],
            untidy.Notices.Select(notice => notice.Kind));
    }

    private static double Finish(AnyShop shop, CureLaw law, double needed) =>
        CureClock.For(law, shop.Car(), shop.Start, shop.Start + Week).FinishMinutes(0, needed);
}
