using System.Collections.Immutable;
using NodaTime;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Comparing;

/// <summary>What is different in one plan against another of the same vehicle.</summary>
public sealed record PlanDifference
{
    /// <summary>The plan compared with.</summary>
    public required Plan Before { get; init; }

    /// <summary>The other plan.</summary>
    public required Plan After { get; init; }

    /// <summary>
    /// Working days by which the wanted slot itself was moved, in money. A plan counts its days from its own wanted slot, so without this a car that has
    /// to wait for a later one would look no dearer.
    /// </summary>
    public Money SlotMoved { get; init; }

    /// <summary>Ready for paint; positive = later.</summary>
    public Duration ReadyShift => After.ReadyForPaint - Before.ReadyForPaint;

    /// <summary>Handed over; positive = later.</summary>
    public Duration DeliveryShift => After.ReadyForDelivery - Before.ReadyForDelivery;

    /// <summary>Total cost; positive = dearer. To the cent between two sums told to the cent, so that it is what anybody gets who subtracts them.</summary>
    public Money CostShift => (After.Cost.Total + SlotMoved).Rounded - Before.Cost.Total.Rounded;

    /// <summary>Money spent, time not counted; positive = dearer. To the cent, as <see cref="CostShift"/>.</summary>
    public Money SpentShift => After.Cost.Spent.Rounded - Before.Cost.Spent.Rounded;

    /// <summary>True where another slot is taken.</summary>
    public bool IsOtherSlot => After.Slot != Before.Slot;

    /// <summary>Joints that are done otherwise or at another time, in the repair's order.</summary>
    public required ImmutableArray<JointDifference> Joints { get; init; }

    /// <summary>Places that a lamp warms in the other plan only.</summary>
    public required ImmutableArray<PlaceId> NewlyWarmed { get; init; }

    /// <summary>Places that a lamp warms in the plan compared with only.</summary>
    public required ImmutableArray<PlaceId> NoLongerWarmed { get; init; }

    /// <summary>Places coated in the warm booth in the other plan only.</summary>
    public required ImmutableArray<PlaceId> NewlyInBooth { get; init; }

    /// <summary>Minutes that each person works more (or, negative, less) on the car; those with no difference left out. By name.</summary>
    public required ImmutableArray<(string Person, Duration Labour)> People { get; init; }

    /// <summary>Compares two plans.</summary>
    /// <param name="before">The plan compared with.</param>
    /// <param name="after">The other plan.</param>
    /// <param name="slotMoved">See <see cref="SlotMoved"/>.</param>
    public static PlanDifference Between(Plan before, Plan after, Money slotMoved = default)
    {
        var warmed = (Before: Warmed(before), After: Warmed(after));
        return new PlanDifference
        {
            Before = before,
            After = after,
            SlotMoved = slotMoved,
            Joints = [.. JointsOf(before, after)],
            NewlyWarmed = [.. warmed.After.Except(warmed.Before).Order()],
            NoLongerWarmed = [.. warmed.Before.Except(warmed.After).Order()],
            NewlyInBooth = [.. InBooth(after).Except(InBooth(before)).Order()],
            People = [.. PeopleOf(before, after)],
        };
    }

    private static IEnumerable<JointDifference> JointsOf(Plan before, Plan after)
    {
        foreach (var joint in after.Joints)
        {
            if (before.Joints.FirstOrDefault(other => other.Joint == joint.Joint) is { } was && new JointDifference(was, joint) is { IsAny: true } difference)
                yield return difference;
        }
    }

    private static IEnumerable<PlaceId> Warmed(Plan plan) => plan.Steps.Where(step => step.Kind == StepKind.Lamp).SelectMany(step => step.Places).Distinct();

    private static IEnumerable<PlaceId> InBooth(Plan plan) =>
        plan.Steps.Where(step => step is { Kind: StepKind.StoneChip, HeatTo: not null }).SelectMany(step => step.Places).Distinct();

    private static IEnumerable<(string Person, Duration Labour)> PeopleOf(Plan before, Plan after)
    {
        foreach (string person in before.Steps.Concat(after.Steps).Select(step => step.Person).OfType<string>().Distinct().Order(StringComparer.Ordinal))
        {
            var shift = Labour(after, person) - Labour(before, person);
            if (shift != Duration.Zero)
                yield return (person, shift);
        }
    }

    private static Duration Labour(Plan plan, string person) =>
        plan.Steps.Where(step => step.Person == person).Aggregate(Duration.Zero, (sum, step) => sum + step.Labour);
}

/// <summary>One joint in two plans.</summary>
/// <param name="Before">As it was.</param>
/// <param name="After">As it would be.</param>
public sealed record JointDifference(JointPlan Before, JointPlan After)
{
    /// <summary>The joint.</summary>
    public PlaceId Joint => After.Joint;

    /// <summary>True where it takes another material.</summary>
    public bool IsOtherMaterial => Before.Material != After.Material;

    /// <summary>True where its surface is prepared otherwise.</summary>
    public bool IsOtherPreparation => Before.Preparation != After.Preparation;

    /// <summary>True where it is applied or ready at another time.</summary>
    public bool IsOtherTime => Before.Applied != After.Applied || Before.Ready != After.Ready;

    /// <summary>True where anything is different.</summary>
    public bool IsAny => IsOtherMaterial || IsOtherPreparation || IsOtherTime || Before.Heated != After.Heated;
}
