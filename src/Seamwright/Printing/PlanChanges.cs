using Seamwright.Materials;
using Seamwright.Planning.Comparing;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What is done otherwise in one plan than in another, in short phrases.</summary>
internal static class PlanChanges
{
    /// <summary>The phrases, what weighs most first; at least one.</summary>
    public static IReadOnlyList<string> Of(Page page, PlanDifference difference)
    {
        string[] changes = [.. Joints(page, difference), .. Equipment(page, difference)];
        if (changes.Length == 0)
            changes = [.. Work(page, difference)];
        if (changes.Length > 0)
            return changes;
        // Nobody can see where the money went: its parts tell.
        string[] money = [.. CostParts.Differences(page, difference.Before.Cost, difference.After.Cost)];
        return [page.Say(difference.Joints.Any(joint => joint.Before.Applied != joint.After.Applied) ? "change.order-of-work" : "change.cures"), .. money];
    }

    private static IEnumerable<string> Joints(Page page, PlanDifference difference)
    {
        foreach (var same in difference.Joints.Where(joint => joint.IsOtherMaterial).GroupBy(joint => (Before: joint.Before.Material, After: joint.After.Material)))
            yield return page.Say("change.material", same.Select(joint => joint.Joint).ToList(), Name(page, same.Key.After), Name(page, same.Key.Before));
        foreach (var same in difference.Joints.Where(joint => joint.IsOtherPreparation && !joint.IsOtherMaterial).GroupBy(joint => joint.After.Preparation))
            yield return page.Say("change.preparation", same.Select(joint => joint.Joint).ToList(), same.Key);
    }

    private static IEnumerable<string> Equipment(Page page, PlanDifference difference)
    {
        if (!difference.NewlyWarmed.IsEmpty)
            yield return page.Say("change.lamp", difference.NewlyWarmed);
        if (!difference.NoLongerWarmed.IsEmpty)
            yield return page.Say("change.no-lamp", difference.NoLongerWarmed);
        if (!difference.NewlyInBooth.IsEmpty)
            yield return page.Say("change.booth", difference.NewlyInBooth);
        var (before, after) = (Ordered(difference.Before), Ordered(difference.After));
        if (before.Count == 0 && after.Count > 0)
            yield return page.Say("change.delivery", after);
        else if (before.Count > 0 && after.Count == 0)
            yield return page.Say("change.no-delivery", before);
        else if (!before.SequenceEqual(after))
            yield return page.Say("change.other-delivery", after, before);
    }

    /// <summary>The same materials by other hands or in other sessions.</summary>
    private static IEnumerable<string> Work(Page page, PlanDifference difference)
    {
        int sessions = Sessions(difference.After) - Sessions(difference.Before);
        if (sessions > 0)
            yield return page.Say("change.more-sessions", sessions);
        else if (sessions < 0)
            yield return page.Say("change.fewer-sessions", -sessions);
        foreach (var (person, labour) in difference.People)
            yield return page.Say("change.labour", person, page.Format.Word(labour, "signed"));
    }

    private static int Sessions(Plan plan) => plan.Steps.Count(step => step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Strip or StepKind.Abrade);

    private static List<string> Ordered(Plan plan) =>
        [.. plan.Orders.Where(line => line.What is not null).Select(line => line.What!.Value.Value).Distinct().Order(StringComparer.Ordinal)];

    private static string Name(Page page, MaterialId? material) => material?.Value ?? page.Say("print.nothing");
}
