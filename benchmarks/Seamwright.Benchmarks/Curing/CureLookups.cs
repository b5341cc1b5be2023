using BenchmarkDotNet.Attributes;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;

namespace Seamwright.Benchmarks.Curing;

/// <summary>Look-ups on a week's cure clock of a shop with night set-back, for both reacting laws.</summary>
[MemoryDiagnoser]
public class CureLookups
{
    private const int Lookups = 4096;
    private static readonly Instant Monday = Instant.FromUtc(2027, 1, 11, 0, 0);

    private CureClock _twoPart = null!;
    private CureClock _moisture = null!;
    private double[] _starts = [];

    [GlobalSetup]
    public void SetUp()
    {
        var panel = Shops.WithNightSetBack(Monday);
        _twoPart = CureClock.For(Shops.TwoPart, panel, Monday, Monday + Duration.FromDays(7));
        _moisture = CureClock.For(Shops.Moisture, panel, Monday, Monday + Duration.FromDays(7));
        var random = new Random(1);
        _starts = [.. Enumerable.Range(0, Lookups).Select(_ => random.NextDouble() * 6 * 24 * 60)];
    }

    [Benchmark(OperationsPerInvoke = Lookups)]
    public double FinishOfTwoPart() => Sum(_twoPart);

    [Benchmark(OperationsPerInvoke = Lookups)]
    public double FinishOfMoistureCure() => Sum(_moisture);

    [Benchmark(OperationsPerInvoke = Lookups)]
    public double LatestStartOfTwoPart()
    {
        double sum = 0;
        foreach (double start in _starts)
            sum += _twoPart.LatestStartMinutes(start + 1440, 1.5);
        return sum;
    }

    [Benchmark]
    public CureClock BuildOfAWeek() => CureClock.For(Shops.TwoPart, Shops.WithNightSetBack(Monday), Monday, Monday + Duration.FromDays(7));

    private double Sum(CureClock clock)
    {
        double sum = 0;
        foreach (double start in _starts)
            sum += clock.FinishMinutes(start, 1.5);
        return sum;
    }
}

/// <summary>The shop and laws that the cure figures are measured on.</summary>
internal static class Shops
{
    public static CureLaw TwoPart { get; } = new CureLaw.TwoPart(MolarEnergy.FromKilojoulesPerMole(55), Temperature.FromCelsius(23));

    public static CureLaw Moisture { get; } = new CureLaw.Moisture(MolarEnergy.FromKilojoulesPerMole(0), AirState.Standard);

    public static PanelClimate WithNightSetBack(Instant from)
    {
        var pattern = new HeatingPattern(
            DateTimeZone.Utc,
            HeatingPattern.Weekdays(new LocalTime(6, 0), new LocalTime(18, 0)),
            Temperature.FromCelsius(20),
            Temperature.FromCelsius(11),
            Duration.FromHours(6),
            Duration.FromHours(1));
        return PanelClimate.FollowingAir(new HeatedDayClimate(pattern, from, new AirState(Temperature.FromCelsius(12), RelativeHumidity.FromPercent(55))));
    }
}
