using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Planning.Checking;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;
using Xunit;

namespace Seamwright.Planning.Tests.Checking;

/// <summary>A good plan of an example, spoilt in one way: the checker must say so.</summary>
public sealed class MutationTests
{
    private static readonly Dictionary<string, (string Example, Func<Plan, Plan> Spoil)> Mutations = new()
    {
        ["check-before-now"] = ("evening-slot", plan => Shift(plan, First(plan, StepKind.Seal), Duration.FromHours(-1))),
        ["check-nobody"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Person = null })),
        ["check-unknown-person"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Person = "visitor" })),
        ["check-skill"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Person = "helper" })),
        ["check-hours"] = ("evening-slot", plan => Shift(plan, First(plan, StepKind.Seal), Duration.FromHours(3))),
        ["check-labour"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Labour = step.Labour + Duration.FromMinutes(1) })),
        ["check-two-at-once"] = ("evening-slot", plan => Change(plan, Last(plan, StepKind.Seal), step => Moved(step, First(plan, StepKind.Seal).Start - step.Start))),
        ["check-weekend"] = ("cold-night", plan => Shift(plan, First(plan, StepKind.Wax), Duration.FromHours(-2))),
        ["check-before-paint-ended"] = ("cold-night", plan => Shift(plan, First(plan, StepKind.Wax), Duration.FromMinutes(-30))),
        ["check-before-wax"] = ("cold-night", plan => Shift(plan, First(plan, StepKind.Refit), Duration.FromMinutes(-20))),
        ["check-lamp-not-free"] = ("hem-tape", plan => Shift(plan, First(plan, StepKind.Lamp), Duration.FromHours(2))),
        ["check-lamp-set-up"] = ("hem-tape", plan => Without(plan, First(plan, StepKind.SetUpLamp))),
        ["check-lamp-count"] = ("hem-tape", plan => plan with { Steps = plan.Steps.Add(First(plan, StepKind.Lamp) with { Id = "S99" }) }),
        ["check-lamp-too-hot"] = ("hem-tape", plan => Change(plan, First(plan, StepKind.Lamp), step => step with { HeatTo = Temperature.FromCelsius(70) })),
        ["check-lamp-hold"] = ("hem-tape", plan => Change(plan, First(plan, StepKind.Lamp), step => step with { End = step.End - Duration.FromMinutes(15) })),
        ["check-bond-too-soon"] = ("hem-tape", plan => Without(plan, First(plan, StepKind.Lamp))),
        ["check-bond-not-cleaned"] = ("hem-tape", plan => Without(plan, First(plan, StepKind.CleanBond))),
        ["check-bond-once"] = ("aluminium-apron", plan => Without(plan, First(plan, StepKind.Bond))),
        ["check-operation-once"] = ("aluminium-apron", plan => Without(plan, First(plan, StepKind.Operation))),
        ["check-too-early"] = ("aluminium-apron", plan => Shift(plan, First(plan, StepKind.Bond), Duration.FromMinutes(-30))),
        ["check-sealed-once"] = ("evening-slot", plan => Without(plan, First(plan, StepKind.Seal))),
        ["check-no-seam-there"] = ("hem-tape", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Places = step.Places.Add(new PlaceId("J4")) })),
        ["check-joint-and-step"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Material = new MaterialId("PU1") })),
        ["check-refused"] = ("evening-slot", plan => Take(plan, "J3", "PU1")),
        ["check-amount"] = ("evening-slot", plan => Change(plan, First(plan, StepKind.Seal), step => step with { Amount = step.Amount * 0.5 })),
        ["check-preparation"] = ("evening-slot", plan => Decide(plan, "J1", joint => joint with { Preparation = Preparation.Prime })),
        ["check-window-missed"] = ("roof-skin", plan => Decide(plan, "J2", joint => joint with { Preparation = Preparation.AsIs })),
        ["check-not-abraded"] = ("roof-skin", plan => Without(plan, plan.Steps.First(step => step.Kind == StepKind.Abrade && step.Places.Contains(new PlaceId("J2"))))),
        ["check-not-cleaned"] = ("roof-skin", plan => Without(plan, First(plan, StepKind.Strip))),
        ["check-not-primed"] = ("roof-skin", plan => Without(plan, First(plan, StepKind.Prime))),
        ["check-coat-not-dry"] = ("roof-skin", plan => ShiftJoint(plan, "J1", Duration.FromMinutes(-30))),
        ["check-not-level"] = ("roof-skin", plan => Without(plan, First(plan, StepKind.Level))),
        ["check-after-paint-began"] = ("roof-skin", plan => ShiftJoint(plan, "J1", Duration.FromHours(6))),
        ["check-not-ready"] = ("evening-slot", plan => ShiftJoint(plan, "J2", Duration.FromMinutes(40))),
        ["check-joint-ready"] = ("evening-slot", plan => Decide(plan, "J1", joint => joint with { Ready = joint.Ready + Duration.FromMinutes(5) })),
        ["check-ready-for-paint"] = ("evening-slot", plan => plan with { ReadyForPaint = plan.ReadyForPaint - Duration.FromMinutes(5) }),
        ["check-ready-after-slot"] = ("evening-slot", plan => plan with { ReadyForPaint = plan.Slot + Duration.FromMinutes(1) }),
        ["check-slot"] = ("evening-slot", plan => plan with { Slot = plan.Slot + Duration.FromHours(1) }),
        ["check-limits"] = ("cold-night", plan => Without(plan, First(plan, StepKind.Lamp))),
        ["check-work-time"] = ("roof-skin", plan => Change(plan, Last(plan, StepKind.Seal), step => step with { End = step.End + Duration.FromMinutes(10) })),
        ["check-foam-once"] = ("evening-slot", plan => Without(plan, First(plan, StepKind.Foam))),
        ["check-not-waxed"] = ("cold-night", plan => Without(plan, First(plan, StepKind.Wax))),
        ["check-work-missing"] = ("evening-slot", plan => Without(plan, First(plan, StepKind.FinalCheck))),
        ["check-delivery"] = ("evening-slot", plan => plan with { ReadyForDelivery = plan.ReadyForDelivery - Duration.FromHours(1) }),
        ["check-not-supplied"] = ("evening-slot", plan => plan with { PackUses = plan.PackUses.RemoveAt(0) }),
        ["check-overdrawn"] = ("evening-slot", plan => Use(plan, 0, use => use with { Amount = Volume.FromLitres(1) })),
        ["check-unusable"] = ("evening-slot", plan => Use(plan, plan.PackUses.FindIndex(use => use.Material.Value == "SL2"), use => use with { Pack = new PackId("A"), Ordered = false })),
        ["check-other-material"] = ("evening-slot", plan => Use(plan, 0, use => use with { Material = new MaterialId("MS1") })),
        ["check-no-such-pack"] = ("evening-slot", plan => Use(plan, 0, use => use with { Pack = new PackId("nowhere") })),
        ["check-nozzles-planned"] = ("evening-slot", plan => Use(plan, plan.PackUses.FindIndex(use => use.Nozzles > 0), use => use with { Nozzles = 0 })),
        ["check-nozzles-missing"] = ("evening-slot", plan => plan with { Orders = plan.Orders.RemoveAll(order => order.What is null) }),
        ["check-use-without-step"] = ("evening-slot", plan => Use(plan, 0, use => use with { StepId = "S99" })),
        ["check-not-ordered"] = ("evening-slot", plan => plan with { Orders = plan.Orders.RemoveAll(order => order.What is not null) }),
        ["check-ordered-too-few"] = ("evening-slot", plan => Order(plan, order => order with { Count = 0 })),
        ["check-order-hours"] = ("evening-slot", plan => Order(plan, order => order with { OrderBy = order.OrderBy + Duration.FromHours(5) })),
        ["check-order-late"] = ("evening-slot", plan => Order(plan, order => order with { OrderBy = order.OrderBy + Duration.FromMinutes(90) })),
        ["check-used-before-arrival"] = ("evening-slot", plan => Order(plan, order => order with { Arrives = order.Arrives + Duration.FromMinutes(30) })),
        ["check-order-price"] = ("evening-slot", plan => Order(plan, order => order with { Price = order.Price * 2 })),
        ["check-cost"] = ("evening-slot", plan => plan with { Cost = plan.Cost with { Labour = plan.Cost.Labour + new Money(0.01m, plan.Cost.Labour.Currency) } }),
        ["check-access"] = ("quarter-panel-us", plan => ShiftJoint(plan, "J1", Duration.FromDays(2))),
        ["check-stone-chip-once"] = ("quarter-panel-us", plan => Without(plan, First(plan, StepKind.StoneChip))),
        ["check-paint-window"] = ("quarter-panel-us", plan => plan with { Steps = [.. plan.Steps.Select(step => step.Kind == StepKind.Paint ? Moved(step, Duration.FromDays(9)) : step)] }),
    };

    public static TheoryData<string> Keys => [.. Mutations.Keys.Order(StringComparer.Ordinal)];

    [Theory, MemberData(nameof(Keys))]
    public void A_spoilt_plan_is_found_out(string key)
    {
        var (example, spoil) = Mutations[key];
        var spoilt = spoil(Examples.Recommended(example));

        Assert.Contains(PlanChecker.Check(Examples.Read(example), spoilt), reason => reason.Key == key);
    }

    private static Step First(Plan plan, StepKind kind) => plan.Steps.First(step => step.Kind == kind);

    private static Step Last(Plan plan, StepKind kind) => plan.Steps.Last(step => step.Kind == kind);

    private static Plan Change(Plan plan, Step step, Func<Step, Step> change) => plan with { Steps = plan.Steps.Replace(step, change(step)) };

    private static Plan Without(Plan plan, Step step) => plan with { Steps = plan.Steps.Remove(step) };

    private static Step Moved(Step step, Duration by) => step with { Start = step.Start + by, End = step.End + by };

    private static Plan Shift(Plan plan, Step step, Duration by) => Change(plan, step, moved => Moved(moved, by));

    private static Plan ShiftJoint(Plan plan, string joint, Duration by)
    {
        var place = new PlaceId(joint);
        var moved = Shift(plan, plan.Steps.First(step => step.Kind == StepKind.Seal && step.Places.Contains(place)), by);
        return Decide(moved, joint, decided => decided with { Applied = new Interval(decided.Applied!.Value.Start + by, decided.Applied.Value.End + by) });
    }

    private static Plan Decide(Plan plan, string joint, Func<JointPlan, JointPlan> change) =>
        plan with { Joints = [.. plan.Joints.Select(decided => decided.Joint.Value == joint ? change(decided) : decided)] };

    private static Plan Take(Plan plan, string joint, string material)
    {
        var step = plan.Steps.First(step => step.Kind == StepKind.Seal && step.Places.Contains(new PlaceId(joint)));
        return Decide(Change(plan, step, taken => taken with { Material = new MaterialId(material) }), joint, decided => decided with { Material = new MaterialId(material) });
    }

    private static Plan Use(Plan plan, int index, Func<PackUse, PackUse> change) => plan with { PackUses = plan.PackUses.SetItem(index, change(plan.PackUses[index])) };

    private static Plan Order(Plan plan, Func<OrderLine, OrderLine> change)
    {
        int index = plan.Orders.FindIndex(order => order.What is not null);
        return plan with { Orders = plan.Orders.SetItem(index, change(plan.Orders[index])) };
    }
}

file static class Lists
{
    public static int FindIndex<T>(this ImmutableArray<T> items, Predicate<T> found) => Array.FindIndex([.. items], found);
}
