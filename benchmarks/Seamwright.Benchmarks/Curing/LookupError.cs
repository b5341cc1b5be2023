using System.Globalization;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Units;

namespace Seamwright.Benchmarks.Curing;

/// <summary>How far a look-up lies from direct integration in steps of a second, night set-back and lamp ramps included.</summary>
internal static class LookupError
{
    private static readonly Instant Monday = Instant.FromUtc(2027, 1, 11, 0, 0);

    public static void Print(TextWriter output)
    {
        double worst = 0;
        var random = new Random(7);
        for (int round = 0; round < 60; round++)
        {
            var shop = Shops.WithNightSetBack(Monday);
            var lampAt = Monday + Duration.FromMinutes(random.Next(0, 4 * 24 * 60));
            var panel = round % 2 == 0
                ? shop
                : PanelClimate.Heated(shop, new HeatProfile(lampAt, Temperature.FromCelsius(random.Next(40, 65)), Duration.FromMinutes(10), Duration.FromMinutes(30), Duration.FromMinutes(20)));
            var law = round % 3 == 0 ? Shops.Moisture : Shops.TwoPart;
            var clock = CureClock.For(law, panel, Monday, Monday + Duration.FromDays(7));
            var start = round % 2 == 0 ? Monday + Duration.FromMinutes(random.Next(0, 4 * 24 * 60)) : lampAt - Duration.FromMinutes(random.Next(0, 60));
            start = Instant.Max(start, Monday);
            double needed = 0.5 + (random.NextDouble() * 6);
            if (clock.Finish(start, ReferenceTime.FromHours(needed)) is { } finish)
                worst = Math.Max(worst, Math.Abs((finish - Direct(law, panel, start, needed)).TotalSeconds));
        }
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Largest difference of 60 look-ups to integration by seconds: {worst:F1} s"));
    }

    private static Instant Direct(CureLaw law, PanelClimate panel, Instant start, double needed)
    {
        double done = 0;
        for (var at = start; ; at += Duration.FromSeconds(1))
        {
            done += CureRate.Rate(law, panel, at + Duration.FromMilliseconds(500)) / 3600;
            if (done >= needed)
                return at + Duration.FromSeconds(1);
        }
    }
}
