using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// Everything about a repair that does not depend on what is asked: cure clocks, application times, judged options.
/// Built once a run; every variation of the problem is built from it.
/// </summary>
internal sealed class PlanningCase
{
    public PlanningCase(RepairInput input)
    {
        Input = input;
        Sheets = input.Sheets.ToImmutableDictionary(sheet => sheet.Id);
        Time = new PlanTime(input.Repair.Now, End(input));
        Hours = new WorkingHours(Time, input.Shop, input.Repair.PaintSlots, roundTheClock: false);
        var panel = input.Repair.Panel is { } reading
            ? PanelClimate.FromReading(input.Climate, reading.At, reading.Temperature, input.Shop.PanelTimeConstant)
            : PanelClimate.FollowingAir(input.Climate);
        Cures = new Cures(panel, Time, EarliestFact(input.Repair));
        Application = new ApplicationTimes(Cures, Time);
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
    private static Instant End(RepairInput input) =>
        input.Repair.PaintSlots.Append(input.Repair.Now).Max() + Duration.FromDays(4);

    private static Instant EarliestFact(Repair repair)
    {
        var facts = repair.Joints.Select(joint => joint.Surface.Applied)
            .Concat(repair.BareAreas.Select(area => area.Surface.Applied))
            .Concat(repair.Bonds.Select(bond => bond.Closed))
            .Append(repair.Panel?.At)
            .OfType<Instant>();
        return facts.Append(repair.Now).Min();
    }
}
