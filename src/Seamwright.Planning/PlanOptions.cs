using NodaTime;
using Seamwright.Repairs;

namespace Seamwright.Planning;

/// <summary>How to answer for a repair.</summary>
public sealed record PlanOptions
{
    /// <summary>Seed of the search. [≥ 0] Default 1.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>True: the answer is the same on every machine, at the price of a slower search. Default false.</summary>
    public bool Deterministic { get; init; }

    /// <summary>Longest search for one plan. [&gt; 0] Default 10 s.</summary>
    public Duration TimeLimit { get; init; } = Duration.FromSeconds(10);

    /// <summary>Joint of which every material is planned anew instead of re-timed; null = only the runner-up of each joint.</summary>
    public PlaceId? Explain { get; init; }

    /// <summary>Consequences of other materials, runner-up and trade-offs are answered too. Default true.</summary>
    public bool Alternatives { get; init; } = true;

    /// <summary>Plan that the answer replaces; null = the first.</summary>
    public string? ParentId { get; init; }
}
