using Seamwright.Planning.Uncertainty;
using Seamwright.Scheduling;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>The sampler against closed forms, reference integrals and a textbook.</summary>
public sealed class SamplerTests
{
    [Fact]
    public void Work_in_series_takes_the_sum_of_lognormals()
    {
        (double Median, double Spread) a = (40_000, 0.25), b = (60_000, 0.4), c = (30_000, 0.6);
        var draft = new NetworkDraft();
        int first = draft.Work(a.Median, a.Spread);
        int second = draft.Work(b.Median, b.Spread, after: first);
        var draws = draft.ReadyAfter(draft.Work(c.Median, c.Spread, after: second)).Draw();

        foreach (double until in (double[])[90_000, 120_000, 140_000, 170_000, 230_000])
            Drawn.Share(Reference.SumOfThree(until, a, b, c), draws, until, allowance: 0.0005);
    }

    [Fact]
    public void Work_side_by_side_takes_the_longest()
    {
        var draft = new NetworkDraft();
        var draws = draft.ReadyAfter(draft.Work(50_000, 0.3), draft.Work(45_000, 0.5)).Draw();

        foreach (double until in (double[])[40_000, 55_000, 70_000, 100_000])
            Drawn.Share(Reference.Lognormal(until, 50_000, 0.3) * Reference.Lognormal(until, 45_000, 0.5), draws, until, allowance: 0.0005);
    }

    [Fact]
    public void One_step_has_the_percentiles_of_its_lognormal()
    {
        // Mean 60, coefficient of variation 0.25: P50 58.209, P90 79.804 (shared reference values, J8), in thousands here.
        var (median, spread) = Reference.LognormalOf(60_000, 15_000.0 * 15_000);
        var draft = new NetworkDraft();
        double[] ready = draft.ReadyAfter(draft.Work(median, spread)).Draw().Ready;
        Array.Sort(ready);

        var half = Estimates.Percentile(ready, 0.5);
        var nineOfTen = Estimates.Percentile(ready, 0.9);

        Assert.InRange(58_209, half.Low - 60, half.High + 60);
        Assert.InRange(79_804, nineOfTen.Low - 60, nineOfTen.High + 60);
    }

    [Fact]
    public void A_textbook_path_has_its_mean_its_variance_and_nearly_its_likelihood()
    {
        // PERT in series, weeks: 5-8-17, 3-5-7, 4-6-8, 3-4-5; 24 weeks, variance 5.0, P(≤ 28) = 0.9633 by the normal approximation
        // (flylib.com, 3.287.1.117). Lognormal activities of the same means and variances lean right: the last is met within a point.
        const double week = 40_000;
        (double A, double M, double B)[] activities = [(5, 8, 17), (3, 5, 7), (4, 6, 8), (3, 4, 5)];
        var draft = new NetworkDraft();
        int[] last = [];
        foreach (var activity in activities)
            last = [Pert(draft, activity, week, last)];
        var draws = draft.ReadyAfter(last).Draw();

        double mean = draws.Ready.Average() / week;
        double variance = draws.Ready.Average(ready => Math.Pow((ready / week) - mean, 2));

        Assert.Equal(24.0, mean, 0.03);
        Assert.Equal(5.0, variance, 0.2);
        Drawn.Share(0.9633, draws, 28 * week, allowance: 0.01);
    }

    [Fact]
    public void A_textbook_network_is_later_than_its_longest_path_and_most_often_waits_for_it()
    {
        // PERT: A 2-5-8, B 1-2-9 (A), C 0.25-0.5-3.75 (A), D 1-1-7 (B), E 1-2-9 (B, C), F 1-3-11 (D, E): means 5, 3, 1, 2, 3, 4;
        // path A-B-E-F 15 (pmknowledgecenter.be). Classical PERT leaves out that another path may be longer; samples do not.
        const double week = 40_000;
        var draft = new NetworkDraft();
        int a = Pert(draft, (2, 5, 8), week, [], "A");
        int b = Pert(draft, (1, 2, 9), week, [a], "B");
        int c = Pert(draft, (0.25, 0.5, 3.75), week, [a], "C");
        int d = Pert(draft, (1, 1, 7), week, [b], "D");
        int e = Pert(draft, (1, 2, 9), week, [b, c], "E");
        int f = Pert(draft, (1, 3, 11), week, [d, e], "F");
        var network = draft.ReadyAfter(f);
        var draws = network.Draw();

        double mean = draws.Ready.Average() / week;
        int Of(string name) => (int)(100 * draws.WorkCritical[network.Works.ToList().FindIndex(work => work.Person == name)] / draws.Ready.Length);

        Assert.InRange(mean, 15.2, 16.5);
        Assert.Equal(100, Of("A"));
        Assert.Equal(100, Of("F"));
        Assert.InRange(Of("B"), 85, 99);
        Assert.InRange(Of("C"), 1, 15);
        Assert.True(Of("E") > Of("D"));
        Assert.InRange(Of("D") + Of("E"), 98, 100);
    }

