using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using Seamwright.Air;
using Seamwright.Curing;
using Seamwright.Work;

namespace Seamwright.Planning.Mapping;

/// <summary>
/// Cure clocks that several vehicles have in common: their panels follow the same air, so that each law is integrated once for all of them and
/// not once a vehicle. A clock holds a few hundred kilobytes; a shop of thirty vehicles with their own would need hundreds of megabytes.
/// </summary>
/// <param name="Panel">What the joints of all of them feel.</param>
/// <param name="From">Start of every clock.</param>
/// <param name="To">End of every clock.</param>
internal sealed record SharedClocks(PanelClimate Panel, Instant From, Instant To)
{
    private readonly ConcurrentDictionary<CureLaw, Lazy<CureClock>> _clocks = new();

    /// <summary>The clock of a law, built when first asked for. Safe from several threads.</summary>
    public CureClock Clock(CureLaw law) => _clocks.GetOrAdd(law, asked => new(() => CureClock.For(asked, Panel, From, To))).Value;

    /// <summary>For each vehicle the clocks that it shares with others; null where its panel is not simply in the shop's air.</summary>
    public static ImmutableArray<SharedClocks?> For(ImmutableArray<RepairInput> inputs)
    {
        var shared = new Dictionary<Climate, SharedClocks>(ReferenceEqualityComparer.Instance);
        foreach (var group in inputs.Where(MayShare).GroupBy(input => input.Climate, (IEqualityComparer<Climate>)ReferenceEqualityComparer.Instance))
        {
            var from = group.Min(input => Instant.Min(PlanningCase.EarliestFact(input.Repair), new PlanTime(input.Repair.Now, input.Repair.Now).Origin));
            var to = group.Max(input => Cures.EndOf(new PlanTime(input.Repair.Now, PlanningCase.End(input))));
            shared.Add(group.Key, new(PanelClimate.FollowingAir(group.Key), from, to));
        }
        return [.. inputs.Select(input => MayShare(input) ? shared[input.Climate] : null)];
    }

    private static bool MayShare(RepairInput input) => input.Repair.Panel is null;
}
