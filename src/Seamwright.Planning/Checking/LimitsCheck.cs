using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>
/// Panel temperature, humidity, water and dew point at every minute of every application, and dew until touch-dry. Wax is left out: it goes
/// into a car that comes warm out of the bake, and the bake's own heat is not modelled.
/// </summary>
internal static class LimitsCheck
{
    /// <summary>How far a panel may be off its limit between two looks of the plan at the air. [K]</summary>
    private const double Kelvins = 0.15;

    private const double Humidity = 0.01;

    private const double GramsPerKilogram = 0.05;

    public static IEnumerable<Reason> Of(CheckedPlan plan)
    {
        foreach (var step in plan.Steps.Where(step => step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Bond or StepKind.Foam or StepKind.StoneChip))
        {
            // In the booth the booth's heat counts, and EquipmentCheck looks at that.
            if (plan.SheetOf(step.Material) is not { } sheet || step is { Kind: StepKind.StoneChip, HeatTo: not null })
                continue;
            foreach (var place in step.Places)
            {
                if (FirstOutside(plan, step, sheet, plan.HeatOn(place)) is { } at)
                    yield return Reason.Of("check-limits", step.Id, place, sheet.Id, at);
            }
        }
    }

    private static Instant? FirstOutside(CheckedPlan plan, Step step, DataSheet sheet, ImmutableArray<LampHeat> heats)
    {
        int from = (int)Math.Floor(plan.Air.MinuteOf(step.Start)), to = (int)Math.Ceiling(plan.Air.MinuteOf(step.End));
        for (int minute = from; minute <= to; minute++)
        {
            if (!Allows(plan.Air, sheet.Limits, minute, heats))
                return plan.Air.At(minute);
        }
        var dry = sheet.Milestone(MilestoneKind.TouchDry) ?? sheet.Milestone(MilestoneKind.Skin) ?? sheet.Milestone(MilestoneKind.TackFree);
        if (dry is null || plan.Cures.Reached(dry, step.End, heats) is not { } until)
            return null;
        for (int minute = to; minute <= plan.Air.MinuteOf(until); minute++)
        {
            if (!IsDry(plan.Air, sheet.Limits, minute, heats))
                return plan.Air.At(minute);
        }
        return null;
    }

    private static bool Allows(MinuteAir air, ApplicationLimits limits, int minute, ImmutableArray<LampHeat> heats)
    {
        double panel = air.Panel(minute, heats), humidity = air.Humidity(minute);
        return !(panel < limits.PanelFrom?.Kelvin - Kelvins || panel > limits.PanelTo?.Kelvin + Kelvins)
            && !(humidity < limits.HumidityFrom?.Fraction - Humidity || humidity > limits.HumidityTo?.Fraction + Humidity)
            && !(air.Water(minute) < limits.LeastWater?.GramsPerKilogram - GramsPerKilogram)
            && IsDry(air, limits, minute, heats);
    }

    /// <summary>The panel is above the dew point by the margin where air cooled to the panel less the margin would still be below saturation.</summary>
    private static bool IsDry(MinuteAir air, ApplicationLimits limits, int minute, ImmutableArray<LampHeat> heats) =>
        MinuteAir.Saturation(air.Panel(minute, heats) - limits.DewPointMargin.Kelvins + Kelvins) >= air.Vapour(minute);
}
