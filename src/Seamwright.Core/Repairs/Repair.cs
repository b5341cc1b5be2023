using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Repairs;

/// <summary>One vehicle's job: every joint, bare area and closed section that the replaced panel disturbed. Immutable.</summary>
public sealed record Repair
{
    /// <summary>Name of the repair.</summary>
    public required string Id { get; init; }

    /// <summary>In words, for example <c>Side outer panel over the wheelhouse</c>.</summary>
    public required string Name { get; init; }

    /// <summary>The moment from which is planned; what is earlier is a fact.</summary>
    public required Instant Now { get; init; }

    /// <summary>When the vehicle comes in: no work on it begins before; null = it is here.</summary>
    public Instant? Arrives { get; init; }

    /// <summary>When the customer was promised the vehicle.</summary>
    public required Instant Promise { get; init; }

    /// <summary>Paint slots offered, ascending; the first is the wanted one.</summary>
    public required ImmutableArray<Instant> PaintSlots { get; init; }

    /// <summary>Metal temperature of the paint bake; null = the shop's usual bake.</summary>
    public Temperature? BakeTemperature { get; init; }

    /// <summary>Joints in file order.</summary>
    public ImmutableArray<Joint> Joints { get; init; } = [];

    /// <summary>Adhesive bonds in file order.</summary>
    public ImmutableArray<Bond> Bonds { get; init; } = [];

    /// <summary>Bare areas in file order.</summary>
    public ImmutableArray<BareArea> BareAreas { get; init; } = [];

    /// <summary>Closed sections in file order.</summary>
    public ImmutableArray<Cavity> Cavities { get; init; } = [];

    /// <summary>Other work in file order.</summary>
    public ImmutableArray<Operation> Operations { get; init; } = [];

    /// <summary>Reading of the panel's own temperature; null = the panel is at shop air.</summary>
    public PanelReading? Panel { get; init; }

    /// <summary>How far the vehicle leans now; null = level.</summary>
    public Angle? VehicleTilt { get; init; }

    /// <summary>True where the vehicle can be brought level (let down from the lift).</summary>
    public bool CanBeLevelled { get; init; } = true;

    /// <summary>What the maker's procedure says; empty = nothing beyond the general order of work.</summary>
    public ImmutableArray<ProcedureStatement> Procedure { get; init; } = [];

    /// <summary>Document and revision of the maker's procedure; empty = not given.</summary>
    public string ProcedureReference { get; init; } = "";

    /// <summary>Sign-offs already given.</summary>
    public ImmutableArray<SignOff> SignOffs { get; init; } = [];

    /// <summary>A joint by name, or a cavity seen as one; null where there is none of that name.</summary>
    public Joint? JointOrCavity(PlaceId id) =>
        Joints.FirstOrDefault(joint => joint.Id == id) ?? Cavities.FirstOrDefault(cavity => cavity.Id == id)?.AsJoint();

    /// <summary>
    /// What the work log says is done or under way: seams, other work, metal made ready, lamps, paint and what follows it. Coats and closed bonds
    /// are not here: they are the <see cref="Joint.Surface"/> and <see cref="Bond.Closed"/> of their place. An end after
    /// <see cref="Now"/> is when running work is expected to end.
    /// </summary>
    public ImmutableArray<Step> Done { get; init; } = [];

    /// <summary>The slot from which bay days are counted, where the slots first offered have been moved; null = the first slot.</summary>
    public Instant? FirstSlotOffered { get; init; }

    /// <summary>The slot that the vehicle was meant for; null where there is none.</summary>
    public Instant? MeantSlot => FirstSlotOffered ?? (PaintSlots.IsEmpty ? null : PaintSlots[0]);

    /// <summary>The last work of a kind that is done on a place, or on the whole vehicle; null = none.</summary>
    public Step? DoneOn(PlaceId? place, StepKind kind) =>
        Done.IsEmpty ? null : Done.LastOrDefault(step => step.Kind == kind && (place is { } named ? step.Places.Contains(named) : true));

    /// <summary>True where the primed joints' looks have been noted and photographed already.</summary>
    public bool LooksRecorded { get; init; } = true;
}

/// <summary>An infrared reading of the panel.</summary>
/// <param name="At">When it was read.</param>
/// <param name="Temperature">What was read.</param>
public sealed record PanelReading(Instant At, Temperature Temperature);

/// <summary>One statement of the maker's procedure; it outranks every other rule.</summary>
/// <param name="Place">Joint it speaks of; null = all.</param>
/// <param name="Kind">What it says.</param>
/// <param name="Materials">Materials it names; empty = by use or chemistry.</param>
/// <param name="Chemistries">Chemistries it names; empty = by material.</param>
/// <param name="Uses">Uses it names; empty = by material or chemistry.</param>
/// <param name="Text">The statement in short, for the reason shown.</param>
public sealed record ProcedureStatement(
    PlaceId? Place,
    ProcedureKind Kind,
    ImmutableArray<MaterialId> Materials,
    ImmutableArray<Chemistry> Chemistries,
    ImmutableArray<MaterialUse> Uses,
    string Text)
{
    /// <summary>Whether the statement names this sheet.</summary>
    public bool Names(DataSheet sheet) =>
        Materials.Contains(sheet.Id) || Chemistries.Contains(sheet.Chemistry) || Uses.Contains(sheet.Use);
}

/// <summary>What a procedure statement says of what it names.</summary>
public enum ProcedureKind
{
    /// <summary>Only what is named may be used.</summary>
    Requires,

    /// <summary>What is named must not be used.</summary>
    Forbids,

    /// <summary>What is named may be used although a general rule would refuse it.</summary>
    Allows,
}

/// <summary>Somebody with the right to do so accepted a deviation; it goes into the record.</summary>
/// <param name="Place">Joint it is for.</param>
/// <param name="Material">Material it is for.</param>
/// <param name="RuleId">Rule it sets aside.</param>
/// <param name="Role">Role of the person.</param>
/// <param name="By">Name or initials.</param>
/// <param name="Reason">Why.</param>
public sealed record SignOff(PlaceId Place, MaterialId Material, string RuleId, string Role, string By, string Reason);
