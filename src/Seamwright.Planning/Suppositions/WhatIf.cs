using System.Collections.Immutable;
using Seamwright.Planning.Choices;
using Seamwright.Planning.Comparing;
using Seamwright.Planning.Conflicts;
using Seamwright.Planning.Mapping;
using Seamwright.Planning.Reading;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>Plans a repair as it stands and as supposed, and tells the difference.</summary>
public static class WhatIf
{
    /// <summary>Answers. Pure: equal inputs, suppositions, options and engine version give the equal answer.</summary>
    /// <param name="input">The repair as it stands.</param>
    /// <param name="suppositions">What is supposed, in order; none = the answer tells no difference.</param>
    /// <param name="options">How to plan; null = defaults.</param>
    public static WhatIfAnswer Answer(RepairInput input, ImmutableArray<Supposition> suppositions, PlanOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var asked = (options ?? new PlanOptions()) with { Alternatives = false, Explain = null };
        var supposed = Supposition.ApplyAll(input, suppositions);
        var answer = new WhatIfAnswer { Supposed = suppositions, Problems = supposed.Problems, Input = supposed.Input };
        if (supposed.Input is not { } then)
            return answer;

        // The present plan first: where it is still as good as any, the answer keeps to it instead of showing another that is no better.
        var (present, start) = PlanOf(new PlanningCase(input), asked, null);
        answer = answer with { Present = present };
        if (suppositions.IsEmpty)
            return present is null ? answer with { Conflicts = ConflictFinder.Find(new PlanningCase(input), asked) } : Compared(answer, present, default);
        var planning = new PlanningCase(then);
        if (Refusals(planning, suppositions) is { IsEmpty: false } refused)
            return answer with { Refused = refused };
        return PlanOf(planning, asked, start).Plan is { } plan
            ? Compared(answer, plan, SlotMoved(input.Repair, planning))
            : answer with { Conflicts = ConflictFinder.Find(planning, asked) };
    }

    private static WhatIfAnswer Compared(WhatIfAnswer answer, Plan then, Money slotMoved) => answer with
    {
        Then = then,
        Difference = answer.Present is { } present ? PlanDifference.Between(present, then, slotMoved) : null,
    };

    private static (Plan? Plan, Found? Found) PlanOf(PlanningCase planning, PlanOptions options, Found? start) =>
        new PlanSearch(planning, options).Best(Variation.Recommended, start) is { } best
            ? (new PlanReader(planning, options).Read(best, PlanAim.Recommended), best)
            : (null, null);

    /// <summary>The material itself may be out of the question: then its verdicts say more than any search.</summary>
    private static ImmutableArray<SupposedRefusal> Refusals(PlanningCase planning, ImmutableArray<Supposition> suppositions)
    {
        var refusals = ImmutableArray.CreateBuilder<SupposedRefusal>();
        foreach (var takes in suppositions.OfType<JointTakes>())
        {
            var option = planning.Joints.First(facts => facts.Joint.Id == takes.Joint).Options
                .Where(option => option.Sheet.Id == takes.Material)
                .OrderBy(option => option.Overall).ThenBy(option => option.Preparation)
                .First();
            var verdicts = option.Verdicts.AddRange(TimedVerdicts.For(planning, option, chosen: false));
            if (!Verdicts.MayBeUsed(verdicts))
                refusals.Add(new SupposedRefusal(takes.Joint, takes.Material, [.. verdicts.Where(verdict => verdict.Kind > VerdictKind.Advice).OrderByDescending(verdict => verdict.Kind)]));
        }
        return refusals.ToImmutable();
    }

    private static Money SlotMoved(Repair before, PlanningCase after)
    {
        var zero = new Money(0, after.Shop.Currency);
        if (before.PaintSlots.IsEmpty || after.Repair.PaintSlots.IsEmpty)
            return zero;
        var (was, isNow) = (before.PaintSlots[0], after.Repair.PaintSlots[0]);
        return zero + (after.Shop.TimeValue.BayDay * (after.Hours.BayDays(was, isNow) - after.Hours.BayDays(isNow, was)));
    }
}
