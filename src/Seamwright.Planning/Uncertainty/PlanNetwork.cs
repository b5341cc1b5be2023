using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>
/// The decided plan as a network: works in an order in which each comes after what it waits for, waits as arcs, everything in flat arrays so that a sample is one
/// pass without allocation. Who does what, in which order, with which material stays as planned. Immutable; safe from several threads.
/// </summary>
internal sealed class PlanNetwork
{
    /// <summary>What each work is, for the reader.</summary>
    public required ImmutableArray<WorkLabel> Works { get; init; }

    /// <summary>Earliest start of each work: the first start of the plan, a delivery, a stretch that the plan waits for on purpose. [min]</summary>
    public required double[] Floor { get; init; }

    /// <summary>When each work may begin and go on.</summary>
    public required OpenTimes[] Open { get; init; }

    /// <summary>Minutes of each work that do not scatter.</summary>
    public required double[] Fixed { get; init; }

    /// <summary>First part of each work, and the number of parts.</summary>
    public required int[] PartFrom { get; init; }

    /// <summary>Planned minutes of each part of labour.</summary>
    public required double[] PartMinutes { get; init; }

    /// <summary>Spread of each part: standard deviation of the logarithm.</summary>
    public required double[] PartSpread { get; init; }

    /// <summary>Kind of step of each part.</summary>
    public required StepKind[] PartKind { get; init; }

    /// <summary>First arc into each work, then into the ready moment, and the number of arcs.</summary>
    public required int[] ArcFrom { get; init; }

    /// <summary>Work that each arc leaves; −1: it leaves a fixed minute.</summary>
    public required int[] ArcSource { get; init; }

    /// <summary>True where the arc leaves the end of its work.</summary>
    public required bool[] ArcAtEnd { get; init; }

    /// <summary>Fixed wait of each arc, or the minute that it leaves. [min]</summary>
    public required double[] ArcMinutes { get; init; }

    /// <summary>Cure that each arc waits for; −1 = none.</summary>
    public required int[] ArcCure { get; init; }

    /// <summary>Cures waited for.</summary>
    public required ImmutableArray<CureWait> Cures { get; init; }

    /// <summary>Materials that cure, in the order of <see cref="CureWait.Material"/>.</summary>
    public required ImmutableArray<MaterialId> Materials { get; init; }

    /// <summary>Number of bead depths that scatter.</summary>
    public required int Depths { get; init; }

    /// <summary>Bared or abraded metal that must be covered within some minutes.</summary>
    public required ImmutableArray<FreshMetal> Fresh { get; init; }

    /// <summary>Expected climate and cure work.</summary>
    public required CureGrid Grid { get; init; }
}

/// <summary>What a work is.</summary>
/// <param name="Kind">Kind of step; null = a moment.</param>
/// <param name="Places">Joints, bonds, areas or operations.</param>
/// <param name="Person">Who does it; null = nobody.</param>
/// <param name="Material">Material; null = none.</param>
internal sealed record WorkLabel(StepKind? Kind, ImmutableArray<PlaceId> Places, string? Person, MaterialId? Material);

/// <summary>A cure that something waits for.</summary>
/// <param name="Law">Law, by its place in the grid.</param>
/// <param name="Hours">Work as planned. [reference h]</param>
/// <param name="Material">Material, by its place in the network; −1 = does not scatter.</param>
/// <param name="Depth">Depth that scatters, by its place in the network; −1 = the work does not go by depth.</param>
/// <param name="Place">Where; null = several places.</param>
internal readonly record struct CureWait(int Law, double Hours, int Material, int Depth, PlaceId? Place);

/// <summary>Metal that must be covered before it is stale.</summary>
/// <param name="Bared">Work after which it lies bare.</param>
/// <param name="Covered">Work that covers it.</param>
/// <param name="Minutes">How long it may wait.</param>
internal readonly record struct FreshMetal(int Bared, int Covered, double Minutes);
