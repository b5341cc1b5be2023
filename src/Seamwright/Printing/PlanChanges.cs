using Seamwright.Materials;
using Seamwright.Planning.Comparing;
using Seamwright.Program.Texts;
using Seamwright.Work;

namespace Seamwright.Program.Printing;

/// <summary>What is done otherwise in one plan than in another, in short phrases.</summary>
internal static class PlanChanges
{
    /// <summary>The phrases, what weighs most first; at least one.</summary>
    public static IReadOnlyList<string> Of(Formatter format, PlanDifference difference)
    {
        string[] changes = [.. Joints(format, difference), .. Equipment(format, difference)];
        if (changes.Length == 0)
            changes = [.. Work(format, difference)];
        if (changes.Length > 0)
            return changes;
        // Nobody can see where the money went: its parts tell.
        string[] money = [.. CostParts.Differences(format, difference.Before.Cost, difference.After.Cost)];
        return [format.Say(difference.Joints.Any(joint => joint.Before.Applied != joint.After.Applied) ? "change.order-of-work" : "change.cures"), .. money];
    }

    private static IEnumerable<string> Joints(Formatter format, PlanDifference difference)
    {
        foreach (var same in difference.Joints.Where(joint => joint.IsOtherMaterial).GroupBy(joint => (Before: joint.Before.Material, After: joint.After.Material)))
            yield return format.Say("change.material", same.Select(joint => joint.Joint).ToList(), Name(format, same.Key.After), Name(format, same.Key.Before));
        foreach (var same in difference.Joints.Where(joint => joint.IsOtherPreparation && !joint.IsOtherMaterial).GroupBy(joint => joint.After.Preparation))
            yield return format.Say("change.preparation", same.Select(joint => joint.Joint).ToList(), same.Key);
    }

    private static IEnumerable<string> Equipment(Formatter format, PlanDifference difference)
    {
        if (!difference.NewlyWarmed.IsEmpty)
            yield return format.Say("change.lamp", difference.NewlyWarmed);
        if (!difference.NoLongerWarmed.IsEmpty)
            yield return format.Say("change.no-lamp", difference.NoLongerWarmed);
        if (!difference.NewlyInBooth.IsEmpty)
            yield return format.Say("change.booth", difference.NewlyInBooth);
        var (before, after) = (Ordered(difference.Before), Ordered(difference.After));
        if (before.Count == 0 && after.Count > 0)
            yield return format.Say("change.delivery", after);
        else if (before.Count > 0 && after.Count == 0)
            yield return format.Say("change.no-delivery", before);
        else if (!before.SequenceEqual(after))
            yield return format.Say("change.other-delivery", after, before);
    }

    /// <summary>The same materials by other hands or in other sessions.</summary>
    private static IEnumerable<string> Work(Formatter format, PlanDifference difference)
    {
        int sessions = Sessions(difference.After) - Sessions(difference.Before);
        if (sessions > 0)
            yield return format.Say("change.more-sessions", sessions);
        else if (sessions < 0)
            yield return format.Say("change.fewer-sessions", -sessions);
        foreach (var (person, labour) in difference.People)
            yield return format.Say("change.labour", person, format.Word(labour, "signed"));
    }

    private static int Sessions(Plan plan) => plan.Steps.Count(step => step.Kind is StepKind.Seal or StepKind.Prime or StepKind.Strip or StepKind.Abrade);

    private static List<string> Ordered(Plan plan) =>
        [.. plan.Orders.Where(line => line.What is not null).Select(line => line.What!.Value.Value).Distinct().Order(StringComparer.Ordinal)];

    private static string Name(Formatter format, MaterialId? material) => material?.Value ?? format.Say("print.nothing");
}
