using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Units;

namespace Seamwright.Repairs;

/// <summary>Name of a joint, bond, bare area, cavity or operation, unique in its repair, for example <c>J1</c>.</summary>
/// <param name="Value">The name as written in the file.</param>
public readonly record struct PlaceId(string Value) : IComparable<PlaceId>
{
    /// <inheritdoc/>
    public int CompareTo(PlaceId other) => string.CompareOrdinal(Value, other.Value);

    /// <inheritdoc/>
    public override string ToString() => Value;

    /// <summary>Before in ordinal order.</summary>
    public static bool operator <(PlaceId a, PlaceId b) => a.CompareTo(b) < 0;

    /// <summary>After in ordinal order.</summary>
    public static bool operator >(PlaceId a, PlaceId b) => a.CompareTo(b) > 0;

    /// <summary>Not after.</summary>
    public static bool operator <=(PlaceId a, PlaceId b) => a.CompareTo(b) <= 0;

    /// <summary>Not before.</summary>
    public static bool operator >=(PlaceId a, PlaceId b) => a.CompareTo(b) >= 0;
}

/// <summary>The look a seam had from the factory.</summary>
/// <param name="Profile">Kind.</param>
/// <param name="Width">Width, or first leg of a fillet, or diameter; zero for none.</param>
/// <param name="Height">Height, or second leg of a fillet; zero where the kind needs none (a half-round of one number: half the width).</param>
/// <param name="Visible">Seen by the customer.</param>
/// <param name="Strict">Must match exactly: no other look may be substituted.</param>
public sealed record Look(Profile Profile, Length Width, Length Height, bool Visible, bool Strict);

/// <summary>What lies on a joint or area now.</summary>
/// <param name="Kind">Kind of surface.</param>
/// <param name="Material">Sheet of the coat, where known.</param>
/// <param name="Applied">When the coat was applied; null = long ago or factory.</param>
public sealed record Surface(SurfaceKind Kind, MaterialId? Material, Instant? Applied)
{
    /// <summary>True for bare metal (zinc counts as bare: it needs primer).</summary>
    public bool IsBareMetal => Kind is SurfaceKind.BareSteel or SurfaceKind.ZincCoatedSteel or SurfaceKind.BareAluminium;
}

/// <summary>Two panels meeting along a length, or a number of like heads or dabs. Immutable.</summary>
public sealed record Joint
{
    /// <summary>Name in the repair.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>In words, for example <c>wheelhouse edge</c>.</summary>
    public required string Name { get; init; }

    /// <summary>How the panels meet.</summary>
    public required JointType Type { get; init; }

    /// <summary>Length of one run; zero where <see cref="Count"/> counts.</summary>
    public Length Length { get; init; }

    /// <summary>Runs of that length (both edges of a lap: 2), or number of heads or dabs.</summary>
    public int Count { get; init; } = 1;

    /// <summary>Metals that meet, one or two.</summary>
    public required ImmutableArray<Metal> Metals { get; init; }

    /// <summary>How it lies while worked.</summary>
    public required Position Position { get; init; }

    /// <summary>Lean of this seam itself from level, the vehicle being level; null = not stated.</summary>
    public Angle? Tilt { get; init; }

    /// <summary>Factory look.</summary>
    public required Look Look { get; init; }

    /// <summary>Depth from the nearest open face to the root; null = the look's own height.</summary>
    public Length? Depth { get; init; }

    /// <summary>Material that fills gaps behind the bead, added to the bead itself; zero = none.</summary>
    public Volume GapFill { get; init; }

    /// <summary>True where no face is open to air: a moisture cure never happens there.</summary>
    public bool ClosedToAir { get; init; }

    /// <summary>What it is there for.</summary>
    public JointFunction Function { get; init; } = JointFunction.Seal;

    /// <summary>Will be masked over before paint.</summary>
    public bool Masked { get; init; }

    /// <summary>Will be rubbed or sanded before paint.</summary>
    public bool Rubbed { get; init; }

    /// <summary>Twists in driving: always primed (roof ditches are, whatever is written).</summary>
    public bool Torsion { get; init; }

    /// <summary>Radius it follows; null = straight.</summary>
    public Length? Radius { get; init; }

    /// <summary>Drain slots, weep holes or wax holes in its path that stay open.</summary>
    public int Drains { get; init; }

    /// <summary>What lies on it now.</summary>
    public required Surface Surface { get; init; }

    /// <summary>What comes over it.</summary>
    public LayerAbove Above { get; init; } = LayerAbove.Paint;

    /// <summary>When it is done.</summary>
    public Stage Stage { get; init; } = Stage.BeforePaint;

    /// <summary>Part of the car that one lamp covers, joints of one zone are warmed together; defaults to the joint alone.</summary>
    public string? Zone { get; init; }

    /// <summary>Where it lies in the seam map; null = by its type, stage and position.</summary>
    public PanelEdge? Edge { get; init; }

    /// <summary>Bonds and operations that come first.</summary>
    public ImmutableArray<PlaceId> After { get; init; } = [];

    /// <summary>True where panels of different metals must not touch and this bead is part of the isolation.</summary>
    public bool GalvanicIsolation { get; init; }

    /// <summary>Material the technician insists on; null = open.</summary>
    public MaterialId? Wanted { get; init; }

    /// <summary>True where it is to be cured under a lamp, whatever that costs; false = where it pays.</summary>
    public bool UnderLamp { get; init; }

    /// <summary>All runs together.</summary>
    public Length TotalLength => Length * Count;

    /// <summary>Roof ditches and joints marked so twist in driving.</summary>
    public bool IsTorsion => Torsion || Type == JointType.RoofDitch;

    /// <summary>True where the factory had no seam, so none is added.</summary>
    public bool IsBare => Look.Profile == Profile.None;
}
