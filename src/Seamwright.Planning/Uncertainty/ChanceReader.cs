using System.Collections.Immutable;
using NodaTime;
using Seamwright.Planning.Mapping;
using Seamwright.Shops;

namespace Seamwright.Planning.Uncertainty;

/// <summary>From samples to what they say: how likely, when, why.</summary>
internal sealed class ChanceReader(PlanNetwork network, PlanTime time, Spreads spreads, ChanceOptions options)
{
    /// <summary>A cause is drawn again with at most so many samples: its share needs no more.</summary>
    private const int CauseSamples = 10_240;

    /// <summary>Steps of the histogram.</summary>
    private const int Bars = 16;

    private readonly Scatter _scatter = Scatter.Of(network, spreads);

    /// <summary>Ready minute where everything takes as long as planned.</summary>
    public static double AsPlanned(PlanNetwork network) =>
        Sampler.Draw(network, Scatter.None(network), Normals.Lanes, seed: 0, threads: 1).Ready[0];

    /// <summary>How likely a plan is ready by its slot, and when nine of ten are: the short form, for comparing plans.</summary>
    public (Estimate BySlot, ReadyEstimate NineOfTen, double[] Ascending) Short(int slot)
    {
        double[] ready = Draw(_scatter, options.Samples).Ready;
        Array.Sort(ready);
        return (BySlot(ready, slot), Moment(Estimates.Percentile(ready, 0.9)), ready);
    }

    public Chance Read(int slot)
    {
        var draws = Draw(_scatter, options.Samples);
        var causes = Causes(draws.Ready, slot);
        double[] ready = draws.Ready;
        Array.Sort(ready);
        var (histogram, beyond) = Histogram(ready);
        return new Chance
        {
            Samples = ready.Length,
            Seed = options.Seed,
            Slot = time.At(slot),
            AsPlanned = time.Origin + Duration.FromMinutes(AsPlanned(network)),
            BySlot = BySlot(ready, slot),
            Half = Moment(Estimates.Percentile(ready, 0.5)),
            NineOfTen = Moment(Estimates.Percentile(ready, 0.9)),
            Histogram = histogram,
            Beyond = beyond,
            Causes = causes,
            Critical = Critical(draws),
            Stale = Estimates.Share(draws.Stale, ready.Length),
        };
    }

    private Draws Draw(Scatter scatter, int samples) => Sampler.Draw(network, scatter, samples, options.Seed, options.Threads);

    private static Estimate BySlot(double[] ready, int slot) => Estimates.Share(ready.LongCount(minute => minute <= slot), ready.Length);

    private ImmutableArray<CauseShare> Causes(double[] all, int slot)
    {
        int samples = Math.Min(all.Length, CauseSamples);
        var before = all.AsSpan(0, samples);
        double latest = Latest(before);
        double variance = Variance(before, latest);
        var shares = new List<CauseShare>();
        foreach (var cause in _scatter.Causes(network))
        {
            var redrawn = Draw(_scatter.Redrawing(cause), samples).Ready.AsSpan(0, samples);
            var frozen = Draw(_scatter.Without(network, cause), samples).Ready.AsSpan(0, samples);
            double share = variance > 0 ? HalfMeanSquare(before, redrawn, latest) / variance : 0;
            shares.Add(new CauseShare(cause, share, Hits(frozen, slot) / (double)samples, Gain(before, frozen, slot)));
        }
        return [.. shares.OrderByDescending(share => share.VarianceShare)];
    }

    /// <summary>Half the mean square of the difference that other numbers of a cause make: its total effect on the variance.</summary>
    private static double HalfMeanSquare(ReadOnlySpan<double> before, ReadOnlySpan<double> after, double latest)
    {
        double sum = 0;
        for (int i = 0; i < before.Length; i++)
        {
            double step = Math.Min(after[i], latest) - Math.Min(before[i], latest);
            sum += step * step;
        }
        return sum / (2 * before.Length);
    }

