using System.Collections.Immutable;
using NodaTime;
using Seamwright.Curing;
using Seamwright.Materials;
using Seamwright.Quantities;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Shops;
using Seamwright.Suitability;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>A joint (or a cavity seen as one) with every way of doing it, judged.</summary>
internal sealed record JointFacts(Joint Joint, ImmutableArray<JointOption> Options)
{
    /// <summary>The seam, where it is made already; null = still to do.</summary>
    public Seamwright.Work.Step? Sealed { get; init; }

    /// <summary>True where a seam is still to be made: the factory had one, and it seals or keeps from fluttering.</summary>
    public bool IsSeam => Sealed is null && !Joint.IsBare && Joint.Function is JointFunction.Seal or JointFunction.AntiFlutter;

    /// <summary>Seam materials on a joint, in every preparation that is possible.</summary>
    public static JointFacts For(PlanningCase planning, Joint joint)
    {
        var seen = AfterHotWork(planning.Repair, joint);
        return new(seen, [.. planning.Input.Sheets.SelectMany(sheet => OptionsOf(planning, seen, sheet))]) { Sealed = planning.Repair.DoneOn(joint.Id, StepKind.Seal) };
    }

    /// <summary>Heat that is still to come burns the coat near it: the joint will be bare metal. A closed section is foamed or waxed as it then is.</summary>
    private static Joint AfterHotWork(Repair repair, Joint joint) =>
        joint.Surface.IsBareMetal || !repair.Joints.Contains(joint) || !repair.Operations.Any(operation => operation.HotWork && operation.Near.Contains(joint.Id) && repair.DoneOn(operation.Id, StepKind.Operation) is null)
            ? joint
            : joint with { Surface = new Surface(Bare(joint.Metals), null, null) };

    private static SurfaceKind Bare(ImmutableArray<Metal> metals) =>
        metals.Contains(Metal.Aluminium) ? SurfaceKind.BareAluminium
        : metals.Contains(Metal.ZincCoatedSteel) ? SurfaceKind.ZincCoatedSteel
        : SurfaceKind.BareSteel;

    private static IEnumerable<JointOption> OptionsOf(PlanningCase planning, Joint joint, DataSheet sheet)
    {
        var coat = planning.SheetOf(joint.Surface.Material);
        var primer = planning.Primers.FirstOrDefault();
        var subject = JointCase.AsItLies(joint, sheet, coat, planning.Repair, planning.Shop);
        foreach (var route in PreparationRoutes.For(joint, sheet, coat, primer, planning.Shop.Times))
            yield return Option(planning, subject.After(route), route);
    }

    private static JointOption Option(PlanningCase planning, JointCase subject, PreparationRoute route)
    {
        var (joint, sheet) = (subject.Joint, subject.Sheet);
        bool isStrip = sheet.Use == MaterialUse.SeamTape;
        return new JointOption(subject, route)
        {
            Amount = isStrip ? Volume.Zero : Beads.Needed(joint, planning.Shop.Amounts),
            StripLength = isStrip ? Strip(joint, planning.Shop.Amounts) : Length.Zero,
            Work = WorkMinutes(joint, planning.Shop.Times, isStrip),
            Ready = ReadyFor(planning.Cures, joint, sheet),
            PaintBy = joint.Above is LayerAbove.Paint or LayerAbove.StoneChip && sheet.NextLayerWithin is { } window
                ? planning.Cures.Latest(window)
                : null,
            CoatWindow = route.Preparation switch
            {
                Preparation.AsIs => CoatWindow(planning, joint),
                Preparation.Abrade => DriedCoat(planning, joint),
                _ => [],
            },
        };
    }

    private static Length Strip(Joint joint, Amounts amounts) =>
        Beads.StripPieces(joint, amounts).Aggregate(Length.Zero, (sum, piece) => sum + piece);

    /// <summary>Applying minutes: per metre by look, per piece for dabs, by position and strict look; at least one, whole.</summary>
    private static int WorkMinutes(Joint joint, WorkTimes times, bool isStrip)
    {
        var per = times.PerMetre.GetValueOrDefault(joint.Look.Profile);
        double units = joint.Look.Profile == Profile.Dab && joint.Length == Length.Zero ? joint.Count : joint.TotalLength.Metres;
        double factor = times.PositionFactors.GetValueOrDefault(joint.Position, 1);
        if (joint.Look.Strict && joint.Look.Visible)
            factor *= times.StrictLookFactor;
        if (joint.Look.Profile == Profile.Strip && !isStrip)
            factor *= times.StripInPasteFactor;
        return Math.Max(1, (int)Math.Ceiling(per.TotalMinutes * units * factor - 1e-9));
    }

    /// <summary>Everything that must have happened in the bead before the booth takes the car.</summary>
    private static TimeFunction? ReadyFor(Cures cures, Joint joint, DataSheet sheet)
    {
        if (joint.Stage == Stage.AfterPaintHeat)
            return null;
        var paint = sheet.Milestone(MilestoneKind.Paint);
        var through = sheet.PaintNeedsCuredThrough && sheet.DepthCure is { } cure
            ? cures.CuredThrough(cure, Beads.Depth(joint))
            : null;
        return TimeFunctions.Latest(paint is null ? null : cures.Reached(paint), through);
    }

    /// <summary>From when on the coat that lies there now can be abraded: abrading opens a missed window again, it does not dry a wet coat.</summary>
    private static ImmutableArray<Window> DriedCoat(PlanningCase planning, Joint joint)
    {
        if (CoatWindow(planning, joint) is not [_] || DriedAt(planning, joint) is not { } dried)
            return [];
        return dried <= planning.Time.Horizon ? [new Window(dried, planning.Time.Horizon + 1)] : [new Window(-1, 0)];
    }

    private static int? DriedAt(PlanningCase planning, Joint joint)
    {
        if (joint.Surface.Applied is not { } applied || planning.SheetOf(joint.Surface.Material) is not { } coat)
            return null;
        var from = coat.Milestone(MilestoneKind.NextLayer) is { } next ? planning.Cures.Finish(next.Law, next.Needed, applied) : applied;
        return from is { } ready ? Math.Max(planning.Time.Now, planning.Time.Ceiling(ready)) : int.MaxValue;
    }

    /// <summary>From when until when the coat that lies there now takes the next layer without abrading.</summary>
    private static ImmutableArray<Window> CoatWindow(PlanningCase planning, Joint joint)
    {
        if (joint.Surface.Applied is not { } applied || planning.SheetOf(joint.Surface.Material) is not { } coat)
            return [];

        var time = planning.Time;
        int start = DriedAt(planning, joint) ?? time.Now;
        int end = coat.NextLayerWithin is { } window ? time.Floor(planning.Cures.LatestNextLayer(window, applied)) + 1 : time.Horizon + 1;
        end = Math.Min(end, time.Horizon + 1);
        // A missed window is shown as one that no start fits into, not as "any".
        return start < end ? [new Window(start, end)] : [new Window(-1, 0)];
    }
}