    [Fact]
    public void Equal_seeds_give_equal_samples_on_one_and_on_two_threads()
    {
        var draft = new NetworkDraft();
        var network = draft.ReadyAfter(draft.Work(500, 0.3, after: draft.Work(300, 0.2)), draft.Work(700, 0.4));

        var one = network.Draw(samples: 20_000, seed: 5, threads: 1);
        var two = network.Draw(samples: 20_000, seed: 5, threads: 2);
        var other = network.Draw(samples: 20_000, seed: 6, threads: 2);

        Assert.Equal(one.Ready, two.Ready);
        Assert.Equal(one.WorkCritical, two.WorkCritical);
        Assert.NotEqual(one.Ready, other.Ready);
    }

    [Fact]
    public void More_spread_never_makes_one_step_likelier()
    {
        double before = 1.1;
        foreach (double spread in (double[])[0, 0.05, 0.1, 0.2, 0.3, 0.5, 0.8])
        {
            var draft = new NetworkDraft();
            var draws = draft.ReadyAfter(draft.Work(40_000, spread)).Draw(samples: 50_000);
            double likely = draws.Ready.Count(ready => ready <= 50_000) / (double)draws.Ready.Length;

            Assert.True(likely <= before);
            if (spread > 0)
                Drawn.Share(Reference.Lognormal(50_000, 40_000, spread), draws, 50_000);
            before = likely;
        }
        Assert.True(before < 0.65);
    }

    [Fact]
    public void A_session_of_several_places_scatters_less_than_one_long_seam()
    {
        // Four independent parts of 10 000: the standard deviation of the sum is half that of one part of 40 000.
        const double spread = 0.2;
        double Deviation(int parts)
        {
            var draft = new NetworkDraft();
            int work = draft.AddWork(new WorkLabel(StepKind.Seal, [], "somebody", null), 0, Drawn.Always, 0, [.. Enumerable.Repeat(new NetworkDraft.Part(StepKind.Seal, 40_000.0 / parts, spread), parts)]);
            double[] ready = draft.ReadyAfter(work).Draw().Ready;
            double mean = ready.Average();
            return Math.Sqrt(ready.Average(minute => (minute - mean) * (minute - mean)));
        }

        Assert.Equal(2, Deviation(1) / Deviation(4), 0.03);
    }

    // Hours.

    [Fact]
    public void Work_begins_where_its_planned_minutes_fit_into_the_shift()
    {
        var times = new OpenTimes(60, [], [new Window(0, 240), new Window(270, 500)], runsOver: 15);

        Assert.Equal(180, times.Start(178));
        Assert.Equal(270, times.Start(181));       // 185…245 would not fit before the break
        Assert.Equal(440, times.Start(440));
        Assert.Equal(double.PositiveInfinity, times.Start(441));
    }

    [Theory]
    [InlineData(180, 60, 240)]       // as planned
    [InlineData(180, 75, 255)]       // runs a quarter of an hour into the break
    [InlineData(180, 80, 290)]       // does not: 20 minutes are left for after it
    [InlineData(180, 310, 530)]      // 60 before the break, 230 to the end of the day, 20 the next morning: too much to run over
    public void Work_that_takes_longer_runs_over_a_little_and_else_goes_on_in_the_next_shift(double start, double minutes, double end)
    {
        var times = new OpenTimes(60, [], [new Window(0, 240), new Window(270, 500), new Window(510, 900)], runsOver: 15);

        Assert.Equal(end, times.End(start, minutes));
    }

    [Fact]
    public void Work_waits_for_a_window_in_which_its_material_may_be_applied()
    {
        var times = new OpenTimes(30, [new Window(100, 131)], [new Window(0, 200)], runsOver: 0);

        Assert.Equal(100, times.Start(20));
        Assert.Equal(130, times.Start(127));
        Assert.Equal(double.PositiveInfinity, times.Start(131));
    }

    private static int Pert(NetworkDraft draft, (double A, double M, double B) activity, double unit, int[] after, string name = "somebody")
    {
        double mean = (activity.A + (4 * activity.M) + activity.B) / 6, deviation = (activity.B - activity.A) / 6;
        var (median, spread) = Reference.LognormalOf(mean * unit, deviation * deviation * unit * unit);
        return draft.Work(median, spread, name: name, after: after);
    }
}
