using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using NodaTime;
using Seamwright.Costs;
using Seamwright.Planning.Mapping;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Reading;

/// <summary>A schedule back to a plan in the trade's words, with exact money.</summary>
internal sealed class PlanReader(PlanningCase planning, PlanOptions options)
{
    /// <summary>Version of the planning engine; it changes whenever equal inputs may give another plan.</summary>
    public const string EngineVersion = "1";

    private const decimal OneCent = 0.01m;

    /// <summary>Reads a plan.</summary>
    /// <param name="found">The schedule.</param>
    /// <param name="aim">What was optimised.</param>
    /// <param name="among">Which of several plans with that aim, part of the identity; empty = the one.</param>
    public Plan Read(Found found, PlanAim aim, string among = "")
    {
        var steps = StepReader.Read(planning, found);
        var supplies = Supplies.For(planning, steps, found.Project.Variation.Others);
        var slot = SlotOf(found);
        var ready = planning.Time.At(ReadyMoment.Of(found));
        var delivery = DeliveryOf(found);
        var joints = JointReader.Read(planning, found, slot);
        var cost = Cost(steps, supplies, slot, delivery);
        var bound = SolverMoney.Back(found.Bound - found.Project.Moving.In(found.Schedule), planning.Shop.Currency);
        // The search prices packs in bulk. Where the packs taken one by one cost more, or do not give everything, its proof is not one of this plan.
        bool asProven = supplies.IsComplete && cost.Total.Amount - bound.Amount < OneCent && bound.Amount - cost.Total.Amount < OneCent;
        return new Plan
        {
            Id = Identity(aim, among),
            ParentId = options.ParentId,
            InputHash = planning.Input.ContentHash,
            Seed = options.Seed,
            EngineVersion = EngineVersion,
            Aim = aim,
            ProvenOptimal = found.Proven && asProven,
            LowerBound = bound > cost.Total ? cost.Total : bound,
            Joints = joints,
            Steps = steps,
            PackUses = supplies.Uses,
            Orders = supplies.Orders,
            Mixes = supplies.Mixes,
            ReadyForPaint = ready,
            Slot = slot,
            ReadyForDelivery = delivery,
            HeldUpBy = HoldupReader.Read(planning, found, steps, supplies),
            Cost = cost,
            Warnings = WarningReader.Warnings(planning, found, steps, supplies, joints),
            Cautions = WarningReader.Cautions(planning, steps),
        };
    }

    /// <summary>Total cost of a schedule without reading the whole plan.</summary>
    public CostBreakdown CostOf(Found found)
    {
        var steps = StepReader.Read(planning, found);
        return Cost(steps, Supplies.For(planning, steps, found.Project.Variation.Others), SlotOf(found), DeliveryOf(found));
    }

    /// <summary>The end of the last work on the car.</summary>
    private Instant DeliveryOf(Found found) =>
        planning.Time.At(ActiveLags.Into(found, TimePoint.StartOf(ProjectBuilder.Deliver)).Select(lag => lag.Earliest).DefaultIfEmpty(0).Max());

    /// <summary>Labour of one step.</summary>
    public Money LabourOf(Work.Step step) =>
        planning.Shop.People.FirstOrDefault(person => person.Id == step.Person) is { } person
            ? person.PerHour * ((decimal)step.Labour.TotalMinutes / 60)
            : Money.Zero;

    public Instant SlotOf(Found found)
    {
        var paint = found.Schedule[ProjectBuilder.Paint];
        return found.Project.Modes.GetValueOrDefault((ProjectBuilder.Paint, paint.Mode!.Value))?.Slot ?? planning.Time.At(paint.Start);
    }

    private CostBreakdown Cost(ImmutableArray<Work.Step> steps, Supplies supplies, Instant slot, Instant delivery)
    {
        var shop = planning.Shop;
        var zero = new Money(0, shop.Currency);
        var labour = steps.Aggregate(zero, (sum, step) => sum + LabourOf(step));
        var lamp = steps.Where(step => step.Kind == StepKind.Lamp)
            .Aggregate(zero, (sum, step) => sum + (shop.Lamps!.PerStartedHour * StartedHours(step.End - step.Start + shop.Lamps.Cooling)));
        var booth = steps.Where(step => step is { Kind: StepKind.StoneChip, HeatTo: not null })
            .Aggregate(zero, (sum, step) => sum + (shop.Booth!.PerStartedHour * StartedHours(step.End - step.Start)));
        return new CostBreakdown
        {
            Labour = labour,
            Material = zero + supplies.Charge.Used,
            Nozzles = zero + supplies.Charge.Nozzles,
            Wasted = zero + supplies.Charge.Wasted,
            SavedFromExpiry = zero + supplies.SavedFromExpiry,
            Delivery = zero + supplies.Delivery,
            Lamp = lamp,
            Booth = booth,
            BayTime = zero + (shop.TimeValue.BayDay * planning.Hours.BayDays(planning.Repair.MeantSlot ?? slot, slot)),
            Lateness = zero + Lateness(delivery),
        };
    }

    private Money Lateness(Instant delivery)
    {
        int at = planning.Time.Ceiling(delivery);
        int hours = planning.Hours.StartedHoursAfter(planning.Repair.Promise).TakeWhile(minute => minute <= at).Count();
        var late = planning.Shop.TimeValue.LatePerStartedHour * hours;
        return late > planning.Shop.TimeValue.LateAtMost ? planning.Shop.TimeValue.LateAtMost : late;
    }

    private static decimal StartedHours(Duration duration) => (decimal)Math.Ceiling(duration.TotalHours - 1e-9);

    private string Identity(PlanAim aim, string among)
    {
        string all = $"{planning.Input.ContentHash}|{aim}|{options.Seed}|{EngineVersion}|{options.ParentId}{(among.Length == 0 ? "" : $"|{among}")}";
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all)))[..16];
    }
}
