using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// Everything about a repair that does not depend on what is asked: cure clocks, application times, judged options.
/// Built once a run; every variation of the problem is built from it.
/// </summary>
internal sealed class PlanningCase
{
    /// <param name="input">The repair.</param>
    /// <param name="shared">What is known about the air that other vehicles share; null = it is looked at for this one alone.</param>
    public PlanningCase(RepairInput input, SharedAir? shared = null)
    {
        Input = input;
        Sheets = input.Sheets.ToImmutableDictionary(sheet => sheet.Id);
        Time = new PlanTime(input.Repair.Now, End(input));
        Hours = new WorkingHours(Time, input.Shop, input.Repair.PaintSlots, roundTheClock: false);
        var panel = input.Repair.Panel is { } reading
            ? PanelClimate.FromReading(input.Climate, reading.At, reading.Temperature, input.Shop.PanelTimeConstant)
            : PanelClimate.FollowingAir(input.Climate);
        Cures = new Cures(shared?.Panel ?? panel, Time, EarliestFact(input.Repair), shared);
        Application = shared?.Application is { } longer ? new ApplicationTimes(longer, Time) : new ApplicationTimes(Cures, Time);
        ExpiringSoon = ExpiringStock.In(this);
        Primers = PrimerChoice.For(this);
        Joints = [.. input.Repair.Joints.Select(joint => JointFacts.For(this, joint))];
        Cavities = [.. input.Repair.Cavities.Select(cavity => JointFacts.For(this, cavity.AsJoint()))];
    }

    public RepairInput Input { get; }

    public Repair Repair => Input.Repair;

    public Shops.Shop Shop => Input.Shop;

    public ImmutableDictionary<MaterialId, DataSheet> Sheets { get; }

    public PlanTime Time { get; }

    public WorkingHours Hours { get; }

    public Cures Cures { get; }

    public ApplicationTimes Application { get; }

    /// <summary>Primers that may go on bare metal here, the usual one first.</summary>
    public ImmutableArray<DataSheet> Primers { get; }

    /// <summary>Materials of which a pack that is about to expire holds enough for the whole repair.</summary>
    public ImmutableHashSet<MaterialId> ExpiringSoon { get; }

    public ImmutableArray<JointFacts> Joints { get; }

    public ImmutableArray<JointFacts> Cavities { get; }

    /// <summary>Midnight after the plan's first day.</summary>
    public Instant Tomorrow => Shop.Zone.AtStartOfDay(Repair.Now.InZone(Shop.Zone).Date.PlusDays(1)).ToInstant();

    /// <summary>The shop's cavity wax: the first in stock, else the first sheet; null = none.</summary>
    public DataSheet? WaxSheet =>
        Input.Sheets.Where(sheet => sheet.Use == MaterialUse.CavityWax)
            .OrderBy(sheet => Input.Stock.Packs.Any(pack => pack.Material == sheet.Id) ? 0 : 1)
            .FirstOrDefault();

    public DataSheet? SheetOf(MaterialId? id) => id is { } known ? Sheets.GetValueOrDefault(known) : null;

    /// <summary>What follows paint is done within two working days after the last slot, with a weekend in between.</summary>
    internal static Instant End(RepairInput input) =>
        input.Repair.PaintSlots.Append(input.Repair.Now).Max() + Duration.FromDays(4);

    /// <summary>When cure work is done on a place, with the heat of a lamp that was put on it; null beyond two weeks after the plan.</summary>
    public Instant? FinishOn(PlaceId place, CureLaw law, ReferenceTime needed, Instant applied)
    {
        if (Repair.DoneOn(place, StepKind.Lamp) is not { HeatTo: { } target } lamp || Shop.Lamps is not { } lamps)
            return Cures.Finish(law, needed, applied);
        var ramp = lamps.Ramps.Where(offered => offered.Target >= target).Select(offered => (Duration?)offered.Ramp).FirstOrDefault() ?? lamps.Ramps[^1].Ramp;
        ramp = Duration.Min(ramp, lamp.End - lamp.Start);
        var heat = new HeatProfile(lamp.Start, target, ramp, lamp.End - lamp.Start - ramp, lamps.Cooling);
        return LocalHeatCure.Finish(needed, applied, heat, Cures.Panel, Cures.Clock(law));
    }

    /// <summary>When paint may go on a seam that is made, a lamp that cured it having cooled; null = not within two weeks after the plan.</summary>
    public Instant? ReadyOf(Joint joint, Step seam)
    {
        if (SheetOf(seam.Material) is not { } sheet)
            return seam.End;
        Instant? ready = seam.End;
        if (sheet.Milestone(MilestoneKind.Paint) is { } paint)
            ready = FinishOn(joint.Id, paint.Law, paint.Needed, seam.End);
        if (sheet.PaintNeedsCuredThrough && sheet.DepthCure is { } cure && ready is { } early)
            ready = FinishOn(joint.Id, cure.Law, cure.Needed(Beads.Depth(joint)), seam.End) is { } through ? Instant.Max(early, through) : null;
        if (ready is { } at && Repair.DoneOn(joint.Id, StepKind.Lamp) is { } lamp && lamp.Start >= seam.End && Shop.Lamps is { } lamps)
            ready = Instant.Max(at, lamp.End + lamps.Cooling);
        return ready;
    }

    /// <summary>The earliest moment that a fact of the repair names, at most now.</summary>
    internal static Instant EarliestFact(Repair repair)
    {
        var facts = repair.Joints.Select(joint => joint.Surface.Applied)
            .Concat(repair.BareAreas.Select(area => area.Surface.Applied))
            .Concat(repair.Bonds.Select(bond => bond.Closed))
            .Concat(repair.Done.Select(done => (Instant?)done.Start))
            .Append(repair.Panel?.At)
            .OfType<Instant>();
        return facts.Append(repair.Now).Min();
    }
}
