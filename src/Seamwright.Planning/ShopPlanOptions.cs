using NodaTime;

namespace Seamwright.Planning;

/// <summary>How to plan a whole shop.</summary>
public sealed record ShopPlanOptions
{
    /// <summary>Seed of the search. [≥ 0] Default 1.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Longest search; the first plan for all vehicles is finished even where that takes longer. [&gt; 0] Default 10 s.</summary>
    public Duration TimeLimit { get; init; } = Duration.FromSeconds(10);

    /// <summary>If given, the search ends after so many tries to move vehicles, whatever the clock says. [≥ 0]</summary>
    public int? Tries { get; init; }

    /// <summary>True: one thread and no clock, so that seed and tries alone decide the answer. Default false.</summary>
    public bool Deterministic { get; init; }

    /// <summary>Told now and then, from any thread.</summary>
    public IProgress<Work.ShopProgress>? Progress { get; init; }

    /// <summary>Ends the search; the best plan so far is answered.</summary>
    public CancellationToken Stop { get; init; }
}
