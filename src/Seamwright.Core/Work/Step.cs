using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Work;

/// <summary>What kind of thing a step is.</summary>
public enum StepKind
{
    /// <summary>Note and photograph the factory looks.</summary>
    RecordLook,

    /// <summary>Take a wrong coat off to metal.</summary>
    Strip,

    /// <summary>Abrade and clean.</summary>
    Abrade,

    /// <summary>Apply primer.</summary>
    Prime,

    /// <summary>Primer cures until the next layer may go on.</summary>
    PrimerCure,

    /// <summary>Apply adhesive, fit and clamp.</summary>
    Bond,

    /// <summary>Adhesive cures under clamps until handling strength.</summary>
    BondCure,

    /// <summary>Take clamps off, clean the squeeze-out.</summary>
    CleanBond,

    /// <summary>Other work of the repair: fitting, welding.</summary>
    Operation,

    /// <summary>Bring the vehicle level.</summary>
    Level,

    /// <summary>Set up a lamp.</summary>
    SetUpLamp,

    /// <summary>A lamp heats the panel.</summary>
    Lamp,

    /// <summary>Apply sealer, strip or anti-flutter to one or several joints.</summary>
    Seal,

    /// <summary>Sealer cures until paint may go on.</summary>
    SealerCure,

    /// <summary>Spray stone-chip coating.</summary>
    StoneChip,

    /// <summary>Paint and bake in the booth slot.</summary>
    Paint,

    /// <summary>Foam a closed section.</summary>
    Foam,

    /// <summary>Wax closed sections.</summary>
    Wax,

    /// <summary>Refit trim.</summary>
    Refit,

    /// <summary>Check drains and the finished work.</summary>
    FinalCheck,
}

/// <summary>One thing someone does, or one thing that happens by itself. Immutable.</summary>
public sealed record Step
{
    /// <summary>Name in the plan, by start time: <c>S01</c>, <c>S02</c>, …</summary>
    public required string Id { get; init; }

    /// <summary>Kind.</summary>
    public required StepKind Kind { get; init; }

    /// <summary>Joints, bonds, areas, cavities or operations concerned; empty = the whole car.</summary>
    public ImmutableArray<PlaceId> Places { get; init; } = [];

    /// <summary>Person who does it; null = happens by itself.</summary>
    public string? Person { get; init; }

    /// <summary>Start.</summary>
    public required Instant Start { get; init; }

    /// <summary>End, not before the start.</summary>
    public required Instant End { get; init; }

    /// <summary>Labour of the person; zero for what happens by itself. It can be shorter than the step (a coating that cures in the booth).</summary>
    public Duration Labour { get; init; }

    /// <summary>Material applied or curing; null = none.</summary>
    public MaterialId? Material { get; init; }

    /// <summary>Volume applied, losses included, nozzle hold-up and purge not.</summary>
    public Volume Amount { get; init; }

    /// <summary>Strip laid, end allowances included.</summary>
    public Length StripLength { get; init; }

    /// <summary>Fresh mixing nozzles.</summary>
    public int Nozzles { get; init; }

    /// <summary>Panel temperature held by a lamp or booth; null = none.</summary>
    public Temperature? HeatTo { get; init; }

    /// <summary>Warnings and remarks at this step.</summary>
    public ImmutableArray<Reason> Notes { get; init; } = [];
}
