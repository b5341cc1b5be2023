using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Shops;
using Seamwright.Work;

namespace Seamwright.Planning.Checking;

/// <summary>A plan under the checker's eyes: the input, the minute-by-minute air, and look-ups by place.</summary>
internal sealed class CheckedPlan
{
    /// <summary>Cure times and instants may differ by this; why is said at <see cref="PlanChecker"/>.</summary>
    public static readonly Duration Tolerance = Duration.FromMinutes(2);

    public CheckedPlan(RepairInput input, Plan plan)
    {
        Input = input;
        Plan = plan;
        Sheets = input.Sheets.ToImmutableDictionary(sheet => sheet.Id);
        Air = new MinuteAir(input);
        Cures = new MinuteCure(Air);
        var paint = input.Repair.Done.Concat(plan.Steps).FirstOrDefault(step => step.Kind == StepKind.Paint);
        PaintStart = paint?.Start ?? plan.Slot;
        PaintEnd = paint?.End ?? plan.Slot;
    }

    public RepairInput Input { get; }

    public Plan Plan { get; }

    public ImmutableDictionary<MaterialId, DataSheet> Sheets { get; }

    public MinuteAir Air { get; }

    public MinuteCure Cures { get; }

    public Instant PaintStart { get; }

    public Instant PaintEnd { get; }

    public Repair Repair => Input.Repair;

    public Shop Shop => Input.Shop;

    /// <summary>What is still to do.</summary>
    public ImmutableArray<Step> Steps => Plan.Steps;

    /// <summary>What is done or under way: nobody can plan it otherwise.</summary>
    public ImmutableArray<Step> Facts => Repair.Done;

    /// <summary>What is done and what is still to do.</summary>
    public IEnumerable<Step> All => Facts.Concat(Steps);

    public bool IsPainted => Facts.Any(step => step.Kind == StepKind.Paint);

    public bool IsSealed(PlaceId joint) => Facts.Any(step => step.Kind == StepKind.Seal && step.Places.Contains(joint));

    /// <summary>Hot work that is still to come near a place.</summary>
    public bool IsHeatToCome(PlaceId place) =>
        Repair.Operations.Any(operation => operation.HotWork && operation.Near.Contains(place) && !Facts.Any(step => step.Kind == StepKind.Operation && step.Places.Contains(operation.Id)));

    /// <summary>Steps of a kind on a place, done or still to do.</summary>
    public IEnumerable<Step> On(PlaceId place, params ReadOnlySpan<StepKind> kinds)
    {
        var wanted = kinds.ToArray();
        return All.Where(step => wanted.Contains(step.Kind) && step.Places.Contains(place));
    }

    public DataSheet? SheetOf(MaterialId? id) => id is { } known ? Sheets.GetValueOrDefault(known) : null;

    /// <summary>Joints that must get a seam: the factory had one, and sealing or anti-flutter is what it is there for.</summary>
    public IEnumerable<Joint> SeamJoints =>
        Repair.Joints.Where(joint => joint.Look.Profile != Profile.None && joint.Function is JointFunction.Seal or JointFunction.AntiFlutter);

    /// <summary>What lies on a joint when the seams are made: heat still to come burns a coat off.</summary>
    public Joint AfterHeat(Joint joint)
    {
        bool burnt = !joint.Surface.IsBareMetal && IsHeatToCome(joint.Id);
        if (!burnt)
            return joint;
        var metal = joint.Metals.Contains(Metal.Aluminium) ? SurfaceKind.BareAluminium
            : joint.Metals.Contains(Metal.ZincCoatedSteel) ? SurfaceKind.ZincCoatedSteel
            : SurfaceKind.BareSteel;
        return joint with { Surface = new Surface(metal, null, null) };
    }

    /// <summary>The bond whose edge is primed again and takes a bare joint along; null = none.</summary>
    public Bond? PrimedWith(Joint joint) => Repair.Bonds.FirstOrDefault(bond => bond.RePrime && joint.After.Contains(bond.Id));

    /// <summary>Heat that a lamp puts on a place, by start.</summary>
    public ImmutableArray<LampHeat> HeatOn(PlaceId place) =>
        Shop.Lamps is not { } lamps ? [] :
        [
            .. On(place, StepKind.Lamp).Where(step => step.HeatTo is not null).OrderBy(step => step.Start)
                .Select(step => LampHeat.Of(step, lamps)),
        ];
}

/// <summary>One run of a lamp on a panel: a straight ramp, a hold, a straight way back.</summary>
/// <param name="Start">Heat on.</param>
/// <param name="Ramp">Time to the target.</param>
/// <param name="Off">Heat off.</param>
/// <param name="Cooling">Time back.</param>
/// <param name="Kelvin">Temperature held.</param>
internal readonly record struct LampHeat(Instant Start, Duration Ramp, Instant Off, Duration Cooling, double Kelvin)
{
    public static LampHeat Of(Step step, LampPark lamps)
    {
        double target = step.HeatTo!.Value.Kelvin;
        var ramp = lamps.Ramps.Where(offered => offered.Target.Kelvin >= target - 1e-6).Select(offered => (Duration?)offered.Ramp).FirstOrDefault()
            ?? lamps.Ramps.Select(offered => offered.Ramp).LastOrDefault();
        return new LampHeat(step.Start, Duration.Min(ramp, step.End - step.Start), step.End, lamps.Cooling, target);
    }
}
