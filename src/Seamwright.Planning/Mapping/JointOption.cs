using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Scheduling;
using Seamwright.Suitability;
using Seamwright.Units;

namespace Seamwright.Planning.Mapping;

/// <summary>One way to do a joint: a material after a preparation. Admissible or not, with all verdicts.</summary>
internal sealed class JointOption
{
    private readonly Lazy<bool> _admissible;
    private readonly Lazy<ImmutableArray<Verdict>> _verdicts;

    /// <param name="subject">What is judged: the material on the joint after the preparation.</param>
    /// <param name="route">The preparation.</param>
    public JointOption(JointCase subject, PreparationRoute route)
    {
        (Joint, Sheet, Route) = (subject.Joint, subject.Sheet, route);
        _admissible = new(() => SuitabilityRules.MayBeUsed(subject));
        _verdicts = new(() => SuitabilityRules.Judge(subject));
    }

    public Joint Joint { get; }

    public DataSheet Sheet { get; }

    public PreparationRoute Route { get; }

    /// <summary>Whether it may be used without anybody's further consent. Worked out when first asked for: a whole shop has many thousands of options that nobody asks about.</summary>
    public bool Admissible => _admissible.Value;

    /// <summary>All verdicts, worked out when first asked for.</summary>
    public ImmutableArray<Verdict> Verdicts => _verdicts.Value;

    /// <summary>Worst verdict.</summary>
    public VerdictKind Overall => Suitability.Verdicts.Overall(Verdicts);

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

    /// <summary>Name of the option inside its joint's modes.</summary>
    public string Key => $"{Sheet.Id}/{Preparation}";
}
