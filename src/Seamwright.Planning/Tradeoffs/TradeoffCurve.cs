using System.Collections.Immutable;
using Seamwright.Planning.Comparing;
using Seamwright.Work;

namespace Seamwright.Planning.Tradeoffs;

/// <summary>What being ready for paint earlier costs: every plan for which no other is both as early and as cheap.</summary>
public sealed record TradeoffCurve
{
    /// <summary>From the least spending, which is ready last, to the earliest, which is dearest. Empty where no plan is possible.</summary>
    public required ImmutableArray<CurvePoint> Points { get; init; }

    /// <summary>The plan of least money, time included; null where none is possible.</summary>
    public Plan? Recommended { get; init; }

    /// <summary>Place of the point that is as good as the recommended plan in spending and ready moment; null where none is.</summary>
    public int? RecommendedAt { get; init; }

    /// <summary>
    /// True where every point is proven and nothing is ready before the last: then the curve is exact, to the five minutes on which work starts and the cent.
    /// </summary>
    public bool IsExact { get; init; }

    /// <summary>Where no plan is possible: why.</summary>
    public ImmutableArray<Conflict> Conflicts { get; init; } = [];
}

/// <summary>A plan on the curve.</summary>
/// <param name="Plan">The plan: of all that are ready by its moment the one of least spending, and of those the earliest.</param>
/// <param name="FromBefore">What is different against the point before it, which is cheaper and later; null for the first.</param>
public sealed record CurvePoint(Plan Plan, PlanDifference? FromBefore);
