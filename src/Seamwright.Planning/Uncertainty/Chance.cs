using System.Collections.Immutable;
using NodaTime;
using Seamwright.Materials;
using Seamwright.Repairs;
using Seamwright.Units;
using Seamwright.Work;

namespace Seamwright.Planning.Uncertainty;

/// <summary>How likely a decided plan is ready by its slot. Immutable.</summary>
public sealed record Chance
{
    /// <summary>Samples drawn.</summary>
    public required int Samples { get; init; }

    /// <summary>Seed of the samples.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Paint slot of the plan.</summary>
    public required Instant Slot { get; init; }

    /// <summary>Ready moment where everything takes as long as planned.</summary>
    public required Instant AsPlanned { get; init; }

    /// <summary>Share of samples that are ready by the slot. [0…1]</summary>
    public required Estimate BySlot { get; init; }

    /// <summary>Ready moment that half the samples reach.</summary>
    public required ReadyEstimate Half { get; init; }

    /// <summary>Ready moment that nine of ten samples reach.</summary>
    public required ReadyEstimate NineOfTen { get; init; }

    /// <summary>Samples by ready moment, in equal steps of time, ascending; those beyond the last are in <see cref="Beyond"/>.</summary>
    public required ImmutableArray<ReadyCount> Histogram { get; init; }

    /// <summary>Samples later than the histogram shows.</summary>
    public required int Beyond { get; init; }

    /// <summary>Causes, the one that matters most first.</summary>
    public required ImmutableArray<CauseShare> Causes { get; init; }

    /// <summary>Works and cures by how often the ready moment waited for them, most often first.</summary>
    public required ImmutableArray<CriticalStep> Critical { get; init; }

    /// <summary>Share of samples in which bared or abraded metal waits longer than it may. [0…1]</summary>
    public required Estimate Stale { get; init; }
}

/// <summary>A ready moment with the 95 % interval of its sampling error; null = not within the plan.</summary>
/// <param name="Value">Estimate.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct ReadyEstimate(Instant? Value, Instant? Low, Instant? High);

/// <summary>Samples that are ready within a step of time.</summary>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="Count">Samples.</param>
public readonly record struct ReadyCount(Instant From, Instant To, int Count);

/// <summary>
/// How much a cause matters: the same samples drawn again with other numbers for it alone (its part in the scatter), and with it frozen at its planned value (what
/// certainty would change).
/// </summary>
/// <param name="Cause">The cause.</param>
/// <param name="VarianceShare">Share of the variance of the ready moment in which the cause has a part, alone or with others (total-effect index); shares need not add up to one. [≥ 0]</param>
/// <param name="BySlot">How likely the slot is with the cause frozen. [0…1]</param>
/// <param name="Gain">Change of the likelihood by freezing it, with the 95 % interval from the paired samples.</param>
public sealed record CauseShare(Cause Cause, double VarianceShare, double BySlot, Estimate Gain);

/// <summary>Something that the ready moment often waits for.</summary>
/// <param name="Kind">Kind of step; null = a cure.</param>
/// <param name="Places">Where.</param>
/// <param name="Person">Who; null = nobody.</param>
/// <param name="Material">Material; null = none.</param>
/// <param name="Share">Share of samples in which it lay on the path to the ready moment (criticality index). [0…1]</param>
public sealed record CriticalStep(StepKind? Kind, ImmutableArray<PlaceId> Places, string? Person, MaterialId? Material, double Share);

/// <summary>Another plan, looked at because the recommended one is not likely enough.</summary>
/// <param name="Origin">How it was found.</param>
/// <param name="Plan">The plan.</param>
/// <param name="CostShift">Against the recommended plan; positive = dearer.</param>
/// <param name="BySlot">How likely it is ready by its own slot.</param>
/// <param name="NineOfTen">Ready moment that nine of ten samples reach.</param>
/// <param name="Changed">Joints that take another material.</param>
public sealed record RobustPlan(RobustOrigin Origin, Plan Plan, Money CostShift, Estimate BySlot, ReadyEstimate NineOfTen, ImmutableArray<(PlaceId Joint, MaterialId? Material)> Changed);

/// <summary>How another plan was found.</summary>
public enum RobustOrigin
{
    /// <summary>The fastest plan.</summary>
    Fastest,

    /// <summary>Another material on a joint that is often waited for.</summary>
    OtherMaterial,

    /// <summary>Planned again so that everything is ready some time before the slot.</summary>
    Reserve,
}

/// <summary>The answer to how likely a repair's plan is kept.</summary>
public sealed record ChanceAnswer
{
    /// <summary>The recommended plan; null where none is possible.</summary>
    public Plan? Plan { get; init; }

    /// <summary>How likely it is; null where there is no plan.</summary>
    public Chance? Chance { get; init; }

    /// <summary>How likely the shop wants it. [0…1]</summary>
    public required double Wanted { get; init; }

    /// <summary>The cheapest of the plans looked at that is likely enough; null where none was needed or none reaches it.</summary>
    public RobustPlan? Robust { get; init; }

    /// <summary>Where none is likely enough: the likeliest of those looked at; null otherwise.</summary>
    public RobustPlan? Likeliest { get; init; }

    /// <summary>Other plans looked at.</summary>
    public int LookedAt { get; init; }

    /// <summary>Where no plan is possible: the conflicts.</summary>
    public ImmutableArray<Conflict> Conflicts { get; init; } = [];
}

/// <summary>How to answer.</summary>
public sealed record ChanceOptions
{
    /// <summary>Most samples that may be asked for: more would need more memory than they are worth.</summary>
    public const int MostSamples = 10_000_000;

    /// <summary>Samples of the plan. [1000…10 000 000] Default 100 000: a share of one half is then known to ± 0.3 points.</summary>
    public int Samples { get; init; } = 100_000;

    /// <summary>Seed of the samples. Default 1.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Threads; the answer does not depend on them. [≥ 1] Default 2.</summary>
    public int Threads { get; init; } = 2;

    /// <summary>Whether other plans are looked for where the recommended one is not likely enough. Default true.</summary>
    public bool SeekRobust { get; init; } = true;
}