    /// <summary>Change of the likelihood: each sample counts +1, 0 or −1, so its error is that of a mean of paired differences.</summary>
    private static Estimate Gain(ReadOnlySpan<double> before, ReadOnlySpan<double> after, int slot)
    {
        int won = 0, lost = 0;
        for (int i = 0; i < before.Length; i++)
        {
            if (before[i] > slot && after[i] <= slot)
                won++;
            else if (before[i] <= slot && after[i] > slot)
                lost++;
        }
        double n = before.Length, mean = (won - lost) / n;
        double reach = 1.959963984540054 * Math.Sqrt(Math.Max(0, ((won + lost) / n) - (mean * mean)) / n);
        return new Estimate(mean, mean - reach, mean + reach);
    }

    private static int Hits(ReadOnlySpan<double> ready, int slot)
    {
        int hits = 0;
        foreach (double minute in ready)
            hits += minute <= slot ? 1 : 0;
        return hits;
    }

    /// <summary>What is not within the plan counts as its latest moment: the variance stays a number.</summary>
    private static double Latest(ReadOnlySpan<double> ready)
    {
        double latest = 0;
        foreach (double minute in ready)
        {
            if (double.IsFinite(minute))
                latest = Math.Max(latest, minute);
        }
        return latest;
    }

    private static double Variance(ReadOnlySpan<double> ready, double latest)
    {
        double mean = 0, squares = 0;
        for (int i = 0; i < ready.Length; i++)
        {
            double minute = Math.Min(ready[i], latest), step = minute - mean;
            mean += step / (i + 1);
            squares += step * (minute - mean);
        }
        return squares / ready.Length;
    }

    /// <summary>From the first sample to the 98th of a hundred, in steps of whole five minutes.</summary>
    private (ImmutableArray<ReadyCount> Bars, int Beyond) Histogram(double[] ascending)
    {
        double first = Math.Floor(ascending[0] / PlanTime.Grid) * PlanTime.Grid;
        double last = ascending[(int)(0.98 * (ascending.Length - 1))];
        if (!double.IsFinite(first))
            return ([], ascending.Length);
        if (!double.IsFinite(last))
            last = Latest(ascending);
        double step = Math.Max(PlanTime.Grid, Math.Ceiling((last - first + 1) / Bars / PlanTime.Grid) * PlanTime.Grid);
        var bars = ImmutableArray.CreateBuilder<ReadyCount>();
        int counted = 0;
        for (double from = first; from <= last; from += step)
        {
            int to = counted;
            while (to < ascending.Length && ascending[to] < from + step)
                to++;
            bars.Add(new ReadyCount(time.At((int)from), time.At((int)(from + step)), to - counted));
            counted = to;
        }
        return (bars.ToImmutable(), ascending.Length - counted);
    }

    private ImmutableArray<CriticalStep> Critical(Draws draws)
    {
        double samples = draws.Ready.Length;
        var works = network.Works
            .Select((work, index) => new CriticalStep(work.Kind, work.Places, work.Person, work.Material, draws.WorkCritical[index] / samples))
            .Where(step => step.Kind is not null);
        // Of several cures in one place (skin and depth of a bead) one sample waits for one of them.
        var cures = network.Cures
            .Select((cure, index) => (cure.Place, Material: cure.Material >= 0 ? network.Materials[cure.Material] : (Materials.MaterialId?)null, Share: draws.CureCritical[index] / samples))
            .GroupBy(cure => (cure.Place, cure.Material))
            .Select(group => new CriticalStep(null, group.Key.Place is { } place ? [place] : [], null, group.Key.Material, Math.Min(1, group.Sum(cure => cure.Share))));
        return [.. works.Concat(cures).Where(step => step.Share > 0).OrderByDescending(step => step.Share)];
    }

    private ReadyEstimate Moment(Estimate minutes) => new(At(minutes.Value), At(minutes.Low), At(minutes.High));

    private Instant? At(double minute) => double.IsFinite(minute) ? time.Origin + Duration.FromMinutes(Math.Round(minute)) : null;
}
