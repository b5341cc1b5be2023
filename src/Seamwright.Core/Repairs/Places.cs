using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Repairs;

/// <summary>Panels bonded by adhesive: fit, clamp until handling strength, clean the squeeze-out.</summary>
public sealed record Bond
{
    /// <summary>Name in the repair.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>Adhesive that the maker's procedure names.</summary>
    public required MaterialId Adhesive { get; init; }

    /// <summary>Bond line.</summary>
    public required Length Length { get; init; }

    /// <summary>Metals bonded, one or two.</summary>
    public required ImmutableArray<Metal> Metals { get; init; }

    /// <summary>When it was closed and clamped; null = still to do.</summary>
    public Instant? Closed { get; init; }

    /// <summary>Minutes of work to apply, fit and clamp; ignored where already closed.</summary>
    public Duration FitTime { get; init; }

    /// <summary>Minutes of work to take the clamps off and clean the squeeze-out.</summary>
    public Duration CleanTime { get; init; }

    /// <summary>True where the cleaned edge must be primed again before its seams.</summary>
    public bool RePrime { get; init; }

    /// <summary>True where closing it ends the access to the inner seams.</summary>
    public bool ClosesAccess { get; init; }

    /// <summary>Part of the car that one lamp covers.</summary>
    public string? Zone { get; init; }

    /// <summary>True where it is to be cured under a lamp, whatever that costs; false = where it pays.</summary>
    public bool UnderLamp { get; init; }

    /// <summary>Bonds and operations that come first.</summary>
    public ImmutableArray<PlaceId> After { get; init; } = [];
}

/// <summary>Metal to coat beside the seams.</summary>
public sealed record BareArea
{
    /// <summary>Name in the repair.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>Size.</summary>
    public required Area Area { get; init; }

    /// <summary>Metal.</summary>
    public required Metal Metal { get; init; }

    /// <summary>What lies on it now.</summary>
    public required Surface Surface { get; init; }

    /// <summary>True where stone-chip coating is sprayed on it in the booth before the paint slot.</summary>
    public bool StoneChip { get; init; }

    /// <summary>How it lies.</summary>
    public Position Position { get; init; } = Position.Level;

    /// <summary>When it is done.</summary>
    public Stage Stage { get; init; } = Stage.BeforePaint;

    /// <summary>Where it lies in the seam map; null = by its position and stage.</summary>
    public PanelEdge? Edge { get; init; }

    /// <summary>Bonds and operations that come first.</summary>
    public ImmutableArray<PlaceId> After { get; init; } = [];
}

/// <summary>What a closed section gets.</summary>
public enum CavityTreatment
{
    /// <summary>Wax after the last bake.</summary>
    Wax,

    /// <summary>Flexible acoustic foam.</summary>
    FlexibleFoam,

    /// <summary>Rigid acoustic foam.</summary>
    RigidFoam,

    /// <summary>Structural foam: the maker's part, never made in the shop.</summary>
    StructuralFoam,
}

/// <summary>A closed section to wax or foam.</summary>
public sealed record Cavity
{
    /// <summary>Name in the repair.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>What it gets.</summary>
    public required CavityTreatment Treatment { get; init; }

    /// <summary>Volume to fill with foam; null = one pack's worth as the sheet covers a place.</summary>
    public Volume? Volume { get; init; }

    /// <summary>Length of the section; null = counts as one place.</summary>
    public Length? Length { get; init; }

    /// <summary>Drain and wax holes that stay open.</summary>
    public int Drains { get; init; }

    /// <summary>When it is done; after the paint heat unless the access closes before and the foam stands the bake.</summary>
    public Stage Stage { get; init; } = Stage.AfterPaintHeat;

    /// <summary>Where it lies in the seam map; null = by its position and stage.</summary>
    public PanelEdge? Edge { get; init; }

    /// <summary>Bonds and operations that come first.</summary>
    public ImmutableArray<PlaceId> After { get; init; } = [];

    /// <summary>The cavity seen as a joint without a seam, so that every material gets its verdicts there too.</summary>
    public Joint AsJoint() => new()
    {
        Id = Id,
        Name = Name,
        Type = JointType.ClosedSection,
        Metals = [Metal.Steel],
        Position = Position.Level,
        Look = new Look(Profile.None, Units.Length.Zero, Units.Length.Zero, Visible: false, Strict: false),
        ClosedToAir = true,
        Function = Treatment switch
        {
            CavityTreatment.FlexibleFoam or CavityTreatment.RigidFoam => JointFunction.AcousticFoam,
            CavityTreatment.StructuralFoam => JointFunction.Structural,
            _ => JointFunction.Seal,
        },
        Surface = new Surface(SurfaceKind.ElectroCoat, null, null),
        Above = LayerAbove.Nothing,
        Stage = Stage,
    };
}

/// <summary>Other work on the car that the seams depend on: fitting, welding, dressing, levelling.</summary>
public sealed record Operation
{
    /// <summary>Name in the repair.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>Work.</summary>
    public required Duration Time { get; init; }

    /// <summary>Skill it needs.</summary>
    public required Shops.Skill Skill { get; init; }

    /// <summary>The place whose failed seam or coat it takes off; null = other work.</summary>
    public PlaceId? TakesOff { get; init; }

    /// <summary>Welding, cutting or brazing: its heat reaches primer, seal, wax and foam near it.</summary>
    public bool HotWork { get; init; }

    /// <summary>True where it ends the access to the inner seams.</summary>
    public bool ClosesAccess { get; init; }

    /// <summary>Joints, areas and cavities within 100 mm of its heat; they are sealed, waxed or foamed after it.</summary>
    public ImmutableArray<PlaceId> Near { get; init; } = [];

    /// <summary>When it is done.</summary>
    public Stage Stage { get; init; } = Stage.BeforePaint;

    /// <summary>Bonds and operations that come first.</summary>
    public ImmutableArray<PlaceId> After { get; init; } = [];
}
