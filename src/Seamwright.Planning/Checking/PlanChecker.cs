using System.Collections.Immutable;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>
/// Checks a finished plan in the words of the trade. It shares no code with the planner: it has its own minute-by-minute integration of the
/// cure laws, its own panel and its own saturation pressure, and reads nothing but the records and <see cref="Air.Climate.At"/>.
/// </summary>
/// <remarks>
/// Times may differ by two minutes: the plan rounds a cure up to a whole minute and a window down to one (up to one minute), and sums over
/// whole minutes meet a jump of the air in the middle of a minute (up to one more). Panel temperatures may differ by 0.15 K and water by
/// 0.05 g/kg, because the plan looks at the air every five minutes and the air falls by up to 0.03 K a minute when the heating goes off.
/// Money must agree to the cent.
/// </remarks>
public static class PlanChecker
{
    /// <summary>Checks a plan against what it was made from.</summary>
    /// <param name="input">What the plan was made from.</param>
    /// <param name="plan">The plan.</param>
    /// <returns>What is wrong, one reason each, by topic; empty where the plan holds.</returns>
    public static ImmutableArray<Reason> Check(RepairInput input, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(plan);
        var subject = new CheckedPlan(input, plan);
        return
        [
            .. PeopleCheck.Of(subject),
            .. EquipmentCheck.Of(subject),
            .. SeamCheck.Of(subject),
            .. PreparationCheck.Of(subject),
            .. AreaCheck.Of(subject),
            .. BondCheck.Of(subject),
            .. OrderOfWorkCheck.Of(subject),
            .. LimitsCheck.Of(subject),
            .. WorkTimeCheck.Of(subject),
            .. ReadyCheck.Of(subject),
            .. AfterPaintCheck.Of(subject),
            .. StockCheck.Of(subject),
            .. NozzleCheck.Of(subject),
            .. OrderCheck.Of(subject),
            .. CostCheck.Of(subject),
        ];
    }
}
