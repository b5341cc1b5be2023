using NodaTime;

namespace Seamwright.Storage.Rows;

/// <summary>An answer of the planner. Never changed.</summary>
internal sealed class PlanRow
{
    public required Guid Id { get; init; }

    /// <summary>The plan it was made from; null = the first.</summary>
    public Guid? Parent { get; init; }

    /// <summary>The repair; null = the whole shop.</summary>
    public string? Repair { get; init; }

    /// <summary>SHA-256 over everything planned from.</summary>
    public required string InputHash { get; init; }

    public int? Seed { get; init; }

    public required string Engine { get; init; }

    public required Instant Created { get; init; }

    public required string CreatedBy { get; init; }

    /// <summary>The whole answer as JSON.</summary>
    public required string Answer { get; init; }

    /// <summary>Ready for paint; null = no plan is possible.</summary>
    public Instant? Ready { get; init; }

    public decimal? Cost { get; init; }

    public required string Currency { get; init; }
}
