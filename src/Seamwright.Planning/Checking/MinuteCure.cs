using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Planning.Checking;

/// <summary>Cure work summed up minute by minute, the mean of both ends of each minute.</summary>
internal sealed class MinuteCure(MinuteAir air)
{
    private const double GasConstant = 8.314462618;

    /// <summary>Cures are followed for this many days; what takes longer counts as never.</summary>
    private const int LongestDays = 40;

    /// <summary>When a milestone is reached by what was applied at a moment; null = not within <see cref="LongestDays"/> days.</summary>
    public Instant? Reached(Milestone milestone, Instant from, ImmutableArray<LampHeat> heats) => Reached(milestone.Law, milestone.Needed, from, heats);

    /// <summary>When an amount of work is done.</summary>
    public Instant? Reached(CureLaw law, ReferenceTime needed, Instant from, ImmutableArray<LampHeat> heats)
    {
        double open = needed.Minutes;
        if (open <= 0)
            return from;
        double at = Math.Max(0, air.MinuteOf(from));
        int minute = (int)Math.Floor(at);
        double left = Rate(law, minute, heats);
        for (int end = minute + LongestDays * 24 * 60; minute < end; minute++)
        {
            double right = Rate(law, minute + 1, heats);
            double span = minute + 1 - at;
            double work = span * (left + right) / 2;
            if (work >= open)
                return air.At(at + span * open / work);
            open -= work;
            (at, left) = (minute + 1, right);
        }
        return null;
    }

    /// <summary>When paint may go on a seam: the sheet's paint time, and cured through its depth where the sheet asks for that.</summary>
    public Instant? Paintable(DataSheet sheet, Length depth, Instant from, ImmutableArray<LampHeat> heats)
    {
        var paint = sheet.Milestone(MilestoneKind.Paint) is { } milestone ? Reached(milestone, from, heats) : from;
        if (!sheet.PaintNeedsCuredThrough || sheet.DepthCure is not { } cure || paint is not { } early)
            return paint;
        double share = depth.Millimetres / cure.DepthInFirstDay.Millimetres;
        return Reached(cure.Law, ReferenceTime.FromHours(24 * share * share), from, heats) is { } through ? Instant.Max(early, through) : null;
    }

    /// <summary>Last moment of the next layer without abrading: the clock hours, or the same number of reference hours where they end sooner.</summary>
    public Instant WindowEnd(MaximumWindow window, Instant from, ImmutableArray<LampHeat> heats)
    {
        var clock = from + window.Clock;
        return window.Law is { } law && Reached(law, ReferenceTime.FromHours(window.Clock.TotalHours), from, heats) is { } work ? Instant.Min(clock, work) : clock;
    }

    /// <summary>Rate of a law at a minute, 1 at its reference.</summary>
    public double Rate(CureLaw law, int minute, ImmutableArray<LampHeat> heats) =>
        Rate(law, air.Panel(minute, heats), air.Vapour(minute), air.Humidity(minute));

    /// <summary>Rate of a law on a panel of a temperature. [K, Pa, 0…1]</summary>
    public static double Rate(CureLaw law, double panel, double vapour, double humidity) => law switch
    {
        CureLaw.TwoPart twoPart => Arrhenius(twoPart.ActivationEnergy, panel, twoPart.Reference),
        CureLaw.Moisture moisture => vapour / (moisture.Reference.Humidity.Fraction * MinuteAir.Saturation(moisture.Reference.Temperature.Kelvin))
            * Arrhenius(moisture.PermeabilityEnergy, panel, moisture.Reference.Temperature),
        CureLaw.Drying drying => Arrhenius(drying.ActivationEnergy, panel, drying.Reference.Temperature)
            * (drying.Waterborne ? (1 - humidity) / (1 - drying.Reference.Humidity.Fraction) : 1),
        CureLaw.Stepped stepped => stepped.Steps.Where(step => panel >= step.From.Kelvin - 1e-6).Select(step => step.Rate).LastOrDefault(),
        _ => 1,
    };

    private static double Arrhenius(MolarEnergy energy, double panel, Temperature reference) =>
        Math.Exp(-energy.JoulesPerMole / GasConstant * (1 / panel - 1 / reference.Kelvin));
}
