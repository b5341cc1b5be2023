using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Uncertainty;
using Seamwright.Shops;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Tests.Uncertainty;

/// <summary>How far the sampler's answer to a wrong climate lies from integrating that climate, its panel and its cure anew.</summary>
internal static class ClimateErrors
{
    /// <summary>Laws looked at.</summary>
    public static readonly (string Name, CureLaw Law)[] Laws =
    [
        ("two-part, 55 kJ/mol", new CureLaw.TwoPart(MolarEnergy.FromKilojoulesPerMole(55), Temperature.FromCelsius(23))),
        ("moisture", new CureLaw.Moisture(MolarEnergy.FromKilojoulesPerMole(0), AirState.Standard)),
        ("drying, 30 kJ/mol", new CureLaw.Drying(MolarEnergy.FromKilojoulesPerMole(30), AirState.Standard, Waterborne: false)),
        ("water-borne, 30 kJ/mol", new CureLaw.Drying(MolarEnergy.FromKilojoulesPerMole(30), AirState.Standard, Waterborne: true)),
        ("stepped at 8, 12, 16, 20 °C", new CureLaw.Stepped([Step(8, 0.3), Step(12, 0.5), Step(16, 0.75), Step(20, 1)])),
    ];

    private static RateStep Step(double celsius, double rate) => new(Temperature.FromCelsius(celsius), rate);

    /// <summary>One cure.</summary>
    /// <param name="Law">Place of its law.</param>
    /// <param name="Exact">Wait by integrating anew. [min]</param>
    /// <param name="Error">Sampler's wait less that. [min]</param>
    /// <param name="Shift">Wait by integrating anew less the wait in the expected climate. [min]</param>
    public readonly record struct Case(int Law, double Exact, double Error, double Shift);

    /// <summary>Random starts, amounts of work and climates around a repair's own.</summary>
    /// <param name="input">The repair.</param>
    /// <param name="climates">Climates, at most as many as lanes.</param>
    /// <param name="seed">Seed.</param>
    public static List<Case> Measure(RepairInput input, int climates, int seed)
    {
        var planning = new PlanningCase(input);
        var time = planning.Time;
        NodaTime.Duration? behind = input.Repair.Panel is null ? null : input.Shop.PanelTimeConstant;
        var grid = CureGrid.For(planning.Cures, time, [.. Laws.Select(law => law.Law)], time.Now + (48 * 60), behind);
        var warmer = new double[grid.Cells][];
        var damper = new double[grid.Cells][];
        var draw = new ClimateDraw(grid, Scatter.Of(new NetworkDraft().Build(CureGrid.Empty), new Spreads()), (ulong)seed)
        {
            Seen = (cell, warm, damp) => (warmer[cell], damper[cell]) = (warm.ToArray(), damp.ToArray()),
        };
        draw.Run(0);

        var random = new Random(seed);
        var cases = new List<Case>();
        for (int lane = 0; lane < climates; lane++)
        {
            var climate = new WrongClimate(input.Climate, input.Repair.Now, [.. warmer.Select(cell => cell[lane])], [.. damper.Select(cell => cell[lane])]);
            var panel = input.Repair.Panel is { } reading
                ? PanelClimate.FromReading(climate, reading.At, reading.Temperature, input.Shop.PanelTimeConstant)
                : PanelClimate.FollowingAir(climate);
            for (int law = 0; law < Laws.Length; law++)
            {
                var clock = CureClock.For(Laws[law].Law, panel, time.Origin, time.Origin + Duration.FromDays(5));
                var expected = CureClock.For(Laws[law].Law, planning.Cures.Panel, time.Origin, time.Origin + Duration.FromDays(5));
                for (int round = 0; round < 8; round++)
                {
                    double start = time.Now + random.Next(24 * 60), hours = 0.3 + (random.NextDouble() * 6);
                    double exact = clock.FinishMinutes(start, hours) - start;
                    double approximate = grid.Finish(law, start, grid.DoneBy(law, start), hours, draw.Answers, lane) - start;
                    if (exact < 24 * 60)
                        cases.Add(new Case(law, exact, approximate - exact, exact - (expected.FinishMinutes(start, hours) - start)));
                }
            }
        }
        return cases;
    }

    /// <summary>A climate that is off by errors which run straight between the middles of the hours.</summary>
    private sealed class WrongClimate(Climate expected, Instant from, double[] warmer, double[] damper) : Climate
    {
        public override AirState At(Instant time)
        {
            double hour = ((time - from).TotalMinutes / CureGrid.CellMinutes) - 0.5;
            var air = expected.At(time);
            return new AirState(
                air.Temperature + TemperatureDifference.FromKelvins(Between(warmer, hour)),
                RelativeHumidity.FromFraction(Math.Clamp(air.Humidity.Fraction + Between(damper, hour), 0.02, 1)));
        }

        public override IReadOnlyList<Instant> Breakpoints(Instant start, Instant end) => expected.Breakpoints(start, end);

        private static double Between(double[] values, double place)
        {
            double clamped = Math.Clamp(place, 0, values.Length - 1);
            int below = Math.Min((int)clamped, values.Length - 2);
            return values[below] + ((values[below + 1] - values[below]) * (clamped - below));
        }
    }
}
