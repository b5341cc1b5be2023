using System.Collections.Immutable;
using Seamwright.Materials;
using Seamwright.Planning.Comparing;
using Seamwright.Repairs;
using Seamwright.Suitability;
using Seamwright.Work;

namespace Seamwright.Planning.Suppositions;

/// <summary>What would follow from what is supposed.</summary>
public sealed record WhatIfAnswer
{
    /// <summary>What is supposed, in the order given.</summary>
    public required ImmutableArray<Supposition> Supposed { get; init; }

    /// <summary>Why something cannot be supposed of this repair; then nothing was planned.</summary>
    public ImmutableArray<Reason> Problems { get; init; } = [];

    /// <summary>The repair as supposed; null where it cannot be.</summary>
    public RepairInput? Input { get; init; }

    /// <summary>The plan as things stand; null where there is none.</summary>
    public Plan? Present { get; init; }

    /// <summary>The plan as supposed; null where there is none.</summary>
    public Plan? Then { get; init; }

    /// <summary>What is different; null where one of the two plans is missing.</summary>
    public PlanDifference? Difference { get; init; }

    /// <summary>Materials that the rules refuse on the joint for which they are supposed; then no plan was looked for.</summary>
    public ImmutableArray<SupposedRefusal> Refused { get; init; } = [];

    /// <summary>Why there is no plan as supposed, where it is not a refusal; empty otherwise.</summary>
    public ImmutableArray<Conflict> Conflicts { get; init; } = [];
}

/// <summary>A material that may not go on the joint for which it is supposed.</summary>
/// <param name="Joint">The joint.</param>
/// <param name="Material">The material.</param>
/// <param name="Against">Every verdict that stands against it, the worst first.</param>
public sealed record SupposedRefusal(PlaceId Joint, MaterialId Material, ImmutableArray<Verdict> Against);
