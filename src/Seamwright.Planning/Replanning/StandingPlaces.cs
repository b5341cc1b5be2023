using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Replanning;

/// <summary>Works of the log put on the repair: coats lie where they were sprayed, bonds are closed, seams are made, heat has burnt what was near.</summary>
internal sealed class StandingPlaces(ImmutableArray<DataSheet> sheets)
{
    private readonly List<Step> _done = [];

    public static Repair Of(RepairInput input, LogReading reading)
    {
        var places = new StandingPlaces(input.Sheets);
        var repair = reading.Failures.Aggregate(input.Repair, (repair, failure) => Redoing.Begin(repair, input.Shop, failure));
        repair = reading.Works.Where(work => !work.IsLost).Aggregate(repair, (open, work) => places.Put(open, work.Step));
        return repair with { Now = reading.Now, Done = [.. places._done.OrderBy(step => step.Start)] };
    }

    private Repair Put(Repair repair, Step step)
    {
        switch (step.Kind)
        {
            case StepKind.Prime:
                return Primed(repair, step);
            case StepKind.Strip:
                _done.Add(step with { Kind = StepKind.Abrade });
                return Bared(repair, step.Places);
            case StepKind.Bond:
                return repair with { Bonds = [.. repair.Bonds.Select(bond => step.Places.Contains(bond.Id) ? bond with { Closed = step.End } : bond)] };
            case StepKind.CleanBond:
                _done.Add(step);
                return repair with { Bonds = [.. repair.Bonds.Select(bond => step.Places.Contains(bond.Id) ? bond with { Closed = bond.Closed ?? step.Start } : bond)] };
            case StepKind.Level:
                return repair with { VehicleTilt = null };
            case StepKind.RecordLook:
                return repair with { LooksRecorded = true };
            case StepKind.SetUpLamp or StepKind.PrimerCure or StepKind.SealerCure or StepKind.BondCure:
                return repair;
            case StepKind.Operation:
                _done.Add(step);
                return Bared(repair, [.. repair.Operations.Where(operation => operation.HotWork && step.Places.Contains(operation.Id)).SelectMany(operation => operation.Near)]);
            case StepKind.Seal or StepKind.StoneChip:
                // What was abraded for this layer lies under it now.
                _done.RemoveAll(done => done.Kind == StepKind.Abrade && done.Places.Length == 1 && step.Places.Contains(done.Places[0]));
                _done.Add(step);
                return repair;
            default:
                _done.Add(step);
                return repair;
        }
    }

    private Repair Primed(Repair repair, Step step)
    {
        if (sheets.FirstOrDefault(sheet => sheet.Id == step.Material) is not { } primer)
            return repair;
        var coat = new Surface(SurfaceFacts.LeftBy(primer), primer.Id, step.End);
        var bonds = repair.Bonds.Where(bond => step.Places.Contains(bond.Id)).Select(bond => bond.Id).ToList();
        _done.RemoveAll(done => done.Kind == StepKind.Abrade && done.Places.Length == 1 && step.Places.Contains(done.Places[0]));
        return repair with
        {
            // The edge of a bond takes its bare seams along.
            Joints = [.. repair.Joints.Select(joint => step.Places.Contains(joint.Id) || (joint.Surface.IsBareMetal && bonds.Exists(joint.After.Contains)) ? joint with { Surface = coat } : joint)],
            BareAreas = [.. repair.BareAreas.Select(area => step.Places.Contains(area.Id) ? area with { Surface = coat } : area)],
            Bonds = [.. repair.Bonds.Select(bond => bonds.Contains(bond.Id) ? bond with { RePrime = false } : bond)],
        };
    }

    private static Repair Bared(Repair repair, ImmutableArray<PlaceId> places) => places.IsEmpty ? repair : repair with
    {
        Joints = [.. repair.Joints.Select(joint => places.Contains(joint.Id) ? joint with { Surface = new Surface(PreparationRoutes.BareSurface(joint), null, null) } : joint)],
        BareAreas = [.. repair.BareAreas.Select(area => places.Contains(area.Id) ? area with { Surface = new Surface(Redoing.BareOf(area.Metal), null, null) } : area)],
    };
}
