using System.Collections.Immutable;
using Seamwright.Curing;
using Seamwright.Planning.Mapping;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// The expected climate in hours, and the cure work that each law does in each hour of it. An error of the climate multiplies the work of an hour; nothing is
/// integrated again (docs/formulas.md, "Uncertainty", with the measured error of that).
/// </summary>
internal sealed class CureGrid
{
    /// <summary>Length of a cell. [min]</summary>
    public const double CellMinutes = 60;

    /// <summary>After the slot the error that comes and goes is followed for so long; then one open cell with the constant error alone. [cells]</summary>
    private const int CellsAfterSlot = 12;

    /// <summary>Length of the open cell over which its air is averaged. [min]</summary>
    private const int OpenMinutes = 24 * 60;

    private readonly CureClock[] _clocks;
    private readonly double[][] _work;       // [law][cell] reference hours from the start of the clock to the start of the cell

    private CureGrid(ImmutableArray<LawResponse> laws, CureClock[] clocks, double[][] work, double from, double offset, CellAir[] air, double panelMemory)
    {
        PanelMemory = panelMemory;
        Laws = laws;
        _clocks = clocks;
        _work = work;
        From = from;
        Offset = offset;
        Air = air;
        Last = clocks.Length == 0 ? double.PositiveInfinity : (clocks[0].To - clocks[0].From).TotalMinutes - offset;
    }

    /// <summary>How each law answers to an error of the climate.</summary>
    public ImmutableArray<LawResponse> Laws { get; }

    /// <summary>Air of each cell; the first cell reaches back without end, the last one forward.</summary>
    public CellAir[] Air { get; }

    public int Cells => Air.Length;

    /// <summary>What is left of a panel's distance to the air after a cell; 0 where the panel is at air temperature. [0…1]</summary>
    public double PanelMemory { get; }

    /// <summary>End of the first cell less its length. [minute of the plan]</summary>
    private double From { get; }

    private double Offset { get; }

    /// <summary>End of the clocks. [minute of the plan]</summary>
    private double Last { get; }

    /// <summary>A grid without any law.</summary>
    public static CureGrid Empty { get; } = new([], [], [], 0, 0, [], 0);

    /// <param name="cures">Clocks of the repair.</param>
    /// <param name="time">Minutes of the plan.</param>
    /// <param name="laws">Laws that occur.</param>
    /// <param name="slot">Minute of the paint slot.</param>
    /// <param name="behind">Time constant with which the panel follows the air; null = it is at air temperature.</param>
    public static CureGrid For(Cures cures, PlanTime time, IReadOnlyList<CureLaw> laws, int slot, NodaTime.Duration? behind)
    {
        if (laws.Count == 0)
            return Empty;
        int cells = Math.Max(1, (int)Math.Ceiling((slot - time.Now) / CellMinutes)) + CellsAfterSlot + 1;
        var air = new CellAir[cells];
        for (int k = 0; k < cells; k++)
        {
            double from = time.Now + (k * CellMinutes);
            air[k] = k + 1 < cells ? AirAt(cures, time, from + (CellMinutes / 2)) : MeanAir(cures, time, from);
        }

        var clocks = laws.Select(cures.Clock).ToArray();
        var work = new double[laws.Count][];
        for (int law = 0; law < laws.Count; law++)
        {
            work[law] = new double[cells + 1];
            double end = (clocks[law].To - clocks[law].From).TotalMinutes;
            for (int k = 1; k <= cells; k++)
                work[law][k] = clocks[law].ProgressHours(0, k < cells ? Math.Min(end, time.Now + (k * CellMinutes) + cures.Offset) : end);
        }

        ImmutableArray<LawResponse> responses = [.. laws.Select(law => new LawResponse(law, air, cures, time))];
        return new CureGrid(responses, clocks, work, time.Now, cures.Offset, air, behind is { } constant ? Math.Exp(-CellMinutes / constant.TotalMinutes) : 0);
    }

    /// <summary>Expected work from the start of the clock to a minute of the plan; not a number beyond the clock. [reference h]</summary>
    public double DoneBy(int law, double minute) => minute < Last ? _clocks[law].ProgressHours(0, minute + Offset) : double.NaN;

    /// <summary>When an amount of work is done by what was applied at a minute.</summary>
    /// <param name="law">Law.</param>
    /// <param name="start">End of the application. [minute of the plan]</param>
    /// <param name="done">What <see cref="DoneBy"/> says for that. [reference h]</param>
    /// <param name="hours">Work needed. [reference h]</param>
    /// <param name="answers">What an hour counts, [law · cell · lane]: a multiple of the expected work, or below zero the rate itself.</param>
    /// <param name="lane">Lane.</param>
    /// <param name="early">Earlier answers are not of interest.</param>
    /// <returns>Minute of the plan, not rounded; +∞ where it is not within the clocks, −∞ where it is at or before <paramref name="early"/> without saying when.</returns>
    public double Finish(int law, double start, double done, double hours, double[] answers, int lane, double early = double.NegativeInfinity)
    {
        if (!(start < Last))
            return double.PositiveInfinity;
        var clock = _clocks[law];
        double[] work = _work[law];
        int k = Math.Clamp((int)Math.Floor((start - From) / CellMinutes), 0, Cells - 1);
        double at = start;
        int before = early > From ? (int)Math.Min(Cells, (early - From) / CellMinutes) : 0;
        for (int index = (((law * Cells) + k) * Normals.Lanes) + lane; ; k++, index += Normals.Lanes)
        {
            double answer = answers[index];
            bool last = k == Cells - 1;
            double end = last ? Last : From + ((k + 1) * CellMinutes);
            double gain = answer >= 0 ? (work[k + 1] - done) * answer : (end - at) / 60 * -answer;
            if (gain >= hours && k < before)
                return double.NegativeInfinity;
            if (gain >= hours || last)
                return answer < 0 ? (gain >= hours ? at + (hours / -answer * 60) : double.PositiveInfinity)
                    : answer == 0 ? double.PositiveInfinity
                    : clock.FinishMinutes(at + Offset, hours / answer) - Offset;
            hours -= gain;
            done = work[k + 1];
            at = end;
        }
    }

    private static CellAir AirAt(Cures cures, PlanTime time, double minute)
    {
        var at = time.Origin + NodaTime.Duration.FromMinutes(minute);
        var air = cures.Panel.AirAt(at);
        return new CellAir(minute, cures.Panel.TemperatureAt(at).Kelvin, air.Temperature.Kelvin, air.Humidity.Fraction);
    }

    private static CellAir MeanAir(Cures cures, PlanTime time, double from)
    {
        var all = Enumerable.Range(0, OpenMinutes / 60).Select(hour => AirAt(cures, time, from + (60 * hour) + 30)).ToList();
        return new CellAir(from + (OpenMinutes / 2), all.Average(air => air.Panel), all.Average(air => air.Air), all.Average(air => air.Humidity));
    }
}

/// <summary>Expected air of a cell.</summary>
/// <param name="Middle">Its middle. [minute of the plan]</param>
/// <param name="Panel">Panel. [K]</param>
/// <param name="Air">Air. [K]</param>
/// <param name="Humidity">Relative humidity. [0…1]</param>
internal readonly record struct CellAir(double Middle, double Panel, double Air, double Humidity);
