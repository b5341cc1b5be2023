using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>One way to do a joint: a material after a preparation. Admissible or not, with all verdicts.</summary>
internal sealed record JointOption
{
    public required Joint Joint { get; init; }

    public required DataSheet Sheet { get; init; }

    public required PreparationRoute Route { get; init; }

    public required ImmutableArray<Verdict> Verdicts { get; init; }

    /// <summary>Worst verdict, with the facts that are set aside ignored.</summary>
    public required VerdictKind Overall { get; init; }

    /// <summary>Bead with loss; zero for a strip.</summary>
    public Volume Amount { get; init; }

    /// <summary>Strip with end allowances; zero for a paste.</summary>
    public Length StripLength { get; init; }

    /// <summary>Work of applying it, set-up not counted. [min]</summary>
    public int Work { get; init; }

    /// <summary>When paint (or the next step that waits for this seam) may follow; null = nothing waits.</summary>
    public TimeFunction? Ready { get; init; }

    /// <summary>Last moment of paint without abrading; null = no limit.</summary>
    public TimeFunction? PaintBy { get; init; }

    /// <summary>Start windows that the coat beneath allows; empty = any.</summary>
    public ImmutableArray<Window> CoatWindow { get; init; } = [];

    public Preparation Preparation => Route.Preparation;

    public bool Admissible => Overall <= VerdictKind.Advice;

    /// <summary>Name of the option inside its joint's modes.</summary>
    public string Key => $"{Sheet.Id}/{Preparation}";
}
